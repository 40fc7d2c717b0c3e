"""Sunshine at a place and day: day length, radiation outside the air, at the ground, and what is left of it.

Formulas of FAO-56: Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage Paper 56, chapter 3.
"""

import math

from scout.science.limits import require_within

_SOLAR_CONSTANT = 0.0820
_STEFAN_BOLTZMANN = 4.903e-9
_DAYS = (1, 366)


def extraterrestrial_radiation_mj(latitude_deg: float, day_of_year_n: int) -> float:
    """Return the radiation that reaches the top of the air in a day.

    Units: latitude_deg degrees, south negative; day_of_year_n 1-366; result MJ m⁻² d⁻¹.
    Valid: -90 to 90°; 0 in the polar night.
    Raises: ValueError outside that.
    Source: FAO-56, eqs 21 to 25.
    """
    sunset, declination, distance = _sun(latitude_deg, day_of_year_n)
    latitude = math.radians(latitude_deg)
    height = sunset * math.sin(latitude) * math.sin(declination)
    height += math.cos(latitude) * math.cos(declination) * math.sin(sunset)
    return max(0.0, 24.0 * 60.0 / math.pi * _SOLAR_CONSTANT * distance * height)


def day_length_h(latitude_deg: float, day_of_year_n: int) -> float:
    """Return the hours from sunrise to sunset over a flat horizon.

    Units: latitude_deg degrees, south negative; day_of_year_n 1-366; result hours.
    Valid: -90 to 90°; 0 in the polar night, 24 in the polar day.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 34.
    """
    return 24.0 / math.pi * _sun(latitude_deg, day_of_year_n)[0]


def _sun(latitude_deg: float, day_of_year_n: int) -> tuple[float, float, float]:
    """Return sunset hour angle, declination (radians) and relative inverse distance."""
    require_within("latitude_deg", latitude_deg, -90.0, 90.0)
    require_within("day_of_year_n", day_of_year_n, *_DAYS)
    turn = 2.0 * math.pi * day_of_year_n / 365.0
    declination = 0.409 * math.sin(turn - 1.39)
    edge = -math.tan(math.radians(latitude_deg)) * math.tan(declination)
    return math.acos(max(-1.0, min(1.0, edge))), declination, 1.0 + 0.033 * math.cos(turn)


def radiation_from_sunshine_mj(extraterrestrial_mj: float, sunshine_h: float, daylight_h: float) -> float:
    """Return the radiation at the ground from the hours of bright sunshine.

    Units: extraterrestrial_mj MJ m⁻² d⁻¹, sunshine_h and daylight_h hours; result MJ m⁻² d⁻¹.
    Valid: 0 ≤ sunshine_h ≤ daylight_h ≤ 24; a quarter of the radiation passes an overcast sky.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 35 with its standard coefficients.
    """
    require_within("daylight_h", daylight_h, 0.01, 24.0)
    require_within("sunshine_h", sunshine_h, 0.0, daylight_h)
    return (0.25 + 0.50 * sunshine_h / daylight_h) * extraterrestrial_mj


def radiation_from_temperatures_mj(
    extraterrestrial_mj: float, tmax_c: float, tmin_c: float, *, coastal: bool = False
) -> float:
    """Return an estimate of the radiation at the ground from the span of the day's temperatures.

    Units: extraterrestrial_mj MJ m⁻² d⁻¹, tmax_c and tmin_c °C; result MJ m⁻² d⁻¹.
    Valid: tmin_c ≤ tmax_c; an estimate, for places away from high mountains.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 50; 0.16 inland, 0.19 at the coast.
    """
    require_within("tmin_c", tmin_c, -60.0, tmax_c)
    return (0.19 if coastal else 0.16) * math.sqrt(tmax_c - tmin_c) * extraterrestrial_mj


def clear_sky_radiation_mj(extraterrestrial_mj: float, altitude_m: float) -> float:
    """Return the radiation at the ground under a clear sky.

    Units: extraterrestrial_mj MJ m⁻² d⁻¹, altitude_m metres; result MJ m⁻² d⁻¹.
    Valid: -430 to 6000 m.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 37.
    """
    require_within("altitude_m", altitude_m, -430.0, 6000.0)
    return (0.75 + 2e-5 * altitude_m) * extraterrestrial_mj


def net_longwave_mj(tmax_c: float, tmin_c: float, vapour_kpa: float, solar_mj: float, clear_sky_mj: float) -> float:
    """Return what the ground loses as heat radiation in a day.

    Units: tmax_c, tmin_c °C; vapour_kpa kPa; solar_mj, clear_sky_mj and result MJ m⁻² d⁻¹.
    Valid: clear_sky_mj above 0; solar above the clear sky counts as clear.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 39.
    """
    require_within("clear_sky_mj", clear_sky_mj, 1e-6, 60.0)
    require_within("vapour_kpa", vapour_kpa, 0.0, 20.0)
    black = _STEFAN_BOLTZMANN * ((tmax_c + 273.16) ** 4 + (tmin_c + 273.16) ** 4) / 2.0
    cloud = 1.35 * min(1.0, solar_mj / clear_sky_mj) - 0.35
    return black * (0.34 - 0.14 * math.sqrt(vapour_kpa)) * cloud


def net_radiation_mj(solar_mj: float, net_longwave_loss_mj: float) -> float:
    """Return what radiation a grass surface keeps in a day.

    Units: MJ m⁻² d⁻¹ throughout.
    Valid: solar_mj from 0; may be negative in winter.
    Raises: ValueError for a negative solar_mj.
    Source: FAO-56, eqs 38 and 40, albedo 0.23.
    """
    require_within("solar_mj", solar_mj, 0.0, 60.0)
    return 0.77 * solar_mj - net_longwave_loss_mj
