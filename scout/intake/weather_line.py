"""A day of weather typed in one line: highest, lowest, rain, wet or dry morning."""

import re
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Literal

from scout.errors import BadInput
from scout.intake.dates import read_date
from scout.intake.decimals import read_decimal
from scout.plain import clean_text, shortened
from scout.science.units import c_from_f, mm_from_inch
from scout.science.weather_day import LIMITS

Units = Literal["metric", "us"]
EXAMPLE = {"metric": "34 22 3,5 wet", "us": "94 72 0.3 wet"}

_NUMBER = re.compile(r"([-+\u2212]?[0-9.,]*[0-9][0-9.,]*)(°?[cf]|mm|in|inch|inches|[\"″])?", re.IGNORECASE)
_UNITS = {"c": "c", "f": "f", "mm": "mm", "in": "in", "inch": "in", "inches": "in", '"': "in", "″": "in"}
_MORNING = {"wet": True, "dry": False}
_NOT_MEASURED = frozenset({"-", "–", "?"})
_MOST_NUMBERS = 3


@dataclass(frozen=True, slots=True)
class DayLine:
    """What the line says; None for what it leaves out."""

    on: date | None
    """None: the line names no day."""
    tmax_c: float | None
    tmin_c: float | None
    rain_mm: float | None
    wet_morning: bool | None


@dataclass(frozen=True, slots=True)
class _Figure:
    token: str
    value: float | None
    unit: str | None


@dataclass(slots=True)
class _Parts:
    on: date | None = None
    wet: bool | None = None
    figures: list[_Figure] = field(default_factory=list)


def read_line(text: str, units: Units, *, today: date | None = None) -> DayLine:
    """Return the day in a line such as "34 22 3,5 wet", "yesterday 94F 72F 0.3in dry" or "34 22".

    Order: date if any, highest, lowest, rain if any, wet or dry if any; "-" for not measured. `units` hold for
    figures that name none; a unit on one temperature holds for both. Errors: BadInput naming the word at fault.
    """
    tokens = clean_text(text).split()
    parts = _Parts()
    if tokens and (on := _day(tokens[0], today)) is not None:
        parts.on = on
        tokens = tokens[1:]
    for token in tokens:
        _take(token, parts)
    return _line(parts, units)


def _day(token: str, today: date | None) -> date | None:
    word = token.lower()
    if word in ("today", "yesterday"):
        if today is None:
            raise BadInput(f"“{word}” cannot be used here; write the date like 2026-07-20.")
        return today - timedelta(days=word == "yesterday")
    if not re.match(r"\d+[-/.]\d+[-/.]\d", token):
        return None
    on = read_date(token)
    if today is not None and on > today:
        raise BadInput(f"“{shortened(token)}” is still to come; only measured weather is kept here.")
    return on


def _take(token: str, parts: _Parts) -> None:
    word = token.lower()
    found = _NUMBER.fullmatch(token)
    if word in _MORNING:
        if parts.wet is not None:
            raise BadInput(f"“{word}” comes after wet or dry was already said; keep one of them.")
        parts.wet = _MORNING[word]
    elif word in _NOT_MEASURED:
        parts.figures.append(_Figure(token, None, None))
    elif word.lstrip("°") in _UNITS and parts.figures and parts.figures[-1].unit is None:
        last = parts.figures[-1]
        parts.figures[-1] = _Figure(f"{last.token} {token}", last.value, _UNITS[word.lstrip("°")])
    elif found:
        unit = _UNITS[found[2].lower().lstrip("°")] if found[2] else None
        parts.figures.append(_Figure(token, read_decimal(found[1]), unit))
    else:
        raise BadInput(f"“{shortened(token)}” is not understood; write highest, lowest, rain, wet or dry.")


def _line(parts: _Parts, units: Units) -> DayLine:
    figures = parts.figures
    if len(figures) > _MOST_NUMBERS:
        extra = shortened(figures[_MOST_NUMBERS].token)
        raise BadInput(f"“{extra}” is one number too many; write highest, lowest, rain: {EXAMPLE[units]}.")
    if len(figures) < 2:
        raise BadInput(f"The line needs the highest and the lowest temperature, like {EXAMPLE[units]}.")
    named = next((figure.unit for figure in figures[:2] if figure.unit is not None), None)
    highest, lowest = (_temperature(figure, named, units) for figure in figures[:2])
    rain = _rain(figures[2], units) if len(figures) > 2 else None
    if highest is not None and lowest is not None and lowest > highest:
        both = f"“{shortened(figures[0].token)}” is lower than “{shortened(figures[1].token)}”"
        raise BadInput(f"{both}; the day's highest comes first, then the lowest.")
    if highest is lowest is rain is parts.wet is None:
        raise BadInput(f"The line holds no figure; write it like {EXAMPLE[units]}.")
    return DayLine(parts.on, highest, lowest, rain, parts.wet)


def _temperature(figure: _Figure, named: str | None, units: Units) -> float | None:
    unit = figure.unit or named or ("f" if units == "us" else "c")
    token = shortened(figure.token)
    if unit not in ("c", "f"):
        raise BadInput(f"“{token}” stands where a temperature belongs; the order is highest, lowest, rain.")
    if figure.value is None:
        return None
    value = figure.value if unit == "c" else round(c_from_f(figure.value), 2)
    low, high = LIMITS["tmax_c"]
    if low <= value <= high:
        return value
    hint = f"; did you mean °F? Then write {figure.value:g}F" if unit == "c" and figure.value > high else ""
    raise BadInput(f"“{token}” cannot be °{unit.upper()} in a garden{hint}.")


def _rain(figure: _Figure, units: Units) -> float | None:
    unit = figure.unit or ("in" if units == "us" else "mm")
    token = shortened(figure.token)
    if unit not in ("mm", "in"):
        raise BadInput(f"“{token}” stands where the rain belongs; the order is highest, lowest, rain.")
    if figure.value is None:
        return None
    value = figure.value if unit == "mm" else round(mm_from_inch(figure.value), 2)
    low, high = LIMITS["rain_mm"]
    if low <= value <= high:
        return value
    hint = f"; did you mean mm? Then write {figure.value:g}mm" if unit == "in" and value > high else ""
    raise BadInput(f"“{token}” cannot be the rain of one day{hint}.")
