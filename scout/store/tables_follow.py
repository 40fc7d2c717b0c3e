"""What is followed over walks: marked plants, open problems, jobs, outcomes, holds, rankings shown."""

from typing import Annotated

from sqlmodel import Field

from scout.store.fields import (
    Across,
    Between,
    Count,
    Day,
    Id,
    JsonText,
    KnownId,
    Line,
    Moment,
    Node,
    Note,
    Offset,
    OneOf,
    Percent,
    Some,
    Sorted,
    not_above,
)
from scout.store.rows import Observed, Plain, Stamped

HABITS = ("indeterminate", "determinate", "topped")
WETNESS = ("wet", "dry", "not_felt")
TROUBLE_STATES = ("open", "closed")
JOB_STATES = ("open", "done", "skipped")
VERDICTS = ("yes", "no", "cannot_tell")
COUNT_WAYS = ("share", "number")
COUNT_PHASES = ("before", "after", "alone")
PROOFS = ("independent", "clinic", "later_course", "agreement")


class MarkedPlant(Plain):
    """A plant that is measured again at every visit."""

    planting_id: Id = Field(foreign_key="planting.id")
    label: Line
    habit: Annotated[str, OneOf(HABITS)]
    control: bool = False
    """True: left unstripped, to compare."""
    left_on: Day | None = Field(default=None, sa_type=Sorted)
    """From this day on it is measured no more: it died, was pulled, or lost its tape; its counts stay."""
    indexed = (("planting_id",),)


class MarkedPlantRow(MarkedPlant, Stamped, table=True):
    """A stored marked plant."""


class Measurement(Observed):
    """One marked plant on one day, in nodes counted from the soil; None was not measured.

    As found before the day's cutting, but for `stripped_to` and `leaves_standing`. `highest_diseased` counts
    leaves taken off today; 0: looked, none diseased. What can hardly be was asked about and is kept as typed.
    """

    marked_plant_id: Id = Field(foreign_key="marked_plant.id")
    stop_id: Id | None = Field(default=None, foreign_key="stop.id")
    top_leaf: Node | None = None
    highest_diseased: Node | None = None
    stripped_to: Node | None = None
    newly_diseased: Count | None = None
    leaves_standing: Count | None = None
    wet: Annotated[str, OneOf(WETNESS)] = "not_felt"
    severity_pct: Percent | None = None
    indexed = (("marked_plant_id", "observed_at"),)


class MeasurementRow(Measurement, Stamped, table=True):
    """A stored measurement."""


class Trouble(Plain):
    """A problem followed over walks; on screen an open problem."""

    planting_id: Id = Field(foreign_key="planting.id")
    cause: KnownId | None = None
    """None: not told yet."""
    title: Line
    opened_on: Day = Field(sa_type=Sorted)
    closed_on: Day | None = Field(default=None, sa_type=Sorted)
    state: Annotated[str, OneOf(TROUBLE_STATES)] = "open"
    across = (
        not_above("opened_on", "closed_on", "is closed before it was opened"),
        Across(
            "closed_has_a_day",
            "(state = 'closed') = (closed_on IS NOT NULL)",
            lambda row: (row.state == "closed") != (row.closed_on is not None),
            "needs a closing day when it is closed, and none while it is open",
        ),
    )
    indexed = (("planting_id",), ("state", "opened_on"))


class TroubleRow(Trouble, Stamped, table=True):
    """A stored trouble."""


class Job(Plain):
    """Work to do, done or skipped."""

    planting_id: Id | None = Field(default=None, foreign_key="planting.id")
    bed_id: Id | None = Field(default=None, foreign_key="bed.id")
    control: KnownId | None = None
    cause: KnownId | None = None
    trouble_id: Id | None = Field(default=None, foreign_key="trouble.id")
    title: Line
    due_on: Day = Field(sa_type=Sorted)
    state: Annotated[str, OneOf(JOB_STATES)] = "open"
    skipped_why: Line | None = None
    done_at: Moment | None = Field(default=None, sa_type=Sorted)
    look_again_on: Day | None = Field(default=None, sa_type=Sorted)
    stop_id: Id | None = Field(default=None, foreign_key="stop.id")
    across = (
        Across(
            "done_has_a_time",
            "(state = 'done') = (done_at IS NOT NULL)",
            lambda row: (row.state == "done") != (row.done_at is not None),
            "needs the day it was done when it is done, and none otherwise",
        ),
    )
    indexed = (("state", "due_on"), ("planting_id",), ("trouble_id",))


