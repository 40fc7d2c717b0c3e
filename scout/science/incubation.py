"""From infection to the first spot at the temperatures of the days that passed."""

from collections.abc import Sequence

from scout.science.limits import require_within


def development_frac(day_mean_c: float, told_c: tuple[float, float], limits_c: tuple[float, float]) -> float:
    """Return how much of a usual day's growth inside the leaf one day gives: 1 where it was told, 0 at the limits.

    Units: day_mean_c mean temperature of the day, told_c the range in which the usual time was published, limits_c
        where growth stops, all °C; result a share.
    Valid: limits around the told range; straight lines between them.
    Raises: ValueError for limits inside the told range.
    Source: summing daily rates as for degree days; that growth slows in straight lines outside the told range is our
        own choice, the ranges come with the cause.
    """
    (low, high), (none_low, none_high) = told_c, limits_c
    if not none_low < low <= high < none_high:
        raise ValueError(f"limits_c {none_low:g} to {none_high:g} must lie around told_c {low:g} to {high:g}")
    if day_mean_c < low:
        return max(0.0, (day_mean_c - none_low) / (low - none_low))
    return min(1.0, max(0.0, (none_high - day_mean_c) / (none_high - high)))


def spots_by_d(
    day_mean_c: Sequence[float | None], usual_d: float, told_c: tuple[float, float], limits_c: tuple[float, float]
) -> float:
    """Return the days after which a leaf infected on the first day shows its spot, at the latest.

    A day without a temperature, and every day after the last, counts as a usual day.
    Units: day_mean_c a mean temperature a day from the day of infection, None where unknown; usual_d days from
        infection to spot in the told range, the longest that was published; result days.
    Valid: usual_d 0 to 60 days. Cold only lengthens the time: no source says how much warmth shortens it.
    Raises: ValueError outside that, or as development_frac.
    Source: as development_frac.
    """
    require_within("usual_d", usual_d, 0.0, 60.0)
    left = usual_d
    for passed, mean_c in enumerate(day_mean_c):
        gain = 1.0 if mean_c is None else development_frac(mean_c, told_c, limits_c)
        if gain >= left:
            return passed + (left / gain if left else 0.0)
        left -= gain
    return len(day_mean_c) + left
