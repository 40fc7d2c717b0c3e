"""Water that a well-watered grass field would lose in a day: the reference that crops are scaled from.

Formulas of FAO-56: Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage Paper 56.
"""

import math

from scout.science import radiation
from scout.science.humidity import mean_saturation_kpa, saturation_vapour_pressure_kpa
from scout.science.limits import require_within

_WATER_PER_MJ = 0.408
USUAL_WIND_MS = 2.0
"""Wind at two metres where none is measured: the mean of 2000 stations, FAO-56 chapter 3."""


def pressure_kpa(altitude_m: float) -> float:
    """Return the usual air pressure at a height.

    Units: altitude_m metres; result kPa.
    Valid: -430 to 6000 m.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 7.
    """
    require_within("altitude_m", altitude_m, -430.0, 6000.0)
    return 101.3 * float(((293.0 - 0.0065 * altitude_m) / 293.0) ** 5.26)


def psychrometric_constant_kpa_per_c(altitude_m: float) -> float:
    """Return the psychrometric constant at a height.

    Units: altitude_m metres; result kPa/°C.
    Valid: -430 to 6000 m.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 8.
    """
    return 0.000665 * pressure_kpa(altitude_m)


def saturation_slope_kpa_per_c(t_c: float) -> float:
    """Return how fast the saturation pressure rises with temperature.

    Units: t_c °C; result kPa/°C.
    Valid: -50 to 60 °C.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 13.
    """
    return 4098.0 * saturation_vapour_pressure_kpa(t_c) / (t_c + 237.3) ** 2


def wind_at_2_m_ms(wind_ms: float, height_m: float) -> float:
    """Return the wind at two metres over grass from that at another height.

    Units: wind_ms m/s, height_m metres; result m/s.
    Valid: height_m 0.5 to 200.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 47.
    """
    require_within("height_m", height_m, 0.5, 200.0)
    require_within("wind_ms", wind_ms, 0.0, 120.0)
    return wind_ms * 4.87 / math.log(67.8 * height_m - 5.42)


def reference_et_hargreaves_mm(tmax_c: float, tmin_c: float, extraterrestrial_mj: float) -> float:
    """Return the reference evapotranspiration of a day from temperatures alone.

    Units: tmax_c, tmin_c °C; extraterrestrial_mj MJ m⁻² d⁻¹; result mm/d.
    Valid: tmin_c ≤ tmax_c; an estimate, best over five days and more; it runs high in humid air.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 52 (Hargreaves & Samani 1985).
    """
    require_within("tmin_c", tmin_c, -60.0, tmax_c)
    require_within("extraterrestrial_mj", extraterrestrial_mj, 0.0, 50.0)
    mean = (tmax_c + tmin_c) / 2.0
    return max(0.0, 0.0023 * (mean + 17.8) * math.sqrt(tmax_c - tmin_c) * _WATER_PER_MJ * extraterrestrial_mj)


def reference_et_penman_monteith_mm(
    tmax_c: float,
    tmin_c: float,
    vapour_kpa: float,
    wind_ms: float,
    net_radiation_mj: float,
    altitude_m: float,
    soil_heat_mj: float = 0.0,
) -> float:
    """Return the reference evapotranspiration of a day from temperature, humidity, wind and radiation.

    Units: tmax_c, tmin_c °C; vapour_kpa kPa; wind_ms m/s at 2 m; net_radiation_mj, soil_heat_mj MJ m⁻² d⁻¹;
    altitude_m metres; result mm/d.
    Valid: tmin_c ≤ tmax_c, wind 0 to 60 m/s.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 6.
    """
    require_within("wind_ms", wind_ms, 0.0, 60.0)
    mean = (tmax_c + tmin_c) / 2.0
    slope, gamma = saturation_slope_kpa_per_c(mean), psychrometric_constant_kpa_per_c(altitude_m)
    deficit = mean_saturation_kpa(tmax_c, tmin_c) - vapour_kpa
    warmth = _WATER_PER_MJ * slope * (net_radiation_mj - soil_heat_mj)
    air = gamma * 900.0 / (mean + 273.0) * wind_ms * deficit
    return (warmth + air) / (slope + gamma * (1.0 + 0.34 * wind_ms))


def reference_et_from_temperatures_mm(
    tmax_c: float,
    tmin_c: float,
    latitude_deg: float,
    day_of_year_n: int,
    altitude_m: float,
    *,
    wind_ms: float = USUAL_WIND_MS,
    dew_gap_k: float = 0.0,
    coastal: bool = False,
) -> float | None:
    """Return the reference evapotranspiration where humidity, sun and wind were not measured; None in the polar night.

    Units: tmax_c, tmin_c °C; latitude_deg degrees, south negative; altitude_m metres; wind_ms m/s at 2 m; dew_gap_k K
    by which the dew point lies under tmin_c (0 in humid places, 2 to 3 in dry ones); result mm/d.
    Valid: tmin_c ≤ tmax_c, wind 0 to 60 m/s, -90 to 90°; an estimate, best over ten days and more.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 6 with the procedures for missing data, eqs 48 and 50.
    """
    require_within("dew_gap_k", dew_gap_k, 0.0, 30.0)
    above = radiation.extraterrestrial_radiation_mj(latitude_deg, day_of_year_n)
    clear_sky = radiation.clear_sky_radiation_mj(above, altitude_m)
    if clear_sky < 0.01:
        return None
    solar = min(clear_sky, radiation.radiation_from_temperatures_mj(above, tmax_c, tmin_c, coastal=coastal))
    vapour = saturation_vapour_pressure_kpa(tmin_c - dew_gap_k)
    net = radiation.net_radiation_mj(solar, radiation.net_longwave_mj(tmax_c, tmin_c, vapour, solar, clear_sky))
    return max(0.0, reference_et_penman_monteith_mm(tmax_c, tmin_c, vapour, wind_ms, net, altitude_m))
