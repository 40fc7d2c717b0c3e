"""Weather files: days or hours, in the headings, units and dates in common use."""

import gc
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import NamedTuple

from scout.errors import BadInput
from scout.intake.columns import Problems, is_scale, marks
from scout.intake.dates import ORDER_WORDS, Order, find_order, read_date
from scout.intake.headings import Meaning, daily_heading, hourly_heading
from scout.intake.instants import read_instants
from scout.intake.sheet import MEANING_WORDS, Intake, Sheet, UnitsHint, read_sheet
from scout.science.weather_day import LIMITS

_TIME_OF_DAY = re.compile(r"[ T][0-9]{1,2}:[0-9]{2}\S*$")
_WIND_MS = (0.0, 120.0)
"""Above the strongest gust on record (113 m/s, from memory)."""


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


class HourRow(NamedTuple):
    """One reading; `at` is aware when the file gives an offset, else local wall time. A tuple, for speed."""

    at: datetime
    temp_c: float | None
    rh_pct: float | None
    rain_mm: float | None
    wind_ms: float | None
    wet: bool | None


def read_days(path: Path, *, units_hint: UnitsHint | None = None, date_order: Order | None = None) -> Intake[DayRow]:
    """Return the days of a file: rows, refused rows, and what was understood.

    Units come from the headings, then from `units_hint`, then metric is assumed and said. Errors: BadInput
    naming the file when no column of days or of weather is found or the dates can be read in two ways.
    """
    sheet = read_sheet(path, daily_heading, units_hint)
    _need(sheet, ("on",), ("tmax", "tmin", "rain", "wet_h", "wet_morning", "rh_mean"))
    days = _days(sheet, date_order)
    highest = sheet.figures("tmax", *LIMITS["tmax_c"])
    lowest = sheet.figures("tmin", *LIMITS["tmin_c"])
    rain = sheet.figures("rain", *LIMITS["rain_mm"])
    wet = sheet.figures("wet_h", *LIMITS["wet_h"])
    humidity = sheet.figures("rh_mean", *LIMITS["rh_mean_pct"])
    mornings = _marks(sheet, "wet_morning")
    sheet.refuse(_crossed(highest, lowest))
    sheet.refuse(_repeated(sheet, days, "day"))
    sheet.refuse(_nothing(highest, lowest, rain, wet, humidity, mornings))
    return sheet.finish(list(map(DayRow, days, highest, lowest, rain, wet, mornings, humidity)))


@contextmanager
def _no_collecting() -> Iterator[None]:
    """Hold the garbage collector: a file of hours makes some 200,000 small objects and no cycles among them."""
    running = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if running:
            gc.enable()


@_no_collecting()
def read_hours(path: Path, *, units_hint: UnitsHint | None = None, date_order: Order | None = None) -> Intake[HourRow]:
    """Return the readings of a file of hours; as `read_days` in all else."""
    sheet = read_sheet(path, hourly_heading, units_hint)
    needed: tuple[Meaning, ...] = ("at",) if "at" in sheet.columns else ("on", "clock")
    _need(sheet, needed, ("temp", "rh", "rain", "wind", "wet"))
    instants = _instants(sheet, date_order)
    temperature = sheet.figures("temp", *LIMITS["tmax_c"])
    humidity = sheet.figures("rh", *LIMITS["rh_mean_pct"])
    rain = sheet.figures("rain", *LIMITS["rain_mm"])
    wind = sheet.figures("wind", *_WIND_MS)
    wet = _marks(sheet, "wet")
    sheet.refuse(_repeated(sheet, instants, "hour"))
    sheet.refuse(_nothing(temperature, humidity, rain, wind, wet))
    return sheet.finish(list(map(HourRow, instants, temperature, humidity, rain, wind, wet)))


def _need(sheet: Sheet, all_of: tuple[Meaning, ...], one_of: tuple[Meaning, ...]) -> None:
    absent = [MEANING_WORDS[meaning] for meaning in all_of if meaning not in sheet.columns]
    if not absent and any(meaning in sheet.columns for meaning in one_of):
        return
    what = " and ".join(absent) if absent else "any weather"
    raise BadInput(f"“{sheet.name}” has no column for {what}; found: {sheet.found}.")


def _days(sheet: Sheet, order: Order | None) -> list[date]:
    cells = [_TIME_OF_DAY.sub("", cell.strip()) for cell in sheet.columns["on"].cells]
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


def _instants(sheet: Sheet, order: Order | None) -> list[datetime]:
    cells = sheet.columns["at"].cells if "at" in sheet.columns else sheet.columns["clock"].cells
    if "on" in sheet.columns:
        cells = tuple(f"{day} {clock}" for day, clock in zip(sheet.columns["on"].cells, cells, strict=True))
    instants, problems, found = read_instants(cells, order, sheet.name)
    sheet.notes.append(f"Dates read as {ORDER_WORDS[found]}.")
    sheet.refuse(problems)
    return instants


def _marks(sheet: Sheet, meaning: Meaning) -> list[bool | None]:
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


def _repeated(sheet: Sheet, moments: list[date] | list[datetime], what: str) -> Problems:
    if len(set(moments)) == len(moments):
        return {}
    first: dict[date, int] = {}
    problems: Problems = {}
    for at, moment in enumerate(moments):
        if at in sheet.reasons:
            continue
        if moment in first:
            problems[at] = f"this {what} is already in row {sheet.row_numbers[first[moment]]}"
        first.setdefault(moment, at)
    return problems


def _nothing(*columns: list[float | None] | list[bool | None]) -> Problems:
    """Refuse rows without a single figure."""
    if any(column and None not in column for column in columns):
        return {}
    return {
        at: "no figure in this row"
        for at, values in enumerate(zip(*columns, strict=True))
        if all(value is None for value in values)
    }
