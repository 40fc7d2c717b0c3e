"""How fast fruit grows at a temperature, and on which days a fruit of a given age can have been in flower.

Ages are told in days at one stated temperature; a warmer day counts for more than one of them, a cooler one for less.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from datetime import date, timedelta

from scout.science.limits import require_within
from scout.science.windows import Window

_LONGEST_D = 400
_ROUNDING = 1e-9


def pace_per_d(mean_c: float, at_c: float, base_c: float, days_at_c: Sequence[tuple[float, float]]) -> float:
    """Return how many days of growth at `at_c` one day at `mean_c` is worth.

    Units: mean_c, at_c and base_c °C, days_at_c pairs of °C and days from flower to harvest; result a ratio.
    Valid: pairs in rising order, warmer than base_c; the rate is zero up to base_c, runs straight between the
    pairs, and stays as it is above the last: where no faster growth was measured none is assumed.
    Raises: ValueError for pairs out of order or no growth at at_c.
    Source: definition of a rate of development, one over days; the pairs come with the crop.
    """
    reference = _rate_per_d(at_c, base_c, days_at_c)
    if reference <= 0.0:
        raise ValueError(f"at_c is {at_c:g}, at which nothing grows; base_c is {base_c:g}")
    return _rate_per_d(mean_c, base_c, days_at_c) / reference


def _rate_per_d(mean_c: float, base_c: float, days_at_c: Sequence[tuple[float, float]]) -> float:
    require_within("mean_c", mean_c, -60.0, 60.0)
    low_c, low_rate = base_c, 0.0
    if mean_c <= low_c:
        return 0.0
    for point_c, days_d in days_at_c:
        if point_c <= low_c:
            raise ValueError(f"days_at_c has {point_c:g} °C after {low_c:g} °C; the pairs must rise")
        require_within("days_at_c", days_d, 1.0, _LONGEST_D)
        rate = 1.0 / days_d
        if mean_c <= point_c:
            return low_rate + (rate - low_rate) * (mean_c - low_c) / (point_c - low_c)
        low_c, low_rate = point_c, rate
    return low_rate


def flowering_by_pace(
    on: date, age_d: tuple[float, float], pace_frac: Mapping[date, float], usual_frac: float
) -> Window:
    """Return the days on which a fruit that has this age on `on` can have been in flower.

    Units: age_d least and most days at the temperature the pace is told for; pace_frac and usual_frac days a day.
    Valid: 0 ≤ least ≤ most ≤ 400; a day without a pace counts for usual_frac, above 0; part days widen the window.
    The flower's own day counts, the day `on` does not: it is not over.
    Raises: ValueError outside that.
    Source: sum of rates of development; at a pace of 1 it is plain counting back.
    """
    youngest, oldest = _steps(lambda back: pace_frac.get(on - timedelta(days=back), usual_frac), age_d, usual_frac)
    return Window(on - timedelta(days=oldest), on - timedelta(days=youngest))


def picking_by_pace(
    flower: date, age_d: tuple[float, float], pace_frac: Mapping[date, float], usual_frac: float
) -> Window:
    """Return the days on which fruit of a flower that opens on this day can reach this age.

    Units: as for `flowering_by_pace`; days to come usually have no pace and count for usual_frac.
    Valid: as for `flowering_by_pace`.
    Raises: ValueError outside that.
    Source: sum of rates of development.
    """
    first, last = _steps(lambda ahead: pace_frac.get(flower + timedelta(days=ahead - 1), usual_frac), age_d, usual_frac)
    return Window(flower + timedelta(days=first), flower + timedelta(days=last))


def _steps(pace_of: Callable[[int], float], age_d: tuple[float, float], usual_frac: float) -> tuple[int, int]:
    """Return the most days after which the least age is not passed, and the fewest after which the most is reached."""
    least_d, most_d = age_d
    require_within("most age_d", most_d, 0.0, _LONGEST_D)
    require_within("least age_d", least_d, 0.0, most_d)
    if not (math.isfinite(usual_frac) and usual_frac > 0.0):
        raise ValueError(f"usual_frac is {usual_frac:g}, it must be above 0")
    grown, step, fewest = 0.0, 0, 0
    while grown < most_d - _ROUNDING and step < _LONGEST_D:
        step += 1
        grown += pace_of(step)
        if grown <= least_d + _ROUNDING:
            fewest = step
    return fewest, step
