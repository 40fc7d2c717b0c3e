"""A walk written down as a TOML file: what the demo garden is replayed from."""

import tomllib
from datetime import date as Date
from datetime import time as Time
from pathlib import Path
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from scout.errors import BadInput

Count = Annotated[int, Field(ge=0, le=100_000)]
Share = Annotated[float, Field(ge=0, le=100)]


class Entry(BaseModel):
    """A table of the file: unknown keys are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class FindingEntry(Entry):
    """What was seen, or looked for and not seen."""

    symptom: str
    state: Literal["seen", "not_seen"] = "seen"
    looked: Count | None = None
    affected: Count | None = None
    severity: tuple[Share | None, Share | None, Share | None] = (None, None, None)
    which: str | None = None
    manner: Literal["glance", "look", "asked"] = "look"


class MeasurementEntry(Entry):
    """One marked plant, in nodes from the soil; a plant is marked when it is first named."""

    plant: str
    habit: Literal["indeterminate", "determinate", "topped"] = "indeterminate"
    top: Count | None = None
    highest: Count | None = None
    stripped_to: Count | None = None
    new: Count | None = None
    standing: Count | None = None
    severity: Share | None = None
    wet: Literal["wet", "dry", "not_felt"] = "not_felt"


class JobEntry(Entry):
    """A control taken for a cause; `done` that it was done on the spot, `worked` what became of an earlier one."""

    cause: str
    control: str
    done: bool = False
    worked: Literal["yes", "no", "cannot_tell"] | None = None


class PhotoEntry(Entry):
    """A picture in the folder photos/."""

    file: str
    note: str = ""


class StopEntry(Entry):
    """One planting visited."""

    bed: str
    crop: str
    variety: str | None = None
    """Needed only where a bed holds two plantings of one crop."""
    clear: Literal["glance", "every_look"] | None = None
    looked: Annotated[int, Field(ge=1)] | None = None
    note: str = ""
    sound: Count | None = None
    odd: Count | None = None
    findings: tuple[FindingEntry, ...] = ()
    measurements: tuple[MeasurementEntry, ...] = ()
    jobs: tuple[JobEntry, ...] = ()
    circumstances: dict[str, bool] = {}
    enemies: tuple[str, ...] = ()
    photos: tuple[PhotoEntry, ...] = ()
    pulled: str | None = None
    """Why the planting was pulled after this stop."""


class WateringEntry(Entry):
    """What happened to the water of a zone."""

    zone: str
    outcome: Literal["watered", "missed", "timer_failed"]


class HoldEntry(Entry):
    """Do not eat until."""

    bed: str
    crop: str
    reason: str
    until: Date


class WalkFile(Entry):
    """One walk."""

    date: Date
    started: Time
    stops: Annotated[tuple[StopEntry, ...], Field(min_length=1)]
    waterings: tuple[WateringEntry, ...] = ()
    holds: tuple[HoldEntry, ...] = ()


def read_walk(path: Path) -> WalkFile:
    """Return the walk in a file; BadInput names the file and the key to mend."""
    try:
        return WalkFile.model_validate(tomllib.loads(path.read_text(encoding="utf-8")))
    except (OSError, UnicodeDecodeError) as error:
        raise BadInput(f"{path.name}: cannot be read ({error}).") from None
    except tomllib.TOMLDecodeError as error:
        raise BadInput(f"{path.name}: {error}.") from None
    except ValidationError as error:
        first = min(error.errors(), key=lambda one: one["type"] != "extra_forbidden")
        key = ".".join(str(part) for part in first["loc"]) or "the file"
        raise BadInput(f"{path.name}: {key}: {first['msg']}.") from None
