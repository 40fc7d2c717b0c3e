"""Every write, with what it changed, in one database transaction."""

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Engine
from sqlmodel import Session

from scout.errors import NotFound
from scout.store.checking import checked
from scout.store.database import writing
from scout.store.rows import Stamped
from scout.store.tables import NOUNS, STAMPS, entity_of, table_of

Values = dict[str, Any]


@dataclass(frozen=True)
class Stamp:
    """Who writes, where and when; given by the caller, because the store has no clock and no chance."""

    garden_id: str
    device_id: str
    author: str
    now_utc: str
    """2026-07-20T16:22:05Z"""
    new_id: Callable[[], str]


class Transaction:
    """One group of writes; all are kept or none."""

    def __init__(self, session: Session, stamp: Stamp, *, undoes: str | None = None) -> None:
        self.session = session
        """For questions that must see what this transaction wrote."""
        self.stamp = stamp
        self.group_id = stamp.new_id()
        self._undoes = undoes

    def add(self, noun: type[Any], *, row_id: str | None = None, **values: Any) -> str:
        """Check and add one row of a plain class, and return its id.

        `row_id`: an id that is already decided, such as a garden's or a weather day's.
        """
        row = self.add_silently(noun, new_id=row_id, **values)
        self.note(entity_of(noun), row["id"], None, row)
        return str(row["id"])

    def add_silently(self, noun: type[Any], *, new_id: str | None = None, **values: Any) -> Values:
        """Check and add one row without a note, and return it: for a tombstone, which is its own history."""
        entity = entity_of(noun)
        fields = checked(NOUNS[entity], values).model_dump()
        row = self._stamped(new_id or self.stamp.new_id()) | fields
        self.put(entity, row)
        return row

    def update(self, noun: type[Any], row_id: str, **values: Any) -> bool:
        """Check and change fields of one row; returns False when nothing differs, and then writes nothing.

        Raises NotFound for a row that is not there, BadInput for what the whole row may not hold.
        """
        entity = entity_of(noun)
        old = self.row(entity, row_id)
        if old is None:
            raise NotFound(f"There is no {entity.replace('_', ' ')} with the id {row_id}.")
        plain = {name: value for name, value in old.items() if name not in STAMPS}
        new = checked(NOUNS[entity], plain | values).model_dump()
        changed = {name: value for name, value in new.items() if value != plain[name]}
        if not changed:
            return False
        self.change(entity, row_id, changed)
        self.note(entity, row_id, {name: plain[name] for name in changed}, changed)
        return True

    def row(self, entity: str, row_id: str) -> Values | None:
        """Return a row as it stands, or None."""
        table = table_of(entity)
        query = table.select().where(table.c.id == row_id).with_for_update()
        found = self.session.connection().execute(query).mappings().first()
        return dict(found) if found else None

    def put(self, entity: str, row: Mapping[str, Any]) -> None:
        """Insert a checked row without a note; its caller writes the note."""
        self.session.connection().execute(table_of(entity).insert(), dict(row))

    def change(self, entity: str, row_id: str, values: Mapping[str, Any]) -> None:
        """Set checked fields of a row without a note; its caller writes the note."""
        table = table_of(entity)
        self.session.connection().execute(table.update().where(table.c.id == row_id).values(dict(values)))

    def remove(self, entity: str, row_id: str) -> None:
        """Take a row away without a note: for undoing an addition, and for an erasure."""
        table = table_of(entity)
        self.session.connection().execute(table.delete().where(table.c.id == row_id))

    def note(self, entity: str, row_id: str, before: Values | None, after: Values | None) -> None:
        """Write the change row."""
        self.note_many([(entity, row_id, before, after)])

    def note_many(self, changes: Sequence[tuple[str, str, Values | None, Values | None]]) -> None:
        """Write change rows, in this order."""
        shared = {
            "garden_id": self.stamp.garden_id,
            "device_id": self.stamp.device_id,
            "author": self.stamp.author,
            "group_id": self.group_id,
            "undoes": self._undoes,
            "at": self.stamp.now_utc,
        }
        rows = [
            shared
            | {
                "id": self.stamp.new_id(),
                "entity": entity,
                "row_id": row_id,
                "before": _json(before),
                "after": _json(after),
            }
            for entity, row_id, before, after in changes
        ]
        if rows:
            self.session.connection().execute(table_of("change").insert(), rows)

    def stamp_values(self) -> Values:
        """Return the stamp's columns but the id, checked."""
        values = self._stamped(self.stamp.new_id())
        del values["id"]
        return values

    def _stamped(self, row_id: str) -> Values:
        stamp = self.stamp
        return checked(
            Stamped,
            {
                "id": row_id,
                "garden_id": stamp.garden_id,
                "device_id": stamp.device_id,
                "author": stamp.author,
                "entered_at": stamp.now_utc,
            },
        ).model_dump()


@contextmanager
def transaction(engine: Engine, stamp: Stamp) -> Iterator[Transaction]:
    """Give a Transaction; leaving the block keeps all of it, an exception undoes all of it.

    Raises BadInput for a row that breaks a rule, StoreError when the file cannot be written.
    """
    with writing(engine) as session:
        yield Transaction(session, stamp)


def _json(values: Values | None) -> str | None:
    return None if values is None else json.dumps(values, ensure_ascii=False, sort_keys=True)
