"""Tells whether a weather file holds days or hours, from its headings and first rows."""

from pathlib import Path

from scout.intake.headings import daily_heading, hourly_heading
from scout.intake.table import parse_table, read_file
from scout.intake.weather_csv import TIME_OF_DAY
from scout.plain import shortened

_LINES = 60
_CHARACTERS = 30_000


def holds_hours(path: Path) -> bool:
    """Return True for a file of hours or of readings closer together. Errors: BadInput naming the file.

    A column of hours says so; else times of day that differ from row to row, where no highest and lowest stand.
    """
    text, encoding = read_file(path)
    head = "\n".join(text[:_CHARACTERS].splitlines()[:_LINES])
    table = parse_table(
        head,
        shortened(path.name, 60),
        recognises=lambda cell: daily_heading(cell) is not None or hourly_heading(cell) is not None,
        encoding=encoding,
    )
    days = {heading.meaning for cell in table.header if (heading := daily_heading(cell))}
    hours = {heading.meaning: at for at, cell in enumerate(table.header) if (heading := hourly_heading(cell))}
    if days & {"tmax", "tmin"}:
        return False
    if "clock" in hours:
        return True
    at = hours.get("at", hours.get("on"))
    if at is None:
        return False
    cells = [row[at].strip() for row in table.rows if len(row) > at and row[at].strip()]
    clocks = {found[0].strip(" T") for cell in cells if (found := TIME_OF_DAY.search(cell))}
    return len(clocks) > 1 or (bool(clocks) and "temp" in hours)
