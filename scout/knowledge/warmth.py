"""What a knowledge file may say of sums of warmth and cold: how far a pest has come, how much chill a crop needs."""

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field, model_validator

from scout.knowledge.strict import Id, Strict, Text


class PestEvent(Strict):
    """Something a pest does at a sum of degree days."""

    name: Text
    at_cd: float = Field(gt=0, le=5000)
    """Degree days, °C·d."""
    look: Text | None = None
    """What is worth a look then."""


class DegreeDays(Strict):
    """One count of degree days for a pest, as its source gives it."""

    base_c: float = Field(ge=-10, le=25)
    upper_c: float | None = Field(default=None, ge=15, le=45)
    method: Literal["average", "high_capped", "both_capped", "sine"]
    """average: mean less base; high_capped: the high lowered to the limit first; both_capped: high and low brought
    between base and limit first; sine: single sine, development at its fastest above the limit."""
    since: Annotated[str, Field(pattern=r"^\d\d-\d\d$")] | None = None
    """Month and day on which the count begins."""
    since_seen: Id | None = None
    """Symptom whose first sighting of the year in this garden begins the count."""
    zones: tuple[Text, ...] = Field(min_length=1)
    """Beginnings of the time zones in which the figures were made."""
    latitude_deg: tuple[float, float]
    """Where they were made, with some room, degrees, south negative; elsewhere no figure is told."""
    events: tuple[PestEvent, ...] = Field(min_length=1)
    source: Id
    note: Text | None = None
    """What the source leaves open."""

    @model_validator(mode="after")
    def _whole(self) -> "DegreeDays":
        if (self.since is None) == (self.since_seen is None):
            raise ValueError("give either since or since_seen")
        if (self.upper_c is None) == self.method.endswith("_capped"):
            raise ValueError("a capped method needs upper_c, average takes none")
        if any(later.at_cd <= earlier.at_cd for earlier, later in pairwise(self.events)):
            raise ValueError("events stand in the order of their degree days")
        return self


class Chill(Strict):
    """How much cold a crop needs in the ground before it does what it is grown for."""

    below_c: float = Field(ge=-5, le=15)
    """A day counts whose mean stays at or below this."""
    need_d: int = Field(ge=1, le=200)
    why: Text
    source: Id
