"""What a cause file holds: clues, look-alikes, warmth, what to do; and how trouble of a kind lies."""

from datetime import date
from typing import Literal

from pydantic import Field, model_validator

from scout.knowledge.schema import LIVING, CauseKind, Commonness, EppoStatus, Frequency, StageId, Stake, Status
from scout.knowledge.strict import Id, Span, Strict, Text
from scout.knowledge.warmth import DegreeDays


class Clue(Strict):
    """One observation, and how often it goes with the cause."""

    symptom: Id | None = None
    circumstance: Id | None = None
    condition: Id | None = None
    stage: StageId | None = None
    season: Literal["early", "high", "late"] | None = None
    how_often: Frequency
    crops: tuple[Id, ...] = ()
    """Empty: every crop of the cause."""
    source: Id | None = None
    """None: the first source of the cause."""
    where: str | None = None
    """Page, table or section of the source."""

    @model_validator(mode="after")
    def _one_subject(self) -> "Clue":
        if (self.symptom, self.circumstance, self.condition, self.stage, self.season).count(None) != 4:
            raise ValueError("a clue names exactly one of symptom, circumstance, condition, stage, season")
        return self

    @property
    def subject(self) -> str:
        """Return the id the clue is about."""
        return self.symptom or self.circumstance or self.condition or self.stage or str(self.season)


Contagion = Literal["none", "splash", "air", "touch", "insect", "soil", "seed", "moves"]


class Pattern(Strict):
    """How trouble of a kind usually lies in a bed: a clue for its causes that say nothing else of the circumstance."""

    circumstance: Id
    kinds: tuple[CauseKind, ...] = Field(min_length=1)
    contagion: tuple[Contagion, ...] = ()
    """Empty: however it travels."""
    how_often: Frequency
    source: Id

    def fits(self, cause: "Cause") -> bool:
        """Return True when the pattern speaks of this cause."""
        return cause.kind in self.kinds and (not self.contagion or cause.contagion in self.contagion)


class LookAlike(Strict):
    """Another cause that is mistaken for this one, and the one observation that splits them."""

    cause: Id
    split: Text
    symptom: Id | None = None
    """The symptom that settles it, seen with THIS cause; None where no single symptom does."""


class Action(Strict):
    """A control for the cause, and when."""

    control: Id
    when: Literal["today", "season", "next_season"]
    crops: tuple[Id, ...] = ()
    """Empty: every crop of the cause."""

    def fits(self, crop: str | None) -> bool:
        """Return True when the control is one for this crop; None: the crop is not known."""
        return not self.crops or crop is None or crop in self.crops


class Warmth(Strict):
    """How temperature bears on the time from infection to first symptom."""

    told_c: Span
    """Daily mean temperatures at which incubation_d and latent_d hold."""
    limits_c: Span
    """Growth stops at these."""
    limits_basis: Literal["looked_up", "memory"]
    source: Id

    @model_validator(mode="after")
    def _limits_lie_around(self) -> "Warmth":
        if not self.limits_c[0] < self.told_c[0] <= self.told_c[1] < self.limits_c[1]:
            raise ValueError("limits_c must lie around told_c")
        return self


class Cause(Strict):
    """One cause: what speaks for and against it, what to do, what not to do."""

    id: Id
    name: Text
    kind: CauseKind
    status: Status
    checked_on: date
    agent: Text | None = None
    """Organism, with its current scientific name; None for what is not living."""
    eppo: str | None = None
    eppo_status: EppoStatus | None = None
    aliases: tuple[Text, ...] = ()
    summary: Text
    common: dict[Id, Commonness] = Field(min_length=1)
    clues: tuple[Clue, ...] = Field(min_length=1)
    excludes: tuple[Id, ...] = ()
    """Symptoms that speak strongly against it when seen."""
    look_alikes: tuple[LookAlike, ...] = ()
    confirm: tuple[Text, ...] = Field(min_length=1)
    proof: tuple[Id, ...] = ()
    """Signs that prove it; shown before any pull."""
    contagion: Contagion
    incubation_d: Span | None = None
    """Infection to first symptom."""
    latent_d: Span | None = None
    """Infection to spores."""
    times_source: Id | None = None
    """Where both times stand; None: the first source of the cause."""
    warmth: Warmth | None = None
    """None: how temperature bears on these times was not found."""
    may_stay_unstripped: bool = False
    """One plant may be left unstripped beside stripped ones, to compare."""
    stake: Stake
    at_stake: Text | None = None
    """What is lost if it is missed; required for high and person."""
    rule_out_first: bool = False
    fast_check: Text | None = None
    do: tuple[Action, ...] = ()
    no_cultural: Text | None = None
    """Why no cultural or physical control is given; required when none is."""
    dont: tuple[Text, ...] = ()
    pull_when: Text | None = None
    clinic_when: Text | None = None
    look_again_d: int = Field(ge=1, le=60)
    degree_days: tuple[DegreeDays, ...] = ()
    """How far a pest has come, by sums of warmth."""
    replaced_by: Id | None = None
    sources: tuple[Id, ...] = Field(min_length=1)
    """In the file the main ones, the first for every clue without its own; once read, all that anything here cites."""

    @model_validator(mode="after")
    def _stakes_are_said(self) -> "Cause":
        if self.stake in ("high", "person") and not self.at_stake:
            raise ValueError("stake high or person needs at_stake")
        if self.rule_out_first and not self.fast_check:
            raise ValueError("rule_out_first needs fast_check")
        return self

    @property
    def living(self) -> bool:
        """Return True when the cause is a living thing that attacks the plant."""
        return self.kind in LIVING

    def citing_all(self) -> "Cause":
        """Return the cause with every page that a clue or a figure of it rests on among its sources, the main first."""
        cited = [*self.sources, *(clue.source for clue in self.clues), self.times_source]
        cited += [self.warmth.source if self.warmth else None, *(count.source for count in self.degree_days)]
        return self.model_copy(update={"sources": tuple(dict.fromkeys(key for key in cited if key))})


def file_of(cause: Cause) -> str:
    """Return the path of the cause's file, from the knowledge folder."""
    return f"causes/{cause.kind}/{cause.id}.toml"
