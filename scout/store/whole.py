"""Whole tables of a garden, row by row, for handing everything out."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Boolean

from scout.store.asking import Door, rows, with_flags
from scout.store.tables import NOUNS, table_of

_HOURS = "weather_hour"
_MINE = {_HOURS: "series_id IN (SELECT id FROM weather_series WHERE garden_id = :garden)"}


@dataclass(frozen=True)
class WholeTable:
    """One table: its columns, and its rows as they come."""

    name: str
    columns: tuple[str, ...]
    rows: Iterator[tuple[Any, ...]]


def whole_tables(*, session: Door, garden_id: str) -> Iterator[WholeTable]:
    """Yield every table of a garden but the history, whose rows repeat what was changed in the others."""
    for entity in (*NOUNS, _HOURS):
        table = table_of(entity)
        names = tuple(column.name for column in table.columns)
        columns = ", ".join(f'"{name}"' for name in names)
        order = ", ".join(column.name for column in table.primary_key.columns)
        mine = _MINE.get(entity, "garden_id = :garden")
        found = rows(session, f"SELECT {columns} FROM {entity} WHERE {mine} ORDER BY {order}", garden=garden_id)
        flags = frozenset(n for n, column in enumerate(table.columns) if isinstance(column.type, Boolean))
        yield WholeTable(entity, names, (tuple(with_flags(row, flags)) for row in found))


def row_counts(*, session: Door, garden_id: str) -> dict[str, int]:
    """Return how many rows each stamped table of a garden has."""
    counts = {}
    for entity in NOUNS:
        ((count,),) = rows(session, f"SELECT count(*) FROM {entity} WHERE garden_id = :garden", garden=garden_id)
        counts[entity] = int(count)
    return counts
