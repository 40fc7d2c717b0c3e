"""The unit endings of parameter names, and the conversions between units.

Inside Bedwalk everything is metric; other units exist only where text comes in or goes out.
"""

from collections.abc import Mapping
from types import MappingProxyType

SUFFIXES: Mapping[str, str] = MappingProxyType(
    {
        "c": "temperature, °C",
        "f": "temperature, °F",
        "k": "difference of temperature, K",
        "cd": "degree days, °C·d",
        "fd": "degree days, °F·d",
        "mm": "length or water depth, mm",
        "m": "length or height, m",
        "inch": "length, inch",
        "h": "time, hours",
        "d": "time, days",
        "per_d": "rate, 1/day",
        "kmh": "speed, km/h",
        "ms": "speed, m/s",
        "mph": "speed, miles/h",
        "kpa": "pressure, kPa",
        "mj": "radiation of a day, MJ/m²",
        "deg": "angle, degrees",
        "pct": "per cent, 0 to 100",
        "frac": "share or probability, 0 to 1",
        "ratio": "one quantity over another of its kind",
        "n": "a count",
        "same": "the unit of the series it stands beside",
    }
)

_K_PER_F = 1.8
_MM_PER_INCH = 25.4
_KMH_PER_MPH = 1.609344


def c_from_f(t_f: float) -> float:
    """Return a temperature in °C.

    Units: t_f °F; result °C.
    Valid: any number; plausibility is checked elsewhere.
    Source: definition of the Fahrenheit degree.
    """
    return (t_f - 32.0) / _K_PER_F


def f_from_c(t_c: float) -> float:
    """Return a temperature in °F.

    Units: t_c °C; result °F.
    Valid: any number; plausibility is checked elsewhere.
    Source: definition of the Fahrenheit degree.
    """
    return t_c * _K_PER_F + 32.0


def mm_from_inch(length_inch: float) -> float:
    """Return a length in mm.

    Units: length_inch inch; result mm.
    Valid: any number.
    Source: international inch, 25.4 mm exactly.
    """
    return length_inch * _MM_PER_INCH


def inch_from_mm(length_mm: float) -> float:
    """Return a length in inches.

    Units: length_mm mm; result inch.
    Valid: any number.
    Source: international inch, 25.4 mm exactly.
    """
    return length_mm / _MM_PER_INCH


def kmh_from_ms(speed_ms: float) -> float:
    """Return a speed in km/h.

    Units: speed_ms m/s; result km/h.
    Valid: any number.
    Source: definition of the units.
    """
    return speed_ms * 3.6


def ms_from_kmh(speed_kmh: float) -> float:
    """Return a speed in m/s.

    Units: speed_kmh km/h; result m/s.
    Valid: any number.
    Source: definition of the units.
    """
    return speed_kmh / 3.6


def mph_from_kmh(speed_kmh: float) -> float:
    """Return a speed in miles/h.

    Units: speed_kmh km/h; result miles/h.
    Valid: any number.
    Source: international mile, 1.609344 km exactly.
    """
    return speed_kmh / _KMH_PER_MPH


def kmh_from_mph(speed_mph: float) -> float:
    """Return a speed in km/h.

    Units: speed_mph miles/h; result km/h.
    Valid: any number.
    Source: international mile, 1.609344 km exactly.
    """
    return speed_mph * _KMH_PER_MPH
