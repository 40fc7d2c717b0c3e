"""A weather table with its columns recognised and the rows that do not fit set aside."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import tzinfo
from operator import itemgetter
from pathlib import Path
from typing import Generic, Literal, TypeVar
from zoneinfo import ZoneInfo

from scout.errors import BadInput
from scout.intake.columns import Problems, find_sign, numbers, out_of_range, span_of
from scout.intake.dates import Order
from scout.intake.decimals import Sign
from scout.intake.headings import Heading, Meaning, unit_of
from scout.intake.table import DELIMITER_WORDS, Table, parse_table, read_file
from scout.intake.weather_units import BACK, FITTING, MEANING_WORDS, METRIC, ODD, OTHER, UNIT_WORDS, US
from scout.plain import shortened

Row = TypeVar("Row")
UnitsHint = Literal["metric", "us"]

_WARMEST_SURE_C = 50.0


@dataclass(frozen=True, slots=True)
class Hints:
    """What the grower says of a file; None where the file itself must tell."""

    units_hint: UnitsHint | None = None
    date_order: Order | None = None
    zone: tzinfo | None = None
    """The clock of times without an offset."""
    garden: ZoneInfo = field(default_factory=lambda: ZoneInfo("UTC"))
    """The garden's own zone, in which hours are kept."""
    until: str | None = None
    """The present moment as 2026-07-22T08:00; what lies behind it cannot have been measured."""
    since: str | None = None
    """When a forecast was issued; it tells nothing of the days before."""


@dataclass(frozen=True, slots=True)
class RefusedRow:
    """A row that is not taken in, by its number in the file, and why."""

    row: int
    reason: str


@dataclass(frozen=True, slots=True)
class Intake(Generic[Row]):
    """What a file gave: rows to write, rows refused, and how it was understood, to show before writing."""

    name: str
    rows: tuple[Row, ...]
    refused: tuple[RefusedRow, ...]
    understood: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """One column in use."""

    meaning: Meaning
    heading: str
    unit: str | None
    unit_named: bool
    cells: tuple[str, ...]
    zone: str | None = None
    """The zone the heading names for the times below it."""


@dataclass(slots=True)
class Sheet:
    """Columns of equal length; `row_numbers[i]` is the row number in the file, `reasons` what is refused."""

    name: str
    columns: dict[Meaning, Column]
    row_numbers: list[int]
    sign: Sign | None
    refused: list[RefusedRow]
    notes: list[str]
    found: str
    """The headings, for a sentence."""
    reasons: Problems = field(default_factory=dict)
    spans: list[str] = field(default_factory=list)
    """The least and greatest figure of each column, to show."""

    def figures(self, meaning: Meaning, low: float, high: float) -> list[float | None]:
        """Return a number column in metric units, its odd rows refused; all None when there is no such column."""
        column = self.columns.get(meaning)
        if column is None:
            return [None] * len(self.row_numbers)
        values, problems = numbers(column.cells, self.sign, column.unit)
        shown = shortened(column.heading, 24)
        for at, why in problems.items():
            self.reasons.setdefault(at, f"{shown}: {why}")
        span = span_of(values)
        self._ask_for_unit(column, span)
        if span and not (span[0] >= low and span[1] <= high):
            for at in out_of_range(values, low, high):
                self.reasons.setdefault(at, _impossible(column, at, low, high))
            span = span_of([value for value in values if value is not None and low <= value <= high])
        self._note_span(column, span)
        return values

    def _ask_for_unit(self, column: Column, span: tuple[float, float] | None) -> None:
        """Refuse temperatures without a unit when they are too high to be °C for sure."""
        if span and column.unit == "c" and not column.unit_named and span[1] > _WARMEST_SURE_C:
            raise BadInput(
                f"“{self.name}”: “{shortened(column.heading, 24)}” goes up to {span[1]:g} and names no unit;"
                " write (°F) or (°C) in the heading or choose the units."
            )

    def _note_span(self, column: Column, span: tuple[float, float] | None) -> None:
        if span is None:
            self.spans.append(f"{MEANING_WORDS[column.meaning]} nowhere")
            return
        back = BACK.get(column.unit or "", float)
        unit = UNIT_WORDS[(column.unit if column.unit in BACK else None) or METRIC.get(column.meaning) or "pct"]
        unit = "hours" if column.meaning in ("wet_h", "wet") else unit
        self.spans.append(f"{MEANING_WORDS[column.meaning]} {back(span[0]):.4g} to {back(span[1]):.4g} {unit}")
        odd = ODD.get(column.meaning)
        if odd and span[1] > odd[0]:
            self.notes.append(
                f"Look twice: “{shortened(column.heading, 24)}” goes up to {span[1]:.4g} {odd[1]}. Is its unit right?"
            )

    def refuse(self, problems: Problems) -> None:
        """Note rows to refuse; the first reason of a row stays."""
        for at, why in problems.items():
            self.reasons.setdefault(at, why)

    def finish(self, rows: Sequence[Row]) -> Intake[Row]:
        """Return what the file gave, without the refused rows."""
        kept = tuple(rows) if not self.reasons else tuple(r for at, r in enumerate(rows) if at not in self.reasons)
        refused = [RefusedRow(self.row_numbers[at], f"{why}.") for at, why in self.reasons.items()]
        told = "; ".join(self.spans)
        notes = [*self.notes, f"{told[0].upper()}{told[1:]}."] if told else self.notes
        return Intake(self.name, kept, tuple(sorted([*self.refused, *refused], key=_by_row)), tuple(notes))


def _by_row(refused: RefusedRow) -> int:
    return refused.row


