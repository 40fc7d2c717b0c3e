"""Hours in which leaves are likely wet, from the air; an estimate, never a finger on the leaf."""

from collections.abc import Sequence

from scout.science.humidity import dew_point_c
from scout.science.limits import require_within

HUMID_PCT = 90.0
DEW_GAP_C = 2.0
WET_FROM_C, WET_TO_C = -50.0, 60.0
"""Where a dew point can be told."""


def wet_hour(t_c: float, rh_pct: float, rain_mm: float | None) -> bool:
    """Return whether leaves were likely wet in an hour: rain, air at 90 % and more, or the dew point within 2 °C.

    Units: t_c °C, rh_pct %, rain_mm of the hour or None where it was not measured.
    Valid: WET_FROM_C to WET_TO_C, 0 to 100 %.
    Raises: ValueError outside that.
    Source: humidity and dew-point limits in common use, from memory; a sheltered leaf stays dry longer. Of the hours
    judged by 90 % alone 87 to 92 in a hundred were right (Sentelhas et al. 2008, Agric. For. Meteorol. 148:392).
    """
    require_within("t_c", t_c, WET_FROM_C, WET_TO_C)
    require_within("rh_pct", rh_pct, 0.0, 100.0)
    if rain_mm is not None and rain_mm > 0.0:
        return True
    return rh_pct >= HUMID_PCT or (rh_pct > 0.0 and t_c - dew_point_c(t_c, rh_pct) <= DEW_GAP_C)


def humid_hours_h(t_c: Sequence[float], rh_pct: Sequence[float]) -> tuple[int, float | None]:
    """Return how many hours the air stood at 90 % and more, and their mean temperature; None of no such hour.

    Units: t_c °C, rh_pct %, a value an hour; result whole hours and °C.
    Valid: 0 to 100 %, equal lengths.
    Raises: ValueError outside that.
    Source: the limit of Wallin 1962 and of the Hutton criteria 2017.
    """
    for humid in rh_pct:
        require_within("rh_pct", humid, 0.0, 100.0)
    return _counted([warmth for warmth, humid in zip(t_c, rh_pct, strict=True) if humid >= HUMID_PCT])


def _counted(warmths_c: list[float]) -> tuple[int, float | None]:
    return len(warmths_c), sum(warmths_c) / len(warmths_c) if warmths_c else None
