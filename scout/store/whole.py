"""Whole tables of a garden, row by row, for handing everything out."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select
from sqlmodel import Session

from scout.store.tables import NOUNS, table_of

_HOURS = "weather_hour"


@dataclass(frozen=True)
class WholeTable:
    """One table: its columns, and its rows as they come."""

    name: str
    columns: tuple[str, ...]
    rows: Iterator[tuple[Any, ...]]


def whole_tables(*, session: Session, garden_id: str) -> Iterator[WholeTable]:
    """Yield every table of a garden but the history, whose rows repeat what was changed in the others."""
    for entity in (*NOUNS, _HOURS):
        table = table_of(entity)
        query = table.select().order_by(*table.primary_key.columns)
        if entity == _HOURS:
            series = table_of("weather_series")
            mine = select(series.c.id).where(series.c.garden_id == garden_id)
            query = query.where(table.c.series_id.in_(mine))
        else:
            query = query.where(table.c.garden_id == garden_id)
        found = session.connection().execute(query)
        yield WholeTable(entity, tuple(column.name for column in table.columns), (tuple(row) for row in found))


def row_counts(*, session: Session, garden_id: str) -> dict[str, int]:
    """Return how many rows each stamped table of a garden has."""
    from sqlalchemy import func

    counts = {}
    for entity in NOUNS:
        table = table_of(entity)
        query = select(func.count()).select_from(table).where(table.c.garden_id == garden_id)
        counts[entity] = int(session.connection().execute(query).scalar() or 0)
    return counts
