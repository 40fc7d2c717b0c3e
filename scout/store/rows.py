"""What every table shares: a plain class that validates, a stamp, and the rules handed to the database."""

import re
from collections.abc import Iterator
from typing import Annotated, Any, ClassVar, get_args, get_origin

from pydantic import model_validator
from sqlalchemy import CheckConstraint, Index
from sqlalchemy.orm import declared_attr
from sqlmodel import Field, SQLModel

from scout.store.fields import Across, Id, Instant, Line, Moment, Offset, Rule, Sorted

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}
"""Every constraint has a name from the first revision on: SQLite can drop only what is named."""

_KEYWORDS = frozenset({"on"})

SQLModel.metadata.naming_convention = NAMES


class Plain(SQLModel):
    """The fields of one noun, checked; a table class shares them and does not check."""

    model_config = {"extra": "forbid", "strict": True, "allow_inf_nan": False, "defer_build": True}
    across: ClassVar[tuple[Across, ...]] = ()
    indexed: ClassVar[tuple[tuple[str, ...], ...]] = ()

    @model_validator(mode="after")
    def _hold_together(self) -> "Plain":
        for rule in self.across:
            if rule.broken(self):
                raise ValueError(rule.sentence)
        return self


class Stamped(Plain):
    """Who wrote the row, on which device, and when, so that two devices can be merged."""

    id: Id = Field(primary_key=True)
    garden_id: Id = Field(foreign_key="garden.id")
    device_id: Id
    author: Line
    entered_at: Instant = Field(sa_type=Sorted)

    @declared_attr.directive
    def __tablename__(cls) -> str:
        return entity_name(cls.__name__)

    @declared_attr.directive
    def __table_args__(cls) -> tuple[Any, ...]:
        return tuple(indexes(cls))


def entity_name(class_name: str) -> str:
    """Return the table's name: `PlantingBedRow` is `planting_bed`."""
    return re.sub(r"(?<!^)(?=[A-Z])", "_", class_name.removesuffix("Row")).lower()


def rules(model: Any) -> Iterator[CheckConstraint]:
    """Yield the database's copy of every rule of the fields, and of those across fields."""
    for name, field in model.model_fields.items():
        for number, rule in enumerate(_rules_of(field.rebuild_annotation())):
            column = f'"{name}"' if name in _KEYWORDS else name
            yield CheckConstraint(rule.sql(column), name=f"{name}_{number}" if number else name)
    for across in getattr(model, "across", ()):
        yield CheckConstraint(across.sql, name=across.name)


def indexes(model: Any) -> Iterator[Index]:
    """Yield the indexes the questions need."""
    table = entity_name(model.__name__)
    for columns in getattr(model, "indexed", ()):
        yield Index(f"ix_{table}_{'_'.join(columns)}", *columns)


def _rules_of(annotation: Any) -> Iterator[Rule]:
    if get_origin(annotation) is Annotated:
        inner, *marks = get_args(annotation)
        yield from _rules_of(inner)
        yield from (mark for mark in marks if isinstance(mark, Rule))
    else:
        for part in get_args(annotation):
            yield from _rules_of(part)


class Observed(Plain):
    """What was seen or done on a day, by the grower's wall clock."""

    observed_at: Moment = Field(sa_type=Sorted)
    observed_offset_min: Offset | None = None
    """Minutes ahead of UTC; None where the hour is unknown."""
