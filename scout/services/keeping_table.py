"""The measurements behind "is stripping keeping up?" as a table and plain numbers, beside the verdict."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.keeping_followed import Followed
from scout.services.keeping_json import as_json as verdict_json
from scout.services.keeping_ladder import LEGEND, ladder
from scout.services.keeping_up import Judgement
from scout.services.marked import MarkedTable, MeasuredRow, marked_table, table_of
from scout.services.named import full_name


@dataclass(frozen=True)
class PlantingTable:
    """The table of one planting; `planting` None: the file does not say which."""

    planting: str | None
    table: MarkedTable


def table_at(context: Context, plant: Planted) -> PlantingTable:
    """Return the table of one planting of the garden."""
    return PlantingTable(full_name(plant), marked_table(context, plant.planting_id))


def as_json(found: PlantingTable) -> dict[str, Any]:
    """Return rows and numbers for a script."""
    return {
        "planting": found.planting,
        "rows": [asdict(row) for row in found.table.rows],
        "numbers": list(found.table.lines),
    }


def with_numbers(told: Judgement) -> dict[str, Any]:
    """Return the verdict for a script, with the rows and numbers it rests on."""
    table = table_of(told.followed.rows)
    return verdict_json(told) | {"rows": [asdict(row) for row in table.rows], "numbers": list(table.lines)}


def measured_lines(followed: Followed) -> list[str]:
    """Return the ladder of leaves and the table of what was measured, as lines that fit 45 columns."""
    rungs = ladder(followed.rows, 45)
    return [*rungs, *([LEGEND] if rungs else []), *table_lines(PlantingTable(None, table_of(followed.rows)))]


def table_lines(found: PlantingTable) -> list[str]:
    """Return the table and its numbers as lines that fit 45 columns."""
    head = [found.planting] if found.planting else []
    if not found.table.rows:
        return [*head, "Nothing measured yet."]
    return [*head, *row_lines(found.table.rows), *found.table.lines]


def row_lines(rows: Sequence[MeasuredRow]) -> list[str]:
    """Return the measurements under their heading."""
    return ["day   plant      top high strip new left", *map(_row, rows)]


def _row(row: MeasuredRow) -> str:
    values = (row.top_leaf, row.highest_diseased, row.stripped_to, row.newly_diseased, row.leaves_standing)
    top, high, strip, new, left = ("–" if value is None else str(value) for value in values)
    return f"{row.on[5:]} {row.label[:10]:<10} {top:>3} {high:>4} {strip:>5} {new:>3} {left:>4}"
