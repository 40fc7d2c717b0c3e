"""Words that knowledge files share: scales, kinds, statuses, sources."""

from datetime import date
from typing import Annotated, Literal

from pydantic import Field, model_validator

from scout.knowledge.strict import Id, Strict, Text

Frequency = Literal["almost_always", "usually", "often", "sometimes", "seldom", "never"]

Commonness = Literal["very_common", "common", "occasional", "uncommon", "rare"]

Background = Literal["usual", "everyday", "now_and_then", "unusual", "telltale"]

Effort = Literal["glance", "turn_leaf", "count", "lens", "cut", "wait", "dawn", "dark"]

Part = Literal["leaf", "flower", "fruit", "stem", "root", "whole_plant", "insect", "ground"]

CauseKind = Literal[
    "normal", "heat", "cold", "water", "sun", "pollination", "nutrition", "herbicide", "injury", "genetic",
    "fungal", "oomycete", "bacterial", "phytoplasma", "viral", "nematode", "protist", "insect", "mite",
    "mollusc", "vertebrate",
]  # fmt: skip
LIVING: frozenset[str] = frozenset(
    {
        "fungal",
        "oomycete",
        "bacterial",
        "phytoplasma",
        "viral",
        "nematode",
        "protist",
        "insect",
        "mite",
        "mollusc",
        "vertebrate",
    }
)

StageId = Literal["seedling", "leafy", "flowering", "fruiting", "finishing"]

Place = Literal[
    "growing_tip",
    "newest_leaf",
    "underside",
    "lowest_leaves",
    "stem_base",
    "flowers",
    "fruit",
    "ground",
    "whole_plant",
]

Status = Literal["draft", "reviewed", "retired"]

Stake = Literal["none", "low", "medium", "high", "person"]

ControlKind = Literal["cultural", "physical", "biological", "labelled"]

EppoStatus = Literal["confirmed", "third_party", "memory"]


class Source(Strict):
    """One publication; every fact elsewhere cites its key."""

    title: Text
    by: Text
    """Institution or authors."""
    year: int | None = Field(default=None, ge=1800, le=2100)
    """None: the page shows no year."""
    basis: Literal["looked_up", "memory", "practice"]
    """looked_up: read on `checked_on`; memory: named from memory; practice: common practice, no source."""
    checked_on: date | None = None

    @model_validator(mode="after")
    def _looked_up_has_a_day(self) -> "Source":
        if (self.basis == "looked_up") != (self.checked_on is not None):
            raise ValueError("a looked_up source has checked_on, any other has none")
        return self


class Scale(Strict):
    """A word and the probability it stands for."""

    source: Id
    note: Text
    words: dict[str, Annotated[float, Field(ge=0, le=1)]]


class ScaleFile(Strict):
    """scales.toml: the one place where words become probabilities."""

    frequency: Scale
    commonness: Scale
    background: Scale
    stake: Scale
    wrong_pull: Scale
    one_day: Scale
    """By contagion, and `person`."""
