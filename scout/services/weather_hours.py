"""Hourly weather from a CSV file by the garden's own clock, in one call."""

from pathlib import Path

from scout.services.context import Context
from scout.services.weather_files import Said, import_file
from scout.services.weather_stations import HERE


def import_hours_file(context: Context, file: Path, station: str = HERE) -> str:
    """Take in the good rows of an hourly CSV file; return how many were new, unchanged and corrected."""
    return import_file(context, file, Said(station=station, hourly=True)).line
