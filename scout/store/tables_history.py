"""What happened to the rows: every change, and what was erased for good."""

from typing import Any

from sqlalchemy import Text
from sqlalchemy.orm import declared_attr
from sqlmodel import Field

from scout.store.fields import Id, Instant, Line, Sorted
from scout.store.rows import Plain, Stamped, indexes


class ChangeRow(Plain, table=True):
    """One change of one row: `before` None is an addition, `after` None a removal; both None: erased.

    Append-only. `seq` gives the order on this machine, also when two changes carry one time.
    """

    __tablename__ = "change"
    seq: int | None = Field(default=None, primary_key=True)
    id: Id = Field(unique=True)
    garden_id: Id
    device_id: Id
    author: Line
    entity: Line
    row_id: Id
    before: str | None = Field(default=None, sa_type=Text)
    after: str | None = Field(default=None, sa_type=Text)
    group_id: Id
    """All changes of one transaction."""
    undoes: Id | None = None
    """The group this one takes back."""
    at: Instant = Field(sa_type=Sorted)
    indexed = (("entity", "row_id"), ("group_id",), ("device_id", "seq"), ("undoes",))

    @declared_attr.directive
    def __table_args__(cls) -> tuple[Any, ...]:
        return tuple(indexes(cls))


class Tombstone(Plain):
    """A row that was erased on purpose, such as a photo with a person in it."""

    entity: Line
    row_id: Id
    why: Line
    indexed = (("entity", "row_id"),)


class TombstoneRow(Tombstone, Stamped, table=True):
    """A stored tombstone; `entered_at` says when."""