def _impossible(column: Column, at: int, low: float, high: float) -> str:
    unit = UNIT_WORDS.get(column.unit or "", "")
    hint = "; did you mean °F" if column.unit == "c" and not column.unit_named else ""
    metric = UNIT_WORDS[METRIC.get(column.meaning) or OTHER.get(column.meaning, "")]
    value = f"{shortened(column.cells[at], 24)} {unit}".strip()
    return f"{shortened(column.heading, 24)}: {value} cannot be (possible is {low:g} to {high:g} {metric}){hint}"


def read_sheet(path: Path, understand: Callable[[str], Heading | None], hint: UnitsHint | None) -> Sheet:
    """Return the weather table in a file, its columns recognised. Errors: BadInput naming the file."""
    text, encoding = read_file(path)
    name = shortened(path.name, 60)
    table = parse_table(text, name, recognises=lambda cell: understand(cell) is not None, encoding=encoding)
    return _sheet(table, understand, hint)


def _sheet(table: Table, understand: Callable[[str], Heading | None], hint: UnitsHint | None) -> Sheet:
    known = _known(table, understand)
    row_numbers, body, refused = _fitting_rows(table)
    named = _unit_row(body[0]) if body else None
    if named is not None:
        row_numbers, body = row_numbers[1:], body[1:]
    if not body and not refused:
        raise BadInput(f"“{table.name}” has a heading and no rows; export it again.")
    columns: dict[Meaning, Column] = {}
    for at, heading in known.items():
        unit = heading.unit or (named or {}).get(at)
        cells = tuple(map(itemgetter(at), body))
        columns[heading.meaning] = _column(table, heading, table.header[at], unit, hint, cells)
    figures = [column.cells for column in columns.values() if column.meaning in FITTING]
    sheet = Sheet(table.name, columns, row_numbers, _sign(table.name, figures), refused, [], table.named_columns())
    sheet.notes.extend(_notes(table, sheet, set(known)))
    return sheet


def _sign(name: str, figures: list[tuple[str, ...]]) -> Sign | None:
    try:
        return find_sign(figures)
    except BadInput as problem:
        raise BadInput(f"“{name}”: {problem}") from None


def _known(table: Table, understand: Callable[[str], Heading | None]) -> dict[int, Heading]:
    known: dict[int, Heading] = {}
    by_meaning: dict[str, str] = {}
    for at, text in enumerate(table.header):
        heading = understand(text)
        if heading is None:
            continue
        if heading.meaning in by_meaning:
            both = f"“{shortened(by_meaning[heading.meaning], 24)}” and “{shortened(text, 24)}”"
            raise BadInput(
                f"“{table.name}”: {both} both look like {MEANING_WORDS[heading.meaning]}; rename the one not meant."
            )
        by_meaning[heading.meaning] = text
        known[at] = heading
    return known


def _column(
    table: Table, known: Heading, text: str, unit: str | None, hint: UnitsHint | None, cells: tuple[str, ...]
) -> Column:
    meaning = known.meaning
    fitting = FITTING.get(meaning, frozenset())
    if unit is not None and unit not in fitting:
        raise BadInput(f"“{table.name}”: “{shortened(text, 24)}” cannot be in {UNIT_WORDS[unit]}; mend the heading.")
    assumed = (US if hint == "us" else METRIC).get(meaning) or OTHER.get(meaning)
    named = unit is not None or (hint is not None and meaning in METRIC)
    return Column(meaning, text, unit or assumed, named, cells, known.zone)


def _fitting_rows(table: Table) -> tuple[list[int], list[list[str]], list[RefusedRow]]:
    """Return the rows as wide as the heading with their numbers; blank rows are passed over."""
    width = len(table.header)
    if set(map(len, table.rows)) == {width}:
        return list(range(table.first_row, table.first_row + len(table.rows))), table.rows, []
    row_numbers: list[int] = []
    body: list[list[str]] = []
    refused: list[RefusedRow] = []
    for number, row in enumerate(table.rows, table.first_row):
        if not any(cell.strip() for cell in row):
            continue
        if len(row) > width and not any(cell.strip() for cell in row[width:]):
            row = row[:width]
        if len(row) == width:
            row_numbers.append(number)
            body.append(row)
        else:
            refused.append(RefusedRow(number, _wrong_width(len(row), width, table.delimiter)))
    return row_numbers, body, refused


def _wrong_width(found: int, expected: int, delimiter: str) -> str:
    mend = "; a decimal comma in a comma-separated file needs quotation marks" if delimiter == "," else ""
    return f"{found} cells where the heading has {expected}{mend if found > expected else ''}."


def _unit_row(row: list[str]) -> dict[int, str] | None:
    """Return the units when this row below the heading holds nothing else."""
    units = {at: unit for at, cell in enumerate(row) if (unit := unit_of(cell.strip("()[] "))) is not None}
    rest = [cell for at, cell in enumerate(row) if at not in units and any(mark.isdigit() for mark in cell)]
    return units if units and not rest else None


def _notes(table: Table, sheet: Sheet, used: set[int]) -> list[str]:
    sign = {",": "decimal comma", ".": "decimal point", None: "whole numbers"}[sheet.sign]
    notes = [f"{table.encoding}, separated by {DELIMITER_WORDS[table.delimiter]}, {sign}."]
    for column in sheet.columns.values():
        unit = UNIT_WORDS.get(column.unit or "") if column.meaning in (*METRIC, *OTHER) else None
        given = "" if column.unit_named or column.meaning not in METRIC else " (no unit given)"
        tail = f", {unit}{given}" if unit else ""
        notes.append(f"“{shortened(column.heading, 24)}” is {MEANING_WORDS[column.meaning]}{tail}.")
    unused = [shortened(text, 24) for at, text in enumerate(table.header) if at not in used and text]
    return [*notes, f"Not used: {', '.join(unused[:12])}."] if unused else notes
