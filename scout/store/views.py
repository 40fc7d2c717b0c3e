"""Rows as they leave the store: frozen, detached, with the fields one view names."""

from collections.abc import Iterable
from dataclasses import fields
from typing import Any, TypeVar

from sqlalchemy import ColumnElement, Select, select
from sqlmodel import Session

V = TypeVar("V")


def select_view(view: type[Any], row: type[Any], **other: Any) -> Select[Any]:
    """Return a select of exactly the fields of the frozen dataclass `view`.

    A field comes from the row class, or from the column that `other` gives for its name.
    """
    columns: Iterable[ColumnElement[Any]] = [
        other[field.name] if field.name in other else getattr(row, field.name) for field in fields(view)
    ]
    return select(*columns)


def views(session: Session, view: type[V], query: Select[Any]) -> tuple[V, ...]:
    """Return what the query finds, as `view` objects in its order."""
    return tuple(view(*values) for values in session.connection().execute(query))


def first_view(session: Session, view: type[V], query: Select[Any]) -> V | None:
    """Return the first that the query finds, or None."""
    values = session.connection().execute(query.limit(1)).first()
    return None if values is None else view(*values)
