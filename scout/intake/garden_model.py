"""What a garden file may say."""

import re
from datetime import date
from typing import Annotated, Any, Literal
from zoneinfo import ZoneInfo

from pydantic import AfterValidator, BeforeValidator, Field, Strict, model_validator

from scout.intake.written import Day, Decimal, Line, Note, Place, Whole, Written

_ZONE = re.compile(r"[A-Za-z][A-Za-z0-9_+-]*(?:/[A-Za-z0-9_+-]+){0,2}")
_MONTH_DAY = re.compile(r"[0-9]{2}-[0-9]{2}")


def _zone(name: str) -> str:
    if len(name) > 60 or not _ZONE.fullmatch(name) or not _zone_exists(name):
        raise ValueError("is no time zone; write it like Etc/UTC or a continent and city with a slash")
    return name


def _zone_exists(name: str) -> bool:
    try:
        ZoneInfo(name)
    except (OSError, ValueError):  # names of folders and odd names
        return False
    except KeyError:
        return not _zones_known()
    return True


def _zones_known() -> bool:
    try:
        ZoneInfo("Etc/GMT+1")
    except KeyError:
        return False  # this machine has no time zone data, so nothing can be said
    return True


def _month_day(value: Any) -> Any:
    """Accept a whole date too: frost comes back each year."""
    if isinstance(value, date):
        return value.strftime("%m-%d")
    if isinstance(value, str):
        try:
            if not _MONTH_DAY.fullmatch(value):
                raise ValueError
            date.fromisoformat(f"2000-{value}")
        except ValueError:
            raise ValueError("is no day of the year; write month and day, like 10-15") from None
    return value


MonthDay = Annotated[str, BeforeValidator(_month_day)]
"""Month and day, such as "10-15"."""


class GardenHead(Written):
    """The garden itself."""

    name: Line = "Garden"
    zone: Annotated[str, AfterValidator(_zone)] = "UTC"
    units: Literal["metric", "us"] = "metric"
    latitude: Annotated[Decimal, Field(ge=-90, le=90, allow_inf_nan=False)] | None = None
    longitude: Annotated[Decimal, Field(ge=-180, le=180, allow_inf_nan=False)] | None = None
    first_frost: MonthDay | None = None
    """First autumn frost to expect."""
    last_frost: MonthDay | None = None
    """Last spring frost to expect."""

    @model_validator(mode="after")
    def _whole_place(self) -> "GardenHead":
        if (self.latitude is None) != (self.longitude is None):
            raise ValueError("latitude and longitude come together; give both or neither")
        return self


class BedEntry(Written):
    """A bed or tub, in walking order."""

    name: Line
    kind: Literal["bed", "tub"] = "bed"
    water_zone: Line | None = None
    note: Note = ""


class PlantingEntry(Written):
    """A crop sown or set out together; a file gives `bed` or `beds`."""

    beds: Annotated[tuple[Line, ...], Strict(False), Field(min_length=1, max_length=60)]
    crop: Line
    """Id or name; whether it is known is asked of the knowledge base."""
    variety: Line | None = None
    identity: Literal["confirmed", "unconfirmed"] = "unconfirmed"
    origin: Literal["bought_plant", "bought_seed", "saved_seed", "volunteer", "unknown"] = "unknown"
    sown_on: Day | None = None
    set_out_on: Day | None = None
    plants: Annotated[Whole, Field(ge=1, le=100_000)]
    habit: Literal["indeterminate", "determinate", "topped"] | None = None
    note: Note = ""
    sets_without_bees: bool | None = None

    @model_validator(mode="before")
    @classmethod
    def _one_bed_or_several(cls, data: Any) -> Any:
        if not isinstance(data, dict) or "bed" not in data:
            return data
        if "beds" in data:
            raise ValueError("give “bed” or “beds”, not both")
        rest = {key: value for key, value in data.items() if key != "bed"}
        return rest | {"beds": [data["bed"]]}

    @model_validator(mode="after")
    def _in_order(self) -> "PlantingEntry":
        if self.sown_on and self.set_out_on and self.set_out_on < self.sown_on:
            raise ValueError("“set_out_on” is before “sown_on”; mend one of them")
        return self


class GardenFile(Written):
    """A garden file, checked; names of beds in plantings are spelt as in `beds`."""

    garden: GardenHead = GardenHead()
    beds: Annotated[tuple[BedEntry, ...], Strict(False), Field(min_length=1, max_length=1000)]
    plantings: Annotated[tuple[PlantingEntry, ...], Strict(False), Field(max_length=5000)] = ()


def linked(file: GardenFile) -> GardenFile | tuple[Place, str]:
    """Return the file with the beds of its plantings spelt as the beds are, or the first fault."""
    names: dict[str, str] = {}
    for at, bed in enumerate(file.beds):
        if bed.name.casefold() in names:
            return ("beds", at, "name"), f"there are two beds “{bed.name}”; give each a name of its own"
        names[bed.name.casefold()] = bed.name
    plantings = []
    for at, planting in enumerate(file.plantings):
        for name in planting.beds:
            if name.casefold() not in names:
                return ("plantings", at, "bed"), f"there is no bed “{name}”; add it to the beds or mend the name"
        beds = tuple(dict.fromkeys(names[name.casefold()] for name in planting.beds))
        plantings.append(planting.model_copy(update={"beds": beds}))
    return file.model_copy(update={"plantings": tuple(plantings)})
