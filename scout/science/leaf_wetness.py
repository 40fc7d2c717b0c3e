"""Hours in which leaves are likely wet, from the air; an estimate, never a finger on the leaf."""

from collections.abc import Sequence

from scout.science.humidity import dew_point_c
from scout.science.limits import require_within

HUMID_PCT = 90.0
DEW_GAP_C = 2.0


def wet_hour(t_c: float, rh_pct: float, rain_mm: float | None) -> bool:
    """Return whether leaves were likely wet in an hour: rain, air at 90 % and more, or the dew point within 2 °C.

    Units: t_c °C, rh_pct %, rain_mm of the hour or None where it was not measured.
    Valid: -40 to 55 °C, 0 to 100 %.
    Raises: ValueError outside that.
    Source: humidity and dew-point limits in common use, from memory; a sheltered leaf stays dry longer.
    """
    require_within("rh_pct", rh_pct, 0.0, 100.0)
    if rain_mm is not None and rain_mm > 0.0:
        return True
    return rh_pct >= HUMID_PCT or (rh_pct > 0.0 and t_c - dew_point_c(t_c, rh_pct) <= DEW_GAP_C)


def wet_hours_h(
    t_c: Sequence[float], rh_pct: Sequence[float], rain_mm: Sequence[float | None]
) -> tuple[int, float | None]:
    """Return how many hours leaves were likely wet, and their mean temperature; None of no wet hour.

    Units: t_c °C, rh_pct %, rain_mm or None, a value an hour; result whole hours and °C.
    Valid: as wet_hour, equal lengths.
    Raises: ValueError outside that.
    Source: wet_hour.
    """
    hours = zip(t_c, rh_pct, rain_mm, strict=True)
    wet = [warmth for warmth, humid, rain in hours if wet_hour(warmth, humid, rain)]
    return len(wet), sum(wet) / len(wet) if wet else None


def fit_for_bees(t_c: float, rain_mm: float | None, wind_ms: float | None) -> bool:
    """Return whether honey bees would fly in an hour of daylight.

    Units: t_c °C, rain_mm of the hour, wind_ms m/s; None where it was not measured counts as fit.
    Valid: any; bumble bees fly in colder and duller weather.
    Raises: nothing.
    Source: common practice, no source: 13 to 38 °C, no rain, wind under 6.7 m/s (15 mph).
    """
    dry = rain_mm is None or rain_mm <= 0.0
    calm = wind_ms is None or wind_ms < 6.7
    return 13.0 <= t_c <= 38.0 and dry and calm
