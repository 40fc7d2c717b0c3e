"""Questions in plain SQL: of a file through sqlite3 itself, also within a session that writes; else of the server.

The library that writes takes most of a second to load; the first screen only asks, and does not wait for it.
"""

import sqlite3
from collections.abc import Callable, Iterable, Sequence
from dataclasses import fields
from functools import cache
from typing import TYPE_CHECKING, Any, TypeAlias, TypeVar, cast

if TYPE_CHECKING:
    from sqlmodel import Session

V = TypeVar("V")
Door: TypeAlias = "sqlite3.Connection | Session"
_FLAGS = (bool, bool | None)


@cache
def select(view: type[Any], table: str, **other: str) -> str:
    """Return the beginning of a question for the fields of the frozen dataclass `view`, up to the table's name.

    A field is the table's column of that name, or what `other` gives for its name.
    """
    columns = (other.get(field.name, f'{table}."{field.name}"') for field in fields(view))
    return f"SELECT {', '.join(columns)} FROM {table}"


def rows(door: Door, sql: str, **given: Any) -> Iterable[Sequence[Any]]:
    """Return what a question finds, row by row; `:name` in it stands for the value given by that name."""
    file = door if isinstance(door, sqlite3.Connection) else door.connection().connection.driver_connection
    if isinstance(file, sqlite3.Connection):
        return file.execute(sql, given)
    from sqlalchemy import text

    return cast("Session", door).connection().execute(text(sql), given)


def found(door: Door, view: Callable[..., V], sql: str, **given: Any) -> tuple[V, ...]:
    """Return what a question finds as `view` objects, in its order."""
    flags = _flags(view)
    return tuple(view(*with_flags(row, flags)) for row in rows(door, sql, **given))


def first(door: Door, view: Callable[..., V], sql: str, **given: Any) -> V | None:
    """Return the first that a question finds, or None."""
    one = found(door, view, f"{sql} LIMIT 1", **given)
    return one[0] if one else None


@cache
def _flags(view: Any) -> frozenset[int]:
    """Return which fields are yes or no: SQLite keeps those as 0 and 1."""
    return frozenset(number for number, field in enumerate(fields(view)) if field.type in _FLAGS)


def with_flags(row: Sequence[Any], flags: frozenset[int]) -> Sequence[Any]:
    """Return a row with its fields numbered in `flags` as True, False or None."""
    if not flags:
        return row
    return [bool(value) if n in flags and value is not None else value for n, value in enumerate(row)]


def end_of(day: str) -> str:
    """Return a text that sorts after every moment of that day and before the next."""
    return f"{day}U"