class JobRow(Job, Stamped, table=True):
    """A stored job."""


class Outcome(Observed):
    """Did it work; and what says so. Only an independent sign teaches the garden anything."""

    job_id: Id | None = Field(default=None, foreign_key="job.id")
    trouble_id: Id | None = Field(default=None, foreign_key="trouble.id")
    verdict: Annotated[str, OneOf(VERDICTS)]
    sign: Annotated[str, OneOf(PROOFS)]
    note: Note = ""
    across = (
        Across(
            "of_something",
            "job_id IS NOT NULL OR trouble_id IS NOT NULL",
            lambda row: row.job_id is None and row.trouble_id is None,
            "must belong to a job or an open problem",
        ),
    )
    indexed = (("job_id",), ("trouble_id",))


class OutcomeRow(Outcome, Stamped, table=True):
    """A stored outcome."""


class Counted(Observed):
    """One thing counted on a planting: a share of those looked at, or a number on them.

    `phase` before or after a job, or alone; `untreated`: on plants the job left out, to compare with.
    """

    planting_id: Id = Field(foreign_key="planting.id")
    job_id: Id | None = Field(default=None, foreign_key="job.id")
    what: Line
    mark: KnownId | None = None
    """The action mark it is held against, where there is one."""
    way: Annotated[str, OneOf(COUNT_WAYS)]
    unit: Line
    """What was looked at, in the plural: plants, leaves, fruit."""
    phase: Annotated[str, OneOf(COUNT_PHASES)]
    untreated: bool = False
    counted_n: Count
    looked_n: Some
    each: JsonText | None = None
    """The number on each one looked at, where they were counted one by one."""
    across = (
        Across(
            "share_is_of_those_looked_at",
            "way <> 'share' OR counted_n <= looked_n",
            lambda row: row.way == "share" and row.counted_n > row.looked_n,
            "has more counted than were looked at",
        ),
        Across(
            "of_a_job_or_alone",
            "(phase = 'alone') = (job_id IS NULL)",
            lambda row: (row.phase == "alone") != (row.job_id is None),
            "belongs to a job before or after it, or stands alone",
        ),
    )
    indexed = (("job_id",), ("planting_id", "observed_at"))


class CountedRow(Counted, Stamped, table=True):
    """A stored count."""


class Hold(Plain):
    """Do not eat until, and do not enter until; None: until the label's interval is known.

    The intervals are the grower's copy of the label; the ends are worked out once, by the garden's wall clock.
    """

    planting_id: Id = Field(foreign_key="planting.id")
    reason: Line
    until_at: Moment | None = Field(default=None, sa_type=Sorted)
    re_entry_until_at: Moment | None = Field(default=None, sa_type=Sorted)
    note: Note = ""
    applied_at: Moment | None = Field(default=None, sa_type=Sorted)
    applied_offset_min: Offset | None = None
    harvest_interval_d: Annotated[int, Between(0, 400)] | None = None
    re_entry_h: Annotated[int, Between(0, 2_000)] | None = None
    indexed = (("planting_id",),)


class HoldRow(Hold, Stamped, table=True):
    """A stored hold."""


class Ranking(Observed):
    """One ranking as it was shown, what it rested on, and what came of it."""

    planting_id: Id = Field(foreign_key="planting.id")
    stop_id: Id | None = Field(default=None, foreign_key="stop.id")
    knowledge_hash: Line
    evidence: JsonText
    answer: JsonText
    asked: KnownId | None = None
    chosen: KnownId | None = None
    confirmed: KnownId | None = None
    indexed = (("planting_id", "observed_at"),)


class RankingRow(Ranking, Stamped, table=True):
    """A stored ranking."""
