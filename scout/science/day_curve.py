"""The hours of a day where only its high and its low are known; an estimate, never a measurement."""

import math

from scout.science.humidity import saturation_vapour_pressure_kpa
from scout.science.limits import require_within

COOLEST_H = 6.0
WARMEST_H = 15.0
"""Hours of the low and the high by the wall clock in a summer of mid latitudes. Our choice."""


def temperature_at_c(clock_h: float, tmin_c: float, tmax_c: float) -> float:
    """Return the air temperature at an hour: a half wave up from the low to the high, and one back down to the low.

    Units: clock_h hours since midnight, tmin_c and tmax_c °C; result °C.
    Valid: 0 to 24 h, tmin_c up to tmax_c, -50 to 60 °C; clear days with the low at 6 and the high at 15. A front or a
        storm makes another day of it.
    Raises: ValueError outside that.
    Source: common practice, no source: the cosine curve through a day's low and high.
    """
    require_within("clock_h", clock_h, 0.0, 24.0)
    require_within("tmax_c", tmax_c, -50.0, 60.0)
    require_within("tmin_c", tmin_c, -50.0, tmax_c)
    rising = WARMEST_H - COOLEST_H
    since = (clock_h - COOLEST_H) % 24.0
    share = since / rising if since <= rising else 1.0 + (since - rising) / (24.0 - rising)
    return tmin_c + (tmax_c - tmin_c) * (1.0 - math.cos(math.pi * share)) / 2.0


def humidity_at_pct(t_c: float, dew_c: float) -> float:
    """Return the humidity of air of a known dew point at a temperature; 100 where it is cooler than the dew point.

    Units: t_c and dew_c °C; result %.
    Valid: as saturation_vapour_pressure_kpa. Over a day the dew point changes little; the night's low stands for it in
        humid places and is too high in dry ones.
    Raises: ValueError outside that.
    Source: FAO-56, equations 11 and 14, and chapter 3 for the low as the dew point.
    """
    return 100.0 * min(1.0, saturation_vapour_pressure_kpa(dew_c) / saturation_vapour_pressure_kpa(t_c))
