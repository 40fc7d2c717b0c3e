"""Hours in which honey bees fly; unknown rain may have kept them in, so it is never taken for none."""

from collections.abc import Sequence

from scout.science.limits import require_within

COLDEST_C, HOTTEST_C = 13.0, 38.0
WINDIEST_MS = 6.7


def fit_for_bees(t_c: float, rain_mm: float | None, wind_ms: float | None) -> bool | None:
    """Return whether honey bees would fly in an hour of daylight; None where only unmeasured rain could tell.

    Units: t_c °C, rain_mm of the hour, wind_ms m/s; None where it was not measured.
    Valid: wind that was not measured counts as calm, as few gardens measure it. Bumble bees fly in colder and
    duller weather.
    Raises: ValueError for a temperature that cannot be.
    Source: common practice, no source: 13 to 38 °C, no rain, wind under 6.7 m/s (15 mph).
    """
    require_within("t_c", t_c, -60.0, 60.0)
    if not COLDEST_C <= t_c <= HOTTEST_C or (wind_ms is not None and wind_ms >= WINDIEST_MS):
        return False
    return None if rain_mm is None else rain_mm <= 0.0


def bee_hours_h(t_c: Sequence[float], rain_mm: Sequence[float | None], wind_ms: Sequence[float | None]) -> int | None:
    """Return how many of these hours were fit for bees; None where unmeasured rain could change the number.

    Units: a value an hour, as fit_for_bees; result whole hours.
    Valid: equal lengths.
    Raises: ValueError outside that.
    Source: fit_for_bees.
    """
    fit = [fit_for_bees(*hour) for hour in zip(t_c, rain_mm, wind_ms, strict=True)]
    return None if None in fit else sum(one is True for one in fit)
