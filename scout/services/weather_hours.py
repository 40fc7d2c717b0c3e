"""Hourly weather from a CSV file: shown first, then taken in by the garden's own clock."""

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from scout.services.context import Context
from scout.services.garden import site_of
from scout.services.weather import HERE, WeatherFile

if TYPE_CHECKING:
    from scout.intake.weather_csv import HourRow
    from scout.store.weather_columns import HourIn


def look_into_hours(file: Path) -> WeatherFile:
    """Return what an hourly CSV file says before anything is written."""
    from scout.intake.weather_csv import read_hours

    read = read_hours(file)
    refused = tuple(f"Row {bad.row}: {bad.reason}" for bad in read.refused)
    return WeatherFile((*read.understood, *refused), len(read.rows), len(read.refused))


def import_hours_file(context: Context, file: Path, station: str = HERE) -> str:
    """Take in the good rows of an hourly CSV file; return how many were new, unchanged and corrected.

    A time with an offset is turned to the garden's wall clock; one without is taken as that clock's.
    """
    from scout.intake.weather_csv import read_hours
    from scout.store.weather_import import Series, import_hours

    read = read_hours(file)
    zone = ZoneInfo(site_of(context).zone)
    rows = [_hour(row, zone) for row in read.rows]
    with context.write() as tx:
        done = import_hours(tx, rows, series=Series(station=station))
    refused = f", {len(read.refused)} refused" if read.refused else ""
    return f"{done.added} hours new, {done.unchanged} unchanged, {done.corrected} corrected{refused}."


def _hour(row: "HourRow", zone: ZoneInfo) -> "HourIn":
    from scout.store.weather_columns import HourIn

    at: datetime = row.at.astimezone(zone) if row.at.tzinfo else row.at.replace(tzinfo=zone)
    offset = at.utcoffset()
    minutes = int(offset.total_seconds() // 60) if offset else 0
    return HourIn(at.strftime("%Y-%m-%dT%H:%M"), minutes, row.temp_c, row.rh_pct, row.rain_mm, row.wind_ms, row.wet)
