"""Units that a weather file may be in, by what a column means, and the words for both."""

from collections.abc import Callable

from scout.science.units import f_from_c, inch_from_mm

US = {"tmax": "f", "tmin": "f", "temp": "f", "rain": "in", "wind": "mph"}
METRIC = {"tmax": "c", "tmin": "c", "temp": "c", "rain": "mm", "wind": "ms"}
OTHER = {"wet_h": "h", "rh_mean": "pct", "rh": "pct"}
FITTING: dict[str, frozenset[str]] = {
    **dict.fromkeys(("tmax", "tmin", "temp"), frozenset({"c", "f"})),
    "rain": frozenset({"mm", "cm", "in"}),
    "wind": frozenset({"ms", "kmh", "mph", "kn"}),
    **dict.fromkeys(("wet_h", "wet", "wet_morning"), frozenset({"h", "min"})),
    **dict.fromkeys(("rh_mean", "rh"), frozenset({"pct"})),
}
UNIT_WORDS = {
    "c": "°C", "f": "°F", "mm": "mm", "cm": "cm", "in": "inches", "h": "hours", "min": "minutes", "pct": "%",
    "ms": "m/s", "kmh": "km/h", "mph": "miles per hour", "kn": "knots",
}  # fmt: skip
MEANING_WORDS = {
    "on": "the day", "at": "the time", "clock": "the hour", "tmax": "highest temperature",
    "tmin": "lowest temperature", "rain": "rain", "wet_h": "hours the leaves were wet",
    "wet_morning": "leaves wet in the morning", "rh_mean": "mean humidity", "temp": "temperature",
    "rh": "humidity", "wind": "wind", "wet": "leaves wet or dry",
}  # fmt: skip
ODD = {"tmax": (45.0, "°C"), "temp": (45.0, "°C"), "rain": (300.0, "mm")}
"""Highest figures that a garden hardly ever sees, whose unit is worth a second look. Our choice."""
BACK: dict[str, Callable[[float], float]] = {"f": f_from_c, "in": inch_from_mm, "cm": lambda value: value / 10.0}
"""From metric to the unit of the file, for showing what was read."""
