"""Takes back the last group of writes of this device by writing its inverse."""

import json
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Engine, Table, select
from sqlalchemy.exc import IntegrityError

from scout.errors import Refused
from scout.store.asking import Door, rows
from scout.store.database import writing
from scout.store.history import Stamp, Transaction, Values
from scout.store.tables import table_of
from scout.store.weather_import import take_back_hours

UNWATCHED = {"stop": frozenset({"asking"})}
"""A place on the screen, kept without history; that it moved is no reason to refuse."""


@dataclass(frozen=True)
class TakenBack:
    """One change that was taken back."""

    entity: str
    row_id: str
    added: bool
    """True: the row was added by it and is gone; False: it was changed and is as before."""
    values: Values
    """The whole row as it stood before it was taken back; empty where it was gone."""


@dataclass(frozen=True)
class Undone:
    """What was taken back."""

    group_id: str
    changes: tuple[TakenBack, ...]
    """The newest change first."""

    @property
    def rows(self) -> tuple[tuple[str, str], ...]:
        """Return table and row id of each change."""
        return tuple((one.entity, one.row_id) for one in self.changes)


def undo_last(engine: Engine, stamp: Stamp) -> Undone:
    """Take back this device's newest group that is not yet taken back, and return what it was.

    The inverse is written as a group of its own, so history only grows. Raises Refused when there is nothing
    to take back, or when a later change or another row rests on what would go.
    """
    with writing(engine) as session:
        group_id = _newest(session, stamp)
        if group_id is None:
            raise Refused("There is nothing to undo.")
        inverse = Transaction(session, stamp, undoes=group_id)
        taken: list[TakenBack] = []
        _refuse_followed(inverse, group_id)
        for change in _changes(inverse, group_id):
            taken.append(_as_it_stands(inverse, change))
            _invert(inverse, change)
        return Undone(group_id, tuple(taken))


_TAKEN_BACK = "SELECT undoes FROM change WHERE undoes IS NOT NULL"
_NEWEST = f"""
    SELECT group_id FROM change
    WHERE device_id = :device AND garden_id = :garden AND undoes IS NULL AND group_id NOT IN ({_TAKEN_BACK})
    AND (before IS NOT NULL OR after IS NOT NULL) ORDER BY seq DESC LIMIT 1
"""
_BEGAN = "SELECT 1 FROM change WHERE group_id = :group AND entity = 'garden' AND before IS NULL"


def _newest(door: Door, stamp: Stamp) -> str | None:
    for (group_id,) in rows(door, _NEWEST, device=stamp.device_id, garden=stamp.garden_id):
        began = any(True for _ in rows(door, _BEGAN, group=group_id))
        return None if began else str(group_id)  # the garden itself is not taken away by a key pressed once too often
    return None


def _taken_back(change: Table) -> Any:
    return select(change.c.undoes).where(change.c.undoes.is_not(None))


def _changes(tx: Transaction, group_id: str) -> list[Any]:
    change = table_of("change")
    query = change.select().where(change.c.group_id == group_id).order_by(change.c.seq.desc())
    return list(tx.session.connection().execute(query))


def _refuse_followed(tx: Transaction, group_id: str) -> None:
    mine, later = table_of("change").alias("mine"), table_of("change").alias("later")
    same_row = (later.c.entity == mine.c.entity) & (later.c.row_id == mine.c.row_id)
    query = (
        select(mine.c.entity)
        .join_from(mine, later, same_row & (later.c.seq > mine.c.seq))
        .where(mine.c.group_id == group_id, later.c.group_id != group_id)
        .where(later.c.undoes.is_(None), later.c.group_id.not_in(_taken_back(table_of("change"))))
        .limit(1)
    )
    followed = tx.session.connection().execute(query).first()
    if followed is not None:
        _refuse_changed(followed)


def _refuse_changed(undone: Any) -> None:
    noun = undone.entity.replace("_", " ")
    raise Refused(f"This cannot be undone: the {noun} was changed again later, by another step or device.")


def _as_it_stands(tx: Transaction, undone: Any) -> TakenBack:
    stands = None if undone.entity == "weather_hour" else tx.row(undone.entity, undone.row_id)
    return TakenBack(undone.entity, undone.row_id, undone.before is None, stands or {})


def _invert(tx: Transaction, undone: Any) -> None:
    before, after = _read(undone.before), _read(undone.after)
    if before is None and after is None:
        return  # erased: nothing is left that could come back
    if undone.entity == "weather_hour" and after is not None:
        take_back_hours(tx, undone.row_id, before, after)
    else:
        _refuse_different(tx, undone, after)
        _put_back(tx, undone, before, after)
    tx.note(undone.entity, undone.row_id, after, before)


def _put_back(tx: Transaction, undone: Any, before: Values | None, after: Values | None) -> None:
    if before is None:
        _take_out(tx, undone)
    elif after is None:
        tx.put(undone.entity, before)
    else:
        tx.change(undone.entity, undone.row_id, before)


def _refuse_different(tx: Transaction, undone: Any, after: Values | None) -> None:
    stands = tx.row(undone.entity, undone.row_id)
    if (stands is None) != (after is None):
        _refuse_changed(undone)
    if stands is None or after is None:
        return
    watched = after.keys() - UNWATCHED.get(undone.entity, frozenset())
    if any(stands[name] != after[name] for name in watched):
        _refuse_changed(undone)


def _take_out(tx: Transaction, undone: Any) -> None:
    if undone.entity == "stop":  # a ranking is kept as it was shown, without history: it stays, without its stop
        shown = table_of("ranking")
        loose = shown.update().where(shown.c.stop_id == undone.row_id).values(stop_id=None)
        tx.session.connection().execute(loose)
    try:
        tx.remove(undone.entity, undone.row_id)
    except IntegrityError:
        noun = undone.entity.replace("_", " ")
        raise Refused(f"This cannot be undone: something else already belongs to the {noun}.") from None


def _read(text: str | None) -> Values | None:
    return None if text is None else dict(json.loads(text))
