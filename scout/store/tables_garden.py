"""The garden: beds and tubs, what stands in them, how it is grown."""

from typing import Annotated

from sqlmodel import Field

from scout.store.fields import Between, Count, Day, Id, KnownId, Line, MonthDay, Note, OneOf, Sorted, Zone, not_above
from scout.store.rows import Observed, Plain, Stamped

BED_KINDS = ("bed", "tub")
UNITS = ("metric", "us")
IDENTITIES = ("confirmed", "unconfirmed")
ORIGINS = ("bought_plant", "bought_seed", "saved_seed", "volunteer", "unknown")


class Garden(Plain):
    """One grower's or one group's garden; its own `garden_id` is its id."""

    name: Line


class GardenRow(Garden, Stamped, table=True):
    """A stored garden."""


class Device(Plain):
    """A laptop or phone that writes into the garden; its own `device_id` is its id."""

    name: Line


class DeviceRow(Device, Stamped, table=True):
    """A stored device."""


class Site(Plain):
    """Where the garden lies and how it counts; one a garden, the newest holds."""

    latitude: Annotated[float, Between(-90, 90)] | None = None
    longitude: Annotated[float, Between(-180, 180)] | None = None
    zone: Zone
    units: Annotated[str, OneOf(UNITS)] = "metric"
    first_frost: MonthDay | None = None
    """First autumn frost to expect."""
    last_frost: MonthDay | None = None
    """Last spring frost to expect."""


class SiteRow(Site, Stamped, table=True):
    """A stored site."""


class Bed(Plain):
    """A bed or tub; `position` is its place in walking order."""

    name: Line
    kind: Annotated[str, OneOf(BED_KINDS)] = "bed"
    position: Annotated[int, Between(0, 10_000)]
    water_zone: Line | None = None
    note: Note = ""
    retired_on: Day | None = Field(default=None, sa_type=Sorted)


class BedRow(Bed, Stamped, table=True):
    """A stored bed."""


class Planting(Plain):
    """A crop sown or set out together; which beds it stands in is kept apart."""

    crop: KnownId
    variety_label: Line | None = None
    """As the packet or tag says."""
    variety_found: Line | None = None
    """As it turned out to be."""
    identity: Annotated[str, OneOf(IDENTITIES)] = "unconfirmed"
    origin: Annotated[str, OneOf(ORIGINS)] = "unknown"
    habit: KnownId | None = None
    sown_on: Day | None = Field(default=None, sa_type=Sorted)
    set_out_on: Day | None = Field(default=None, sa_type=Sorted)
    removed_on: Day | None = Field(default=None, sa_type=Sorted)
    removed_why: Line | None = None
    stage_override: KnownId | None = None
    """The stage the grower set by hand; None: counted from the dates."""
    note: Note = ""
    across = (
        not_above("sown_on", "set_out_on", "was set out before it was sown"),
        not_above("sown_on", "removed_on", "was removed before it was sown"),
        not_above("set_out_on", "removed_on", "was removed before it was set out"),
    )


class PlantingRow(Planting, Stamped, table=True):
    """A stored planting."""


class PlantingBed(Plain):
    """A planting in a bed for a time; a planting may stand in several, a bed may hold several."""

    planting_id: Id = Field(foreign_key="planting.id")
    bed_id: Id = Field(foreign_key="bed.id")
    from_on: Day = Field(sa_type=Sorted)
    until_on: Day | None = Field(default=None, sa_type=Sorted)
    across = (not_above("from_on", "until_on", "ends before it begins"),)
    indexed = (("planting_id",), ("bed_id",))


class PlantingBedRow(PlantingBed, Stamped, table=True):
    """A stored place of a planting."""


class PlantCount(Plain):
    """How many plants stood on a day; a new count never overwrites an old one."""

    planting_id: Id = Field(foreign_key="planting.id")
    counted_on: Day = Field(sa_type=Sorted)
    plants_n: Count
    indexed = (("planting_id", "counted_on"),)


class PlantCountRow(PlantCount, Stamped, table=True):
    """A stored plant count."""


class Circumstance(Observed):
    """How a planting is grown, yes or no; the newest answer holds."""

    planting_id: Id = Field(foreign_key="planting.id")
    circumstance: KnownId
    value: bool
    indexed = (("planting_id", "circumstance"),)


class CircumstanceRow(Circumstance, Stamped, table=True):
    """A stored circumstance."""
