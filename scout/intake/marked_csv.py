"""Counts on marked plants for `bedwalk keeping-up --csv`: one line a plant and visit."""

import re
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from scout.errors import BadInput
from scout.intake.dates import Order, find_order, read_date
from scout.intake.decimals import read_count, read_decimal
from scout.intake.table import Table, parse_table, read_file
from scout.plain import clean_text, shortened

NEEDED = ("plant", "date", "top_leaf", "highest_diseased", "stripped_to", "newly_diseased", "leaves_standing")
OPTIONAL = ("wet_h", "planting", "disease")
_MAX_LEAVES = 200
_MAX_WET_H = 24.0 * 60
_MAX_NAME = 200
_NOT_MEASURED = ("", "na", "n/a", "nan", "-", "–")
_NO_DECIMALS = re.compile(r"(?<=[0-9])[.,]0+$")
"""Spreadsheets and tables with gaps write whole numbers as 16.0."""
_TIME_OF_DAY = re.compile(r"(?<=-[0-9]{2})[T ][0-9]{2}:[0-9]{2}(:[0-9]{2}(\.[0-9]+)?)?$")
"""After year-month-day: two looks on one day are one visit."""


@dataclass(frozen=True, slots=True)
class MarkedRow:
    """One marked plant on one day; None: not measured. Leaves are counted in nodes from the soil.

    As found before the day's cutting, except `stripped_to` and `leaves_standing`, which are after it. Counts that can
    hardly be (a spotted leaf above the top) are read as written and questioned later, never refused.
    """

    row: int
    """Row in the file, as a spreadsheet counts."""
    plant: str
    on: date
    top_leaf: int | None
    highest_diseased: int | None
    """0: looked, none diseased."""
    stripped_to: int | None
    newly_diseased: int | None
    leaves_standing: int | None
    wet_h: float | None
    """Hours of wet leaves since the last visit."""
    planting: str | None
    disease: str | None


@dataclass(frozen=True, slots=True)
class MarkedFile:
    """The rows in the order of the file; `by_planting` True when it has a planting column."""

    rows: tuple[MarkedRow, ...]
    by_planting: bool


def read_marked(path: Path) -> MarkedFile:
    """Return the counts in a CSV file. Errors: BadInput naming the file, the row and the column."""
    text, _ = read_file(path)
    return read_marked_text(text, shortened(path.name, 60))


def read_marked_text(text: str, name: str) -> MarkedFile:
    """Return the counts in CSV text; `name` stands for it in sentences. Errors: as `read_marked`."""
    table = parse_table(text, name, recognises=lambda cell: _column(cell) in (*NEEDED, *OPTIONAL))
    columns = _columns(table)
    order = _order(table, columns)
    rows: list[MarkedRow] = []
    first: dict[tuple[str | None, str, date], int] = {}
    for number, cells in enumerate(table.rows, table.first_row):
        if not any(cell.strip() for cell in cells):
            continue
        row = _row(table, number, columns, cells, order)
        earlier = first.setdefault((row.planting, row.plant, row.on), number)
        if earlier != number:
            raise _bad(
                table, number, f"plant “{shortened(row.plant)}” on {row.on.isoformat()} is already in row {earlier}"
            )
        rows.append(row)
    if not rows:
        raise BadInput(f"“{name}” has a heading and no rows; add a line for each plant and visit.")
    return MarkedFile(tuple(rows), "planting" in columns)


def _column(text: str) -> str:
    return "_".join(text.strip().lower().split())


def _columns(table: Table) -> list[str]:
    columns = [_column(heading) for heading in table.header]
    absent = [f"“{column}”" for column in NEEDED if column not in columns]
    if absent:
        raise BadInput(f"“{table.name}” has no column {', '.join(absent)}; found: {table.named_columns()}.")
    for column in columns:
        if column not in (*NEEDED, *OPTIONAL) or columns.count(column) > 1:
            known = ", ".join((*NEEDED, *OPTIONAL))
            why = "stands twice" if columns.count(column) > 1 else f"is not known; known are {known}"
            raise BadInput(f"“{table.name}”: the column “{shortened(column)}” {why}.")
    return columns


def _order(table: Table, columns: list[str]) -> Order:
    at = columns.index("date")
    try:
        return find_order([row[at] for row in table.rows if len(row) == len(columns)])
    except BadInput as problem:
        raise BadInput(f"“{table.name}”, column date: {problem}") from None


def _row(table: Table, number: int, columns: list[str], cells: list[str], order: Order) -> MarkedRow:
    if len(cells) != len(columns):
        raise _bad(table, number, f"{len(cells)} cells where the heading has {len(columns)}")
    by_name = dict(zip(columns, cells, strict=True))
    plant = _name(table, number, by_name, "plant")
    if plant is None:
        raise _bad(table, number, "column plant is empty; give each marked plant a name")
    return MarkedRow(
        row=number,
        plant=plant,
        on=_date(table, number, by_name["date"], order),
        **{column: _leaves(table, number, by_name, column) for column in NEEDED[2:]},
        wet_h=_wetness(table, number, by_name.get("wet_h", "")),
        planting=_name(table, number, by_name, "planting"),
        disease=_name(table, number, by_name, "disease"),
    )


def _name(table: Table, number: int, by_name: dict[str, str], column: str) -> str | None:
    text = clean_text(by_name.get(column, ""))
    if len(text) > _MAX_NAME:
        raise _bad(table, number, f"column {column} has {len(text):,} characters; at most {_MAX_NAME} fit")
    return text or None


def _date(table: Table, number: int, cell: str, order: Order) -> date:
    try:
        return read_date(_TIME_OF_DAY.sub("", cell), order)
    except BadInput as problem:
        raise _bad(table, number, f"column date: {problem}") from None


def _leaves(table: Table, number: int, by_name: dict[str, str], column: str) -> int | None:
    cell = by_name[column].strip()
    try:
        count = None if cell.casefold() in _NOT_MEASURED else read_count(_NO_DECIMALS.sub("", cell))
    except BadInput as problem:
        raise _bad(table, number, f"column {column}: {problem}") from None
    if count is not None and count > _MAX_LEAVES:
        raise _bad(table, number, f"column {column}: {count} is more leaves than a plant has (at most {_MAX_LEAVES})")
    return count


def _wetness(table: Table, number: int, cell: str) -> float | None:
    try:
        hours = read_decimal(cell) if cell.strip() else None
    except BadInput as problem:
        raise _bad(table, number, f"column wet_h: {problem}") from None
    if hours is not None and not 0 <= hours <= _MAX_WET_H:
        raise _bad(table, number, f"column wet_h: {hours:g} hours cannot be; it is hours since the last visit")
    return hours


def _bad(table: Table, number: int, what: str) -> BadInput:
    return BadInput(f"“{table.name}”, row {number}: {what.rstrip('.')}.")
