"""One day of weather: what each figure can be at all."""

from collections.abc import Mapping
from types import MappingProxyType

from scout.science.limits import require_within

LIMITS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "tmax_c": (-60.0, 60.0),
        "tmin_c": (-60.0, 60.0),
        "rain_mm": (0.0, 2000.0),
        "wet_h": (0.0, 24.0),
        "rh_mean_pct": (0.0, 100.0),
    }
)
"""Lowest and highest value a day can have; wide enough for any garden on record, narrow enough to catch °F."""

HOUR_LIMITS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {
        "temp_c": (LIMITS["tmin_c"][0], LIMITS["tmax_c"][1]),
        "rh_pct": LIMITS["rh_mean_pct"],
        "rain_mm": LIMITS["rain_mm"],
        "wind_ms": (0.0, 110.0),
    }
)
"""Lowest and highest value an hour can have; wind as a mean, the strongest gust on record is 113 m/s (from memory)."""


def check_day(
    tmax_c: float | None = None,
    tmin_c: float | None = None,
    rain_mm: float | None = None,
    wet_h: float | None = None,
    rh_mean_pct: float | None = None,
) -> None:
    """Refuse a day that cannot be; a figure that is missing (None) is not looked at.

    Units: °C, mm of water, hours of leaf wetness, % relative humidity.
    Valid: LIMITS, and tmin_c not above tmax_c.
    Raises: ValueError naming the first figure that is impossible.
    Source: our choice, outside the extremes listed by the world weather body (from memory: 56.7 °C, 1825 mm
        in a day).
    """
    day = {"tmax_c": tmax_c, "tmin_c": tmin_c, "rain_mm": rain_mm, "wet_h": wet_h, "rh_mean_pct": rh_mean_pct}
    for name, value in day.items():
        if value is not None:
            require_within(name, value, *LIMITS[name])
    if tmax_c is not None and tmin_c is not None and tmin_c > tmax_c:
        raise ValueError(f"tmin_c {tmin_c:g} is above tmax_c {tmax_c:g}")
