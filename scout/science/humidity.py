"""Water vapour in the air: saturation pressure, dew point, deficit.

Formulas of FAO-56: Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage Paper 56.
"""

import math

from scout.science.limits import require_within

_LOW_C, _HIGH_C = -50.0, 60.0


def saturation_vapour_pressure_kpa(t_c: float) -> float:
    """Return the vapour pressure of saturated air over water.

    Units: t_c °C; result kPa.
    Valid: -50 to 60 °C (printed for 1 to 48.5 °C). For a day use mean_saturation_kpa, not the mean temperature.
    Raises: ValueError outside -50 to 60 °C.
    Source: FAO-56, eq. 11.
    """
    require_within("t_c", t_c, _LOW_C, _HIGH_C)
    return 0.6108 * math.exp(17.27 * t_c / (t_c + 237.3))


def mean_saturation_kpa(tmax_c: float, tmin_c: float) -> float:
    """Return the saturation pressure of a day, the mean of those at its highest and lowest temperature.

    Units: tmax_c, tmin_c °C; result kPa.
    Valid: -50 to 60 °C, tmin_c ≤ tmax_c.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 12.
    """
    _require_order(tmax_c, tmin_c)
    return (saturation_vapour_pressure_kpa(tmax_c) + saturation_vapour_pressure_kpa(tmin_c)) / 2.0


def actual_vapour_pressure_kpa(tmax_c: float, tmin_c: float, rh_max_pct: float, rh_min_pct: float) -> float:
    """Return the vapour pressure of a day; the highest humidity goes with the lowest temperature.

    Units: tmax_c, tmin_c °C; rh_max_pct, rh_min_pct %; result kPa.
    Valid: -50 to 60 °C, 0 to 100 %, each minimum not above its maximum.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 17.
    """
    _require_order(tmax_c, tmin_c)
    require_within("rh_max_pct", rh_max_pct, 0.0, 100.0)
    require_within("rh_min_pct", rh_min_pct, 0.0, rh_max_pct)
    at_night = saturation_vapour_pressure_kpa(tmin_c) * rh_max_pct
    by_day = saturation_vapour_pressure_kpa(tmax_c) * rh_min_pct
    return (at_night + by_day) / 200.0


def vapour_pressure_deficit_kpa(t_c: float, rh_pct: float) -> float:
    """Return how far the air is from saturation at one moment.

    Units: t_c °C, rh_pct %; result kPa.
    Valid: -50 to 60 °C, 0 to 100 %.
    Raises: ValueError outside that.
    Source: FAO-56, eqs 10 and 11.
    """
    require_within("rh_pct", rh_pct, 0.0, 100.0)
    return saturation_vapour_pressure_kpa(t_c) * (1.0 - rh_pct / 100.0)


def dew_point_c(t_c: float, rh_pct: float) -> float:
    """Return the temperature at which this air begins to wet a leaf.

    Units: t_c °C, rh_pct %; result °C.
    Valid: -50 to 60 °C, over 0 to 100 %. In saturated air up to 0.02 °C off t_c; below freezing up to 0.25 °C
        off other formulas.
    Raises: ValueError outside that; air without vapour has no dew point.
    Source: FAO-56, annex 3, eq. 3-11.
    """
    require_within("rh_pct", rh_pct, 0.0, 100.0)
    if rh_pct == 0.0:
        raise ValueError("rh_pct is 0: air without vapour has no dew point")
    log_pressure = math.log(saturation_vapour_pressure_kpa(t_c) * rh_pct / 100.0)
    return (116.91 + 237.3 * log_pressure) / (16.78 - log_pressure)


def _require_order(tmax_c: float, tmin_c: float) -> None:
    if tmin_c > tmax_c:
        raise ValueError(f"tmin_c {tmin_c:g} is above tmax_c {tmax_c:g}")
