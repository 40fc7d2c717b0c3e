"""Weather files of hours, or of readings a few minutes apart, by the garden's wall clock."""

import gc
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from itertools import repeat
from pathlib import Path
from typing import NamedTuple

from scout.intake.by_hour import by_hour
from scout.intake.dates import ORDER_WORDS, Order
from scout.intake.headings import Meaning, hourly_heading
from scout.intake.instants import read_instants
from scout.intake.sheet import Hints, Intake, Sheet, read_sheet
from scout.intake.wall_clock import read_zone, wall_times
from scout.intake.weather_csv import TIME_OF_DAY, need, nothing, out_of_time, read_marks, repeated
from scout.science.weather_day import HOUR_LIMITS

_WITH_DAY = re.compile(r"\d[-/.]\d+[-/.]\d")


class HourRow(NamedTuple):
    """One hour by the garden's wall clock with its offset from UTC; None where the file has no figure."""

    at: str
    """2026-07-01T14:00"""
    offset_min: int
    temp_c: float | None
    rh_pct: float | None
    rain_mm: float | None
    wind_ms: float | None
    wet: bool | None


@contextmanager
def no_collecting() -> Iterator[None]:
    """Hold the garbage collector: ten years of hours make some 500,000 small objects and no cycles among them."""
    running = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if running:
            gc.enable()


@no_collecting()
def read_hours(
    path: Path, hints: Hints | None = None, told: Callable[[float], None] = lambda share: None
) -> Intake[HourRow]:
    """Return the hours of a file; as `read_days` in all else. Readings a few minutes apart are put together by hour.

    A time without an offset is read by the clock that the hints name, else the heading, else by the garden's own.
    """
    hints = hints or Hints()
    sheet = read_sheet(path, hourly_heading, hints.units_hint)
    _settle_time_column(sheet)
    needed: tuple[Meaning, ...] = ("at",) if "at" in sheet.columns else ("on", "clock")
    need(sheet, needed, ("temp", "rh", "rain", "wind", "wet"))
    told(0.3)
    at, offsets = _times(sheet, hints)
    told(0.5)
    temperature = sheet.figures("temp", *HOUR_LIMITS["temp_c"])
    humidity = sheet.figures("rh", *HOUR_LIMITS["rh_pct"])
    told(0.65)
    rain = sheet.figures("rain", *HOUR_LIMITS["rain_mm"])
    wind = sheet.figures("wind", *HOUR_LIMITS["wind_ms"])
    wet = read_marks(sheet, "wet")
    told(0.8)
    if len(set(at)) < len(at):
        sheet.refuse(repeated(sheet, list(zip(at, offsets, strict=True)), "hour"))
    sheet.refuse(out_of_time(at, hints))
    sheet.refuse(nothing(temperature, humidity, rain, wind, wet))
    columns = zip(at, offsets, temperature, humidity, rain, wind, wet, strict=True)
    # made without a call of the class for each row, which would take as long as reading the file
    rows: list[HourRow] = list(map(tuple.__new__, repeat(HourRow), columns))
    told(0.95)
    return by_hour(sheet.finish(rows))


def _settle_time_column(sheet: Sheet) -> None:
    """Take a column headed as the date for the time when its cells hold both."""
    if "at" in sheet.columns or "clock" in sheet.columns or "on" not in sheet.columns:
        return
    if any(TIME_OF_DAY.search(cell.strip()) for cell in sheet.columns["on"].cells[:50]):
        sheet.columns["at"] = sheet.columns.pop("on")


def _times(sheet: Sheet, hints: Hints) -> tuple[list[str], list[int]]:
    cells = _cells(sheet)
    instants = _instants(sheet, cells, hints.date_order)
    zone = hints.zone or read_zone(_named_zone(sheet) or "garden", hints.garden)
    walls = wall_times(instants, zone, hints.garden, cells)
    sheet.refuse(walls.problems)
    sheet.notes.extend([*_clock_note(instants, hints, _named_zone(sheet)), *walls.notes])
    kept = (
        [moment for place, moment in enumerate(walls.at) if place not in sheet.reasons] if sheet.reasons else walls.at
    )
    if kept:
        sheet.notes.append(f"{min(kept).replace('T', ' ')} to {max(kept).replace('T', ' ')}: {len(kept)} readings.")
    return walls.at, walls.offset_min


def _named_zone(sheet: Sheet) -> str | None:
    zones = [sheet.columns[meaning].zone for meaning in ("at", "clock", "on") if meaning in sheet.columns]
    return next((zone for zone in zones if zone), None)


def _clock_note(instants: list[datetime], hints: Hints, named: str | None) -> list[str]:
    if any(instant.tzinfo is not None for instant in instants[:1]):
        return [f"Times carry their offset; kept by the garden's clock ({hints.garden})."]
    if hints.zone is not None and hints.zone != hints.garden:
        return [f"Times read as {hints.zone}; kept by the garden's clock ({hints.garden})."]
    if hints.zone is None and named is not None:
        said = "standard time all the year" if named == "standard" else f"UTC{named}"
        return [f"Times read as {said}, as the heading says; kept by the garden's clock ({hints.garden})."]
    return [f"Times read by the garden's own clock ({hints.garden})."]


def _cells(sheet: Sheet) -> tuple[str, ...]:
    """Return the cells with day and time, joined where they stand in two columns."""
    clock = sheet.columns["at" if "at" in sheet.columns else "clock"].cells
    if "on" not in sheet.columns or any(_WITH_DAY.search(cell) for cell in clock[:50]):
        return clock
    return tuple(f"{day} {time}" for day, time in zip(sheet.columns["on"].cells, clock, strict=True))


def _instants(sheet: Sheet, cells: tuple[str, ...], order: Order | None) -> list[datetime]:
    instants, problems, found = read_instants(cells, order, sheet.name)
    sheet.notes.append(f"Dates read as {ORDER_WORDS[found]}.")
    sheet.refuse(problems)
    return instants
