"""Garden files: TOML for a whole garden, CSV with a line a planting."""

import re
import tomllib
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from scout.errors import BadInput
from scout.intake.garden_model import GardenFile, linked
from scout.intake.table import Table, parse_table, read_file
from scout.intake.written import Place, first_fault
from scout.plain import clean_text, shortened

_PLANTING_COLUMNS = (
    "crop", "variety", "plants", "sown_on", "set_out_on", "origin", "identity", "habit", "note",
)  # fmt: skip
_WORD_COLUMNS = ("kind", "origin", "identity", "habit")  # "Bought plant" counts as bought_plant
COLUMNS = ("bed", "kind", *_PLANTING_COLUMNS, "water_zone")
_LISTS = ("beds", "plantings")


def read_garden(path: Path) -> GardenFile:
    """Return the garden in a .toml or .csv file; a CSV file gives beds and plantings only.

    Errors: BadInput naming the file, the line or row where known, the key and the mend.
    """
    text, encoding = read_file(path)
    name = shortened(path.name, 60)
    suffix = path.suffix.lower()
    if suffix == ".toml":
        return _toml(text, name)
    if suffix == ".csv":
        return _csv(parse_table(text, name, recognises=lambda cell: _column(cell) in COLUMNS, encoding=encoding))
    raise BadInput(f"“{name}” is neither .toml nor .csv; a garden file is one of these.")


def _toml(text: str, name: str) -> GardenFile:
    try:
        data = tomllib.loads(text.replace("\r\n", "\n"))
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise BadInput(f"“{name}”: {_toml_fault(str(error), text)}.") from None
    return _checked(data, lambda place, fault: f"“{name}”{_line_words(text, place)}: {fault}.")


def _toml_fault(message: str, text: str) -> str:
    """Return what tomllib says, with the commonest slip named."""
    at = re.search(r" \(at line (\d+), column \d+\)$", message)
    if at is None:
        return f"{shortened(message.removesuffix(' (at end of document)'), 80)} at the end of the file"
    line = int(at[1])
    written = text.splitlines()[line - 1] if line <= len(text.splitlines()) else ""
    if re.search(r"=\s*[-+]?\d+,\d+", written):
        return f"line {line}: write the number with a decimal point or in quotation marks"
    return f"line {line}: {shortened(message[: at.start()], 80)}; mend that line"


def _checked(data: dict[str, Any], say: Any) -> GardenFile:
    try:
        found = linked(GardenFile.model_validate(data))
    except ValidationError as error:
        raise BadInput(say(*first_fault(error, GardenFile))) from None
    if isinstance(found, GardenFile):
        return found
    raise BadInput(say(*found))


def _line_words(text: str, place: Place) -> str:
    line = _line_of(text.splitlines(), place)
    number = f", {place[0]} {int(place[1]) + 1}" if len(place) > 1 and place[0] in _LISTS else ""
    return f", line {line}" if line else number


def _line_of(lines: list[str], place: Place) -> int | None:
    """Return the line of the key at `place`, or of its table, as TOML is usually written."""
    if not place:
        return None
    nth = place[1] if len(place) > 1 and isinstance(place[1], int) else 0
    heading = re.compile(rf"\s*\[+\s*{re.escape(str(place[0]))}\s*\]+")
    starts = [at for at, line in enumerate(lines) if heading.match(line)]
    if nth >= len(starts):
        return None
    keys = {str(part) for part in place[1:] if isinstance(part, str)}
    keys |= {"bed", "beds"} if keys & {"bed", "beds"} else set()
    for at in range(starts[nth] + 1, len(lines)):
        if lines[at].lstrip().startswith("["):
            break
        if lines[at].split("=")[0].strip().strip("\"'") in keys:
            return at + 1
    return starts[nth] + 1


def _csv(table: Table) -> GardenFile:
    columns = _csv_columns(table)
    beds: dict[str, dict[str, str]] = {}
    plantings: list[dict[str, str]] = []
    bed_rows, planting_rows = [], []
    for number, row in enumerate(table.rows, table.first_row):
        cells = _csv_cells(table.name, number, columns, row)
        if not cells:
            continue
        if _add_bed(beds, cells, f"“{table.name}”, row {number}"):
            bed_rows.append(number)
        if any(column in cells for column in _PLANTING_COLUMNS):
            plantings.append({key: text for key, text in cells.items() if key not in ("kind", "water_zone")})
            planting_rows.append(number)
    if not beds:
        raise BadInput(f"“{table.name}” has a heading and no rows; add a line for each planting.")
    rows = {"beds": bed_rows, "plantings": planting_rows}

    def say(place: Place, fault: str) -> str:
        at = place[1] if len(place) > 1 else None
        row = f", row {rows[str(place[0])][at]}" if isinstance(at, int) else ""
        return f"“{table.name}”{row}: {fault}."

    return _checked({"beds": list(beds.values()), "plantings": plantings}, say)


def _column(text: str) -> str:
    return "_".join(text.strip().lower().split())


def _csv_columns(table: Table) -> list[str]:
    columns = [_column(heading) for heading in table.header]
    absent = [f"“{column}”" for column in ("bed", "crop") if column not in columns]
    if absent:
        raise BadInput(f"“{table.name}” has no column {' and '.join(absent)}; found: {table.named_columns()}.")
    for column in columns:
        if column not in COLUMNS or columns.count(column) > 1:
            why = "stands twice" if column in COLUMNS else f"is not known; known are {', '.join(COLUMNS)}"
            raise BadInput(f"“{table.name}”: the column “{shortened(column)}” {why}.")
    return columns


def _csv_cells(name: str, number: int, columns: list[str], row: list[str]) -> dict[str, str]:
    """Return the filled cells of a row by column; nothing for a blank row."""
    if not any(cell.strip() for cell in row):
        return {}
    if len(row) != len(columns):
        raise BadInput(f"“{name}”, row {number}: {len(row)} cells where the heading has {len(columns)}; mend it.")
    filled = {column: cell.strip() for column, cell in zip(columns, row, strict=True) if cell.strip()}
    return filled | {column: _column(filled[column]) for column in _WORD_COLUMNS if column in filled}


def _add_bed(beds: dict[str, dict[str, str]], cells: dict[str, str], where: str) -> bool:
    """Note the bed of a row; True when it is new. One bed said to be two kinds is refused."""
    if "bed" not in cells:
        raise BadInput(f"{where}: “bed” is missing; name the bed.")
    entry = {key: cells[key] for key in ("kind", "water_zone") if key in cells}
    key = clean_text(cells["bed"]).casefold()
    new = key not in beds
    known = beds.setdefault(key, {"name": cells["bed"]} | entry)
    for what, text in entry.items():
        if known.setdefault(what, text) != text:
            said = f"“{shortened(known[what])}” above and “{shortened(text)}” here"
            raise BadInput(f"{where}: “{what}” of bed “{shortened(cells['bed'])}” is {said}; keep one.")
    return new
