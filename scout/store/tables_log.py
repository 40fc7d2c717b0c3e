"""What is logged because it explains later: picks, water, what came in, what is near, who eats the pests."""

from typing import Annotated

from sqlmodel import Field

from scout.store.fields import (
    Between,
    Count,
    Day,
    Digest,
    FileName,
    Id,
    KnownId,
    Line,
    Moment,
    Note,
    Offset,
    OneOf,
    Sorted,
)
from scout.store.rows import Observed, Plain, Stamped

WATERING_OUTCOMES = ("watered", "missed", "timer_failed")
PHOTO_OWNERS = ("finding", "stop", "planting", "bed", "marked_plant", "measurement", "trouble", "job", "outcome")


class Pick(Observed):
    """What was picked of one planting: sound pieces, odd pieces."""

    planting_id: Id = Field(foreign_key="planting.id")
    sound_n: Count
    odd_n: Count
    weight_g: Annotated[float, Between(0, 1_000_000)] | None = None
    indexed = (("planting_id", "observed_at"),)


class PickRow(Pick, Stamped, table=True):
    """A stored pick."""


class Watering(Observed):
    """What happened to the water of one zone or one bed; neither: the whole garden."""

    water_zone: Line | None = None
    bed_id: Id | None = Field(default=None, foreign_key="bed.id")
    outcome: Annotated[str, OneOf(WATERING_OUTCOMES)]
    indexed = (("observed_at",),)


class WateringRow(Watering, Stamped, table=True):
    """A stored watering."""


class BroughtIn(Plain):
    """Straw, manure, compost, plants: what came from outside, and where it went."""

    what: Line
    bed_id: Id | None = Field(default=None, foreign_key="bed.id")
    on: Day = Field(sa_type=Sorted)
    indexed = (("on",),)


class BroughtInRow(BroughtIn, Stamped, table=True):
    """A stored arrival."""


class NearReport(Plain):
    """A disease reported near here."""

    disease: KnownId
    distance_km: Annotated[float, Between(0, 5_000)] | None = None
    reported_on: Day = Field(sa_type=Sorted)
    indexed = (("reported_on",),)


class NearReportRow(NearReport, Stamped, table=True):
    """A stored report."""


class EnemySeen(Observed):
    """A natural enemy seen on a planting."""

    planting_id: Id = Field(foreign_key="planting.id")
    enemy: KnownId
    count_n: Count | None = None
    indexed = (("planting_id", "observed_at"),)


class EnemySeenRow(EnemySeen, Stamped, table=True):
    """A stored natural enemy."""


class Photo(Plain):
    """A picture taken in; `owner_kind` and `owner_id` say what it shows."""

    owner_kind: Annotated[str, OneOf(PHOTO_OWNERS)]
    owner_id: Id
    file: FileName
    """Made by the program, under the photo folder."""
    sha256: Digest
    taken_at: Moment | None = Field(default=None, sa_type=Sorted)
    taken_offset_min: Offset | None = None
    width: Annotated[int, Between(1, 100_000)]
    height: Annotated[int, Between(1, 100_000)]
    drawing: bool = False
    note: Note = ""
    indexed = (("owner_kind", "owner_id"), ("sha256",))


class PhotoRow(Photo, Stamped, table=True):
    """A stored photo."""
