"""A walk: its stops, what was looked at, what was seen."""

from typing import Annotated

from sqlmodel import Field

from scout.store.fields import (
    Across,
    Between,
    Count,
    Id,
    KnownId,
    Line,
    Moment,
    Note,
    Offset,
    OneOf,
    Percent,
    Some,
    Sorted,
    not_above,
)
from scout.store.rows import Observed, Plain, Stamped

STOP_STATES = ("open", "done", "skipped", "deferred")
LOOK_ANSWERS = ("clear", "seen", "skip")
CLEARANCE_KINDS = ("glance", "every_look", "whole_bed")
FINDING_STATES = ("seen", "not_seen")
MANNERS = ("glance", "look", "asked")


class Walk(Plain):
    """One scouting round; it may cross midnight."""

    started_at: Moment = Field(sa_type=Sorted)
    started_offset_min: Offset | None = None
    ended_at: Moment | None = Field(default=None, sa_type=Sorted)
    ended_offset_min: Offset | None = None
    mode: KnownId
    """Such as full, short, dawn, night: the word of the service that planned it."""
    indexed = (("started_at",),)


class WalkRow(Walk, Stamped, table=True):
    """A stored walk."""


class Stop(Plain):
    """One planting visited in a walk."""

    walk_id: Id = Field(foreign_key="walk.id")
    planting_id: Id = Field(foreign_key="planting.id")
    bed_id: Id = Field(foreign_key="bed.id")
    position: Annotated[int, Between(0, 10_000)]
    why: Line
    state: Annotated[str, OneOf(STOP_STATES)] = "open"
    deferred_why: Line | None = None
    asking: Line | None = None
    """The question on screen, so that a walk goes on where it stopped; None: at the looks."""
    note: Note = ""
    """A line to read at the next visit."""
    opened_at: Moment | None = Field(default=None, sa_type=Sorted)
    closed_at: Moment | None = Field(default=None, sa_type=Sorted)
    indexed = (("walk_id", "position"), ("planting_id",))


class StopRow(Stop, Stamped, table=True):
    """A stored stop."""


class LookAnswer(Plain):
    """What one look gave; the newest answer to a look holds."""

    stop_id: Id = Field(foreign_key="stop.id")
    look_id: KnownId
    answer: Annotated[str, OneOf(LOOK_ANSWERS)]
    looked_n: Count | None = None
    indexed = (("stop_id",),)


class LookAnswerRow(LookAnswer, Stamped, table=True):
    """A stored look answer."""


class Clearance(Plain):
    """Nothing caught the eye at a glance, or nothing was seen in every look made; `looked_n` was shown."""

    stop_id: Id = Field(foreign_key="stop.id")
    kind: Annotated[str, OneOf(CLEARANCE_KINDS)]
    looked_n: Some
    indexed = (("stop_id",),)


class ClearanceRow(Clearance, Stamped, table=True):
    """A stored clearance."""


class Finding(Observed):
    """One symptom seen, or looked for and not seen, at one planting."""

    stop_id: Id | None = Field(default=None, foreign_key="stop.id")
    planting_id: Id = Field(foreign_key="planting.id")
    bed_id: Id | None = Field(default=None, foreign_key="bed.id")
    symptom: KnownId
    state: Annotated[str, OneOf(FINDING_STATES)]
    looked_n: Count | None = None
    affected_n: Count | None = None
    severity_outer_pct: Percent | None = None
    severity_middle_pct: Percent | None = None
    severity_inner_pct: Percent | None = None
    """By canopy third; on leaf and root crops outer, middle and heart."""
    place: KnownId | None = None
    which_plants: Line | None = None
    note: Note = ""
    manner: Annotated[str, OneOf(MANNERS)]
    across = (
        not_above("affected_n", "looked_n", "has more plants affected than looked at"),
        Across(
            "not_seen_is_none",
            "state = 'seen' OR coalesce(affected_n, 0) = 0",
            lambda row: row.state != "seen" and bool(row.affected_n),
            "is marked as not seen, so no plant can be affected",
        ),
    )
    indexed = (("bed_id", "observed_at"), ("planting_id", "observed_at"), ("stop_id",))


class FindingRow(Finding, Stamped, table=True):
    """A stored finding."""
