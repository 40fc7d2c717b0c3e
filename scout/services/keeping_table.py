"""The measurements behind "is stripping keeping up?", a planting at a time, from the garden or from a CSV file."""

from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from scout.services.context import Context
from scout.services.garden import Planted, planted
from scout.services.marked import MarkedTable, MeasuredRow, marked_plants, marked_table, table_of
from scout.services.named import full_name

NOTE = "Plain numbers only: no verdict is given here."


@dataclass(frozen=True)
class PlantingTable:
    """The table of one planting; `planting` None: the file does not say which."""

    planting: str | None
    table: MarkedTable


def tables_in_file(file: Path) -> tuple[tuple[PlantingTable, ...], bool]:
    """Return the tables of a CSV file in the order of its plantings, and whether it has a planting column."""
    from scout.intake.marked_csv import read_marked

    read = read_marked(file)
    grouped: dict[str | None, list[MeasuredRow]] = {}
    for row in read.rows:
        grouped.setdefault(row.planting, []).append(
            MeasuredRow(
                row.on.isoformat(),
                row.plant,
                row.top_leaf,
                row.highest_diseased,
                row.stripped_to,
                row.newly_diseased,
                row.leaves_standing,
                "not_felt",
            )
        )
    return tuple(PlantingTable(name, table_of(rows)) for name, rows in grouped.items()), read.by_planting


def tables_in_garden(context: Context) -> tuple[PlantingTable, ...]:
    """Return the tables of every planting that has marked plants, in walking order."""
    plants = {one.planting_id: one for one in planted(context)}
    return tuple(table_at(context, one) for one in plants.values() if marked_plants(context, one.planting_id))


def table_at(context: Context, plant: Planted) -> PlantingTable:
    """Return the table of one planting of the garden."""
    return PlantingTable(full_name(plant), marked_table(context, plant.planting_id))


def as_json(found: PlantingTable) -> dict[str, Any]:
    """Return rows and numbers for a script; there is no verdict, and the note says so."""
    return {
        "planting": found.planting,
        "rows": [asdict(row) for row in found.table.rows],
        "numbers": list(found.table.lines),
        "note": NOTE,
    }


def table_lines(found: PlantingTable) -> list[str]:
    """Return the table and its numbers as lines that fit 45 columns."""
    head = [found.planting] if found.planting else []
    if not found.table.rows:
        return [*head, "Nothing measured yet."]
    heading = "day   plant      top high strip new left"
    return [*head, heading, *map(_row, found.table.rows), *found.table.lines]


def _row(row: MeasuredRow) -> str:
    values = (row.top_leaf, row.highest_diseased, row.stripped_to, row.newly_diseased, row.leaves_standing)
    top, high, strip, new, left = ("–" if value is None else str(value) for value in values)
    return f"{row.on[5:]} {row.label[:10]:<10} {top:>3} {high:>4} {strip:>5} {new:>3} {left:>4}"
