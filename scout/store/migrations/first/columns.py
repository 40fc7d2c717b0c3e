"""The kinds of column of revision 0001."""

from typing import Any

import sqlalchemy as sa
from alembic import op

_SORTED = sa.String().with_variant(sa.String(collation="C"), "postgresql")


def text(name: str, *, null: bool = False) -> sa.Column[str]:
    """Return a text column."""
    return sa.Column(name, sa.String(), nullable=null)


def long_text(name: str, *, null: bool = False) -> sa.Column[str]:
    """Return a column for text without a limit."""
    return sa.Column(name, sa.Text(), nullable=null)


def time(name: str, *, null: bool = False) -> sa.Column[str]:
    """Return a text column for a day or time, that sorts by its characters."""
    return sa.Column(name, _SORTED, nullable=null)


def whole(name: str, *, null: bool = False) -> sa.Column[int]:
    """Return a column of whole numbers."""
    return sa.Column(name, sa.Integer(), nullable=null)


def real(name: str, *, null: bool = False) -> sa.Column[float]:
    """Return a column of numbers."""
    return sa.Column(name, sa.Float(), nullable=null)


def flag(name: str, *, null: bool = False) -> sa.Column[bool]:
    """Return a yes-or-no column."""
    return sa.Column(name, sa.Boolean(), nullable=null)


def link(name: str, target: str, *, null: bool = False) -> tuple[str, str, bool]:
    """Return a column that points at the id of `target`."""
    return name, target, null


def table(name: str, *columns: Any, rules: dict[str, str], indexes: tuple[tuple[str, ...], ...] = ()) -> None:
    """Make one table with its stamp, its links, its rules and its indexes."""
    parts: list[Any] = [text("id"), *_linked(name, ("garden_id", "garden", False))]
    parts += [text("device_id"), text("author"), time("entered_at")]
    for column in columns:
        parts += _linked(name, column) if isinstance(column, tuple) else [column]
    parts.append(sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{name}")))
    parts += [check(name, rule, sql) for rule, sql in {**_STAMP_RULES, **rules}.items()]
    op.create_table(name, *parts)
    index(name, indexes)


def check(table_name: str, rule: str, sql: str) -> sa.CheckConstraint:
    """Return a named rule."""
    return sa.CheckConstraint(sql, name=op.f(f"ck_{table_name}_{rule}"))


def index(name: str, indexes: tuple[tuple[str, ...], ...]) -> None:
    """Make the indexes of a table."""
    for columns in indexes:
        op.create_index(op.f(f"ix_{name}_{'_'.join(columns)}"), name, list(columns))


_STAMP_RULES = {
    "id": "length(id) = 36",
    "garden_id": "length(garden_id) = 36",
    "device_id": "length(device_id) = 36",
    "author": "length(author) >= 1 AND length(author) <= 200",
    "entered_at": "length(entered_at) >= 20 AND length(entered_at) <= 27",
}


def _linked(table_name: str, column: tuple[str, str, bool]) -> list[Any]:
    name, target, null = column
    foreign = sa.ForeignKeyConstraint([name], [f"{target}.id"], name=op.f(f"fk_{table_name}_{name}_{target}"))
    return [text(name, null=null), foreign]
