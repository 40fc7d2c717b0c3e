"""What a walk file may say."""

import re
from collections.abc import Hashable, Iterable
from datetime import time
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field, Strict, model_validator

from scout.intake.written import Day, Line, Note, Whole, Written
from scout.plain import shortened

Count = Annotated[Whole, Field(ge=0, le=100_000)]
Some = Annotated[Whole, Field(ge=1, le=100_000)]
Node = Annotated[Whole, Field(ge=0, le=200)]
"""A leaf counted from the soil."""
Share = Annotated[float, Field(ge=0, le=100)]


def _name(text: str) -> str:
    if len(text) > 60 or not re.fullmatch(r"[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)?", text):
        raise ValueError(f"“{shortened(text)}” is no id; write it like leaf.ringed_spots")
    return text


def _picture(text: str) -> str:
    if len(text) > 80 or not re.fullmatch(r"[a-z0-9][a-z0-9_-]*\.(jpg|jpeg|png)", text):
        raise ValueError(f"“{shortened(text)}” is no picture in photos/; write the name alone, like cut_fruit.jpg")
    return text


def _clock(value: Any) -> Any:
    if not isinstance(value, time):
        raise ValueError("is no time of day; write it without quotation marks, like 07:30:00")
    return value


Name = Annotated[str, AfterValidator(_name)]
"""An id of the knowledge base; whether it exists is asked there."""
Picture = Annotated[str, AfterValidator(_picture)]
"""A bare file name, so that nothing outside the folder of pictures is reached."""
Clock = Annotated[time, BeforeValidator(_clock)]


class FindingEntry(Written):
    """What was seen, or looked for and not seen."""

    symptom: Name
    state: Literal["seen", "not_seen"] = "seen"
    looked: Count | None = None
    affected: Count | None = None
    severity: Annotated[tuple[Share | None, Share | None, Share | None], Strict(False)] = (None, None, None)
    """Percent by canopy third: outer or lowest, middle, heart or top."""
    which: Line | None = None
    manner: Literal["glance", "look", "asked"] = "look"

    @model_validator(mode="after")
    def _counts_agree(self) -> "FindingEntry":
        if self.state == "not_seen" and self.affected:
            raise ValueError("“affected” must be 0 or left out where “state” is not_seen")
        if self.looked is not None and self.affected is not None and self.affected > self.looked:
            raise ValueError(f"“affected” is {self.affected}, more than the {self.looked} looked at")
        return self


class MeasurementEntry(Written):
    """One marked plant, in nodes from the soil; a plant is marked when it is first named.

    As found before the day's cutting, but for `stripped_to` and `standing`.
    """

    plant: Line
    habit: Literal["indeterminate", "determinate", "topped"] = "indeterminate"
    top: Node | None = None
    highest: Node | None = None
    """Highest leaf with a spot; 0: looked, none."""
    stripped_to: Node | None = None
    new: Count | None = None
    """Leaves newly spotted since the last visit."""
    standing: Count | None = None
    severity: Share | None = None
    wet: Literal["wet", "dry", "not_felt"] = "not_felt"

    @model_validator(mode="after")
    def _below_the_top(self) -> "MeasurementEntry":
        for key in ("highest", "stripped_to"):
            node = getattr(self, key)
            if node is not None and self.top is not None and node > self.top:
                raise ValueError(f"“{key}” is {node}, above the top leaf {self.top}")
        return self


class JobEntry(Written):
    """A control taken for a cause; `done` that it was done on the spot, `worked` what became of an earlier one."""

    cause: Name
    control: Name
    done: bool = False
    worked: Literal["yes", "no", "cannot_tell"] | None = None

    @model_validator(mode="after")
    def _new_or_earlier(self) -> "JobEntry":
        if self.done and self.worked is not None:
            raise ValueError("give “done” for a job of today or “worked” for an earlier one, not both")
        return self


class PhotoEntry(Written):
    """A picture in the folder photos/."""

    file: Picture
    note: Note = ""


class StopEntry(Written):
    """One planting visited."""

    bed: Line
    crop: Line
    """Id or name."""
    variety: Line | None = None
    """Needed only where a bed holds two plantings of one crop."""
    clear: Literal["glance", "every_look"] | None = None
    looked: Some | None = None
    """Plants seen when clear."""
    note: Note = ""
    sound: Count | None = None
    odd: Count | None = None
    findings: Annotated[tuple[FindingEntry, ...], Strict(False)] = ()
    measurements: Annotated[tuple[MeasurementEntry, ...], Strict(False)] = ()
    jobs: Annotated[tuple[JobEntry, ...], Strict(False)] = ()
    circumstances: dict[Name, bool] = Field(default_factory=dict)
    enemies: Annotated[tuple[Name, ...], Strict(False)] = ()
    photos: Annotated[tuple[PhotoEntry, ...], Strict(False)] = ()
    pulled: Line | None = None
    """Why the planting was pulled after this stop."""

    @model_validator(mode="after")
    def _clear_is_counted(self) -> "StopEntry":
        if (self.clear is None) != (self.looked is None):
            raise ValueError("“clear” and “looked” go together: nothing seen on how many")
        if self.clear and any(found.state == "seen" for found in self.findings):
            raise ValueError("“clear” and a finding that was seen cannot both hold; take one out")
        return self

    @model_validator(mode="after")
    def _once_each(self) -> "StopEntry":
        _refuse_twice("finding", (found.symptom for found in self.findings))
        _refuse_twice("marked plant", (one.plant for one in self.measurements))
        return self


class WateringEntry(Written):
    """What happened to the water of a zone."""

    zone: Line
    outcome: Literal["watered", "missed", "timer_failed"]


class HoldEntry(Written):
    """Do not eat until."""

    bed: Line
    crop: Line
    reason: Line
    until: Day


class WalkFile(Written):
    """One walk."""

    date: Day
    started: Clock
    stops: Annotated[tuple[StopEntry, ...], Strict(False), Field(min_length=1)]
    waterings: Annotated[tuple[WateringEntry, ...], Strict(False)] = ()
    holds: Annotated[tuple[HoldEntry, ...], Strict(False)] = ()

    @model_validator(mode="after")
    def _holds_together(self) -> "WalkFile":
        _refuse_twice("stop", ((one.bed, one.crop, one.variety) for one in self.stops))
        for hold in self.holds:
            if hold.until < self.date:
                raise ValueError(f"a hold in “{hold.bed}” ends before the walk; mend “until”")
        return self


def _refuse_twice(what: str, names: Iterable[Hashable]) -> None:
    known: set[Hashable] = set()
    for name in names:
        if name in known:
            words = ", ".join(str(part) for part in name if part) if isinstance(name, tuple) else str(name)
            raise ValueError(f"the {what} “{words}” stands twice; keep one")
        known.add(name)
