"""Heat index for the person at work, by the procedure of the US National Weather Service."""

import math
from typing import Literal

from scout.science.limits import require_within
from scout.science.units import c_from_f, f_from_c

HeatClass = Literal["none", "caution", "extreme_caution", "danger", "extreme_danger"]

FULL_SUN_ADDITION_K = 15.0 / 1.8
"""Full sun can add up to 15 °F (8.33 K) to the index, which is made for shade and light wind."""

_FROM_F: tuple[tuple[float, HeatClass], ...] = (
    (125.0, "extreme_danger"),
    (103.0, "danger"),
    (90.0, "extreme_caution"),
    (80.0, "caution"),
)


def heat_index_f(t_f: float, rh_pct: float) -> float:
    """Return the heat index in the shade.

    Units: t_f °F, rh_pct %; result °F.
    Valid: -58 to 140 °F. Below an index of 80 °F the mean of the simple value and the air temperature is
        returned (the published text leaves open which of the two it means; they differ by up to 1 °F).
        The author of the regression states an error of ±1.3 °F.
    Raises: ValueError for a temperature or humidity outside the valid range.
    Source: NWS Weather Prediction Center, The Heat Index Equation; Rothfusz 1990, SR 90-23, after
        Steadman 1979.
    """
    require_within("t_f", t_f, -58.0, 140.0)
    require_within("rh_pct", rh_pct, 0.0, 100.0)
    simple = 0.5 * (t_f + 61.0 + (t_f - 68.0) * 1.2 + rh_pct * 0.094)
    averaged = (simple + t_f) / 2.0
    if averaged < 80.0:
        return averaged
    return _regression(t_f, rh_pct) + _adjustment(t_f, rh_pct)


def heat_index_c(t_c: float, rh_pct: float) -> float:
    """Return the heat index in the shade.

    Units: t_c °C, rh_pct %; result °C.
    Valid: -50 to 60 °C; see heat_index_f.
    Raises: ValueError for a temperature or humidity outside the valid range.
    Source: as heat_index_f, converted.
    """
    require_within("t_c", t_c, -50.0, 60.0)
    return c_from_f(heat_index_f(f_from_c(t_c), rh_pct))


def in_full_sun_c(index_c: float) -> float:
    """Return the index that a person in full sun may feel at worst.

    Units: index_c °C; result °C.
    Valid: any index of heat_index_c; the addition is an upper limit, not a measurement.
    Source: National Weather Service, heat safety pages: full sun adds up to 15 °F.
    """
    return index_c + FULL_SUN_ADDITION_K


def heat_class(index_c: float) -> HeatClass:
    """Return the caution class of an index; each lower bound belongs to its class.

    Units: index_c °C.
    Valid: any index; the printed table leaves 124 to 125 °F open, here it is danger.
    Raises: ValueError when index_c is not a number.
    Source: NOAA heat index table: 80, 90, 103 and 125 °F (older tables print 105 and 130).
    """
    if math.isnan(index_c):
        raise ValueError("index_c is not a number")
    for from_f, name in _FROM_F:
        if index_c >= c_from_f(from_f):
            return name
    return "none"


def _regression(t_f: float, rh_pct: float) -> float:
    return (
        -42.379
        + 2.04901523 * t_f
        + 10.14333127 * rh_pct
        - 0.22475541 * t_f * rh_pct
        - 0.00683783 * t_f**2
        - 0.05481717 * rh_pct**2
        + 0.00122874 * t_f**2 * rh_pct
        + 0.00085282 * t_f * rh_pct**2
        - 0.00000199 * t_f**2 * rh_pct**2
    )


def _adjustment(t_f: float, rh_pct: float) -> float:
    if rh_pct < 13.0 and 80.0 <= t_f <= 112.0:
        return -((13.0 - rh_pct) / 4.0) * math.sqrt((17.0 - abs(t_f - 95.0)) / 17.0)
    if rh_pct > 85.0 and 80.0 <= t_f <= 87.0:
        return ((rh_pct - 85.0) / 10.0) * ((87.0 - t_f) / 5.0)
    return 0.0
