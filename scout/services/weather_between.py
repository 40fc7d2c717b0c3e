"""Could the weather have done it: the days before a job against the days after."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from scout.diagnosis.evidence import Day
from scout.knowledge.cause_file import Cause
from scout.services.context import Context

WINDOW_D = 7
COOLER_C = 3.0
"""A mean this much lower slows insects, mites and fungi. Our choice: about a fifth of their working range."""
DRIER = 0.5
"""Rain or wet hours down to half or less. Our choice."""
WET_ENOUGH_MM, WET_ENOUGH_H = 10.0, 6.0
"""Less than this before, a week or a day, was no wet spell that could end. Our choice."""
HEAVY_MM = 25.0
"""A day's rain that washes small pests off. Our choice, common practice, no source."""
_SMALL_PESTS = ("aphids", "thrips", "whitefly", "two_spotted_mites", "flea_beetles")
_LEAST_DAYS = 3
Turn = Literal["cooler", "warmer", "drier", "wetter"]
_OPPOSITE: dict[Turn, Turn] = {"cooler": "warmer", "warmer": "cooler", "drier": "wetter", "wetter": "drier"}
_EASED_BY: dict[str, tuple[Turn, ...]] = {
    "insect": ("cooler",),
    "mite": ("cooler", "wetter"),
    "fungal": ("drier", "cooler"),
    "oomycete": ("drier",),
    "bacterial": ("drier", "cooler"),
    "mollusc": ("drier",),
    "heat": ("cooler",),
    "sun": ("cooler",),
    "pollination": ("cooler",),
    "water": ("cooler", "wetter"),
}
"""Turns of the weather after which this kind of trouble eases by itself."""
_USUALLY: tuple[Turn, ...] = ("cooler", "drier")


@dataclass(frozen=True)
class Spell:
    """What the days of one window were like; None where too few were recorded."""

    days_n: int
    mean_c: float | None
    rain_mm: float | None
    """Sum, brought to a week."""
    wet_h: float | None
    """Mean wet hours of a day."""


@dataclass(frozen=True)
class WeatherBetween:
    """The two windows, and whether they may explain a change."""

    before: Spell
    after: Spell
    known: bool
    helps: str | None
    """Why the trouble would have eased by itself."""
    hinders: str | None
    """Why it would have grown by itself."""


def weather_between(
    context: Context, before_on: date, after_on: date, done_on: date, cause: Cause | None
) -> WeatherBetween:
    """Return the weather before and after a job, and what of it may explain a change in what was counted."""
    from scout.services.weather import days_between

    first = min(before_on, done_on)
    before = days_between(context, first - timedelta(days=WINDOW_D - 1), first)
    after = days_between(context, done_on + timedelta(days=1), after_on)
    one, other = _spell(before), _spell(after)
    known = min(one.days_n, other.days_n) >= _LEAST_DAYS and one.mean_c is not None and other.mean_c is not None
    if not known:
        return WeatherBetween(one, other, False, None, None)
    eases = _EASED_BY.get(cause.kind, _USUALLY) if cause else _USUALLY
    helps = _first(one, other, eases) or _washed(after, cause)
    return WeatherBetween(one, other, True, helps, _first(one, other, tuple(_OPPOSITE[turn] for turn in eases)))


def _spell(days: Sequence[Day]) -> Spell:
    means = [(day.tmax_c + day.tmin_c) / 2.0 for day in days if day.tmax_c is not None and day.tmin_c is not None]
    rain = [day.rain_mm for day in days if day.rain_mm is not None]
    wet = [day.wet_h for day in days if day.wet_h is not None]
    rain_d = _mean(rain)
    return Spell(len(days), _mean(means), None if rain_d is None else 7.0 * rain_d, _mean(wet))


def _mean(values: Sequence[float]) -> float | None:
    return sum(values) / len(values) if len(values) >= _LEAST_DAYS else None


def _first(before: Spell, after: Spell, turns: Sequence[Turn]) -> str | None:
    """Return the first of these turns that the weather took, in words."""
    found = (_temperature(before, after, t) if t in ("cooler", "warmer") else _wetness(before, after, t) for t in turns)
    return next((text for text in found if text), None)


def _temperature(before: Spell, after: Spell, turn: Turn) -> str | None:
    if before.mean_c is None or after.mean_c is None:
        return None
    rise = after.mean_c - before.mean_c
    if (rise if turn == "warmer" else -rise) < COOLER_C:
        return None
    return f"{turn}: mean {before.mean_c:.0f} °C before, {after.mean_c:.0f} °C after"


def _wetness(before: Spell, after: Spell, turn: Turn) -> str | None:
    """Return the turn by wet hours where both windows have them, else by rain."""
    if before.wet_h is not None and after.wet_h is not None:
        if _halved(before.wet_h, after.wet_h, turn, WET_ENOUGH_H):
            return f"{turn}: leaves wet {before.wet_h:.0f} hours a day before, {after.wet_h:.0f} after"
        return None
    if (
        before.rain_mm is None
        or after.rain_mm is None
        or not _halved(before.rain_mm, after.rain_mm, turn, WET_ENOUGH_MM)
    ):
        return None
    return f"{turn}: {before.rain_mm:.0f} mm of rain a week before, {after.rain_mm:.0f} mm after"


def _halved(before: float, after: float, turn: Turn, enough: float) -> bool:
    wet, dry = (before, after) if turn == "drier" else (after, before)
    return wet >= enough and dry <= DRIER * wet


def _washed(days: Sequence[Day], cause: Cause | None) -> str | None:
    if cause is None or cause.id not in _SMALL_PESTS:
        return None
    heavy = max((day.rain_mm for day in days if day.rain_mm is not None), default=0.0)
    return f"washed: {heavy:.0f} mm of rain on one day, which takes small pests off" if heavy >= HEAVY_MM else None
