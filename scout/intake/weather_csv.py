"""Weather files of days, in the headings, units and dates in common use."""

import re
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from scout.errors import BadInput
from scout.intake.columns import Problems, is_scale, marks
from scout.intake.dates import ORDER_WORDS, Order, find_order, read_date
from scout.intake.headings import Meaning, daily_heading
from scout.intake.sheet import Hints, Intake, Sheet, read_sheet
from scout.intake.weather_units import MEANING_WORDS
from scout.science.weather_day import LIMITS

TIME_OF_DAY = re.compile(r"[ T][0-9]{1,2}:[0-9]{2}\S*$")


@dataclass(frozen=True, slots=True)
class DayRow:
    """One day; None where the file has no figure."""

    on: date
    tmax_c: float | None
    tmin_c: float | None
    rain_mm: float | None
    wet_h: float | None
    wet_morning: bool | None
    rh_mean_pct: float | None


def read_days(
    path: Path, hints: Hints | None = None, told: Callable[[float], None] = lambda share: None
) -> Intake[DayRow]:
    """Return the days of a file: rows, refused rows, and what was understood.

    Units come from the headings, then from the hints, then metric is assumed and said. `told` hears the share done.
    Errors: BadInput naming the file when no column of days or of weather is found or the dates can be read in two
    ways.
    """
    hints = hints or Hints()
    sheet = read_sheet(path, daily_heading, hints.units_hint)
    need(sheet, ("on",), ("tmax", "tmin", "rain", "wet_h", "wet_morning", "rh_mean"))
    told(0.4)
    days = _days(sheet, hints.date_order)
    highest = sheet.figures("tmax", *LIMITS["tmax_c"])
    lowest = sheet.figures("tmin", *LIMITS["tmin_c"])
    rain = sheet.figures("rain", *LIMITS["rain_mm"])
    wet = sheet.figures("wet_h", *LIMITS["wet_h"])
    humidity = sheet.figures("rh_mean", *LIMITS["rh_mean_pct"])
    mornings = read_marks(sheet, "wet_morning")
    told(0.8)
    sheet.refuse(_crossed(highest, lowest))
    sheet.refuse(repeated(sheet, days, "day"))
    sheet.refuse(out_of_time([day.isoformat() for day in days], hints))
    sheet.refuse(nothing(highest, lowest, rain, wet, humidity, mornings))
    _note_missing(sheet, days)
    return sheet.finish(list(map(DayRow, days, highest, lowest, rain, wet, mornings, humidity)))


def _note_missing(sheet: Sheet, days: list[date]) -> None:
    """Note from when to when the days reach, and how many are not there."""
    kept = {day for at, day in enumerate(days) if at not in sheet.reasons}
    if kept:
        first, last = min(kept), max(kept)
        absent = (last - first).days + 1 - len(kept)
        tail = f", {absent} days between are missing" if absent else ""
        sheet.notes.append(f"{first} to {last}: {len(kept)} days{tail}.")


def need(sheet: Sheet, all_of: tuple[Meaning, ...], one_of: tuple[Meaning, ...]) -> None:
    """Raise BadInput that names what the file lacks and what it has, unless every column is there that must be."""
    absent = [MEANING_WORDS[meaning] for meaning in all_of if meaning not in sheet.columns]
    if not absent and any(meaning in sheet.columns for meaning in one_of):
        return
    what = " and ".join(absent) if absent else "any weather"
    raise BadInput(f"“{sheet.name}” has no column for {what}; found: {sheet.found}.")


def _days(sheet: Sheet, order: Order | None) -> list[date]:
    cells = [TIME_OF_DAY.sub("", cell.strip()) for cell in sheet.columns["on"].cells]
    order = order or _order(sheet, cells)
    known: dict[str, date] = {}
    problems: Problems = {}
    for at, cell in enumerate(cells):
        if cell not in known:
            try:
                known[cell] = read_date(cell, order)
            except BadInput as problem:
                problems[at] = str(problem).rstrip(".")
    sheet.refuse(problems)
    return [known.get(cell, date.min) for cell in cells]


def _order(sheet: Sheet, cells: list[str]) -> Order:
    try:
        order = find_order(cells)
    except BadInput as problem:
        raise BadInput(f"“{sheet.name}”: {problem}") from None
    sheet.notes.append(f"Dates read as {ORDER_WORDS[order]}.")
    return order


def read_marks(sheet: Sheet, meaning: Meaning) -> list[bool | None]:
    """Return a column of wet and dry, its odd rows refused; all None when there is no such column."""
    column = sheet.columns.get(meaning)
    if column is None:
        return [None] * len(sheet.row_numbers)
    if column.unit == "min":
        return [None if hours is None else hours >= 0.5 for hours in sheet.figures(meaning, 0.0, 1.0)]
    if is_scale(column.cells):
        sheet.notes.append(f"“{column.heading}” is on a scale of its own and says neither wet nor dry: not used.")
        return [None] * len(sheet.row_numbers)
    values, problems = marks(column.cells)
    sheet.refuse(problems)
    return values


def _crossed(highest: list[float | None], lowest: list[float | None]) -> Problems:
    return {
        at: f"the lowest temperature ({low:g} °C) is above the highest ({high:g} °C)"
        for at, (high, low) in enumerate(zip(highest, lowest, strict=True))
        if high is not None and low is not None and low > high
    }


def repeated(sheet: Sheet, moments: Sequence[Hashable], what: str) -> Problems:
    """Return the rows whose day or hour was there before."""
    if len(set(moments)) == len(moments):
        return {}
    first: dict[Hashable, int] = {}
    problems: Problems = {}
    for at, moment in enumerate(moments):
        if at in sheet.reasons:
            continue
        if moment in first:
            problems[at] = f"this {what} is already in row {sheet.row_numbers[first[moment]]}"
        first.setdefault(moment, at)
    return problems


def out_of_time(moments: Sequence[str], hints: Hints) -> Problems:
    """Return the rows that were still to come when they would have been measured, or past when a forecast was made."""
    problems: Problems = {}
    if hints.until is not None and moments and max(moments) > hints.until[: len(moments[0])]:
        last = hints.until[: len(moments[0])]
        why = "is still to come; a forecast is taken in with its time of issue"
        problems |= {at: f"{_shown(moment)} {why}" for at, moment in enumerate(moments) if moment > last}
    if hints.since is not None and moments and min(moments) < hints.since[:10]:
        why = f"lies before the day on which the forecast was issued ({hints.since[:10]})"
        problems |= {at: f"{_shown(moment)} {why}" for at, moment in enumerate(moments) if moment < hints.since[:10]}
    return problems


def _shown(moment: str) -> str:
    return moment.replace("T", " ")


def nothing(*columns: list[float | None] | list[bool | None]) -> Problems:
    """Return the rows without a single figure."""
    if any(column and None not in column for column in columns):
        return {}
    return {
        at: "no figure in this row"
        for at, values in enumerate(zip(*columns, strict=True))
        if all(value is None for value in values)
    }
