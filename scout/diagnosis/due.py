"""When a planting is next looked at and why, in which pass of the walk, and what a day's delay costs."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

from scout.knowledge.cause_file import Cause
from scout.knowledge.schema import StageId, Stake

Pass = Literal["seedlings", "clean", "insects", "spotted", "suspect"]
"""Passes of a walk, clean before sick: what may be on hands, sleeves and blades afterwards, nothing to the worst."""
_SUSPECT_KINDS = frozenset({"viral", "bacterial", "phytoplasma"})
_SPOTTED_KINDS = frozenset({"fungal", "oomycete"})
_ANIMALS = frozenset({"insect", "mite", "mollusc", "nematode", "vertebrate"})

ReasonKind = Literal["never", "quiet", "young", "picking", "problem", "seen", "weather", "near", "pest", "job", "heat"]
STAKES: dict[Stake, float] = {"none": 0.5, "low": 1.0, "medium": 2.0, "high": 4.0, "person": 6.0}
"""What is lost when nobody looks, against a quiet bed as 1. Our choice."""
MOST_LATE = 3.0
"""From twice its own interval late on, waiting longer makes a look no more worthwhile. Our choice."""


@dataclass(frozen=True)
class Reason:
    """One dated reason to look at a planting."""

    on: date
    why: str
    kind: ReasonKind
    stake: float = 1.0
    """As STAKES."""
    risk: float = 1.0
    """How likely something is there to be seen, against a quiet bed as 1."""
    every_d: int = 7
    """Days after which the same reason comes again: what lateness is measured by."""
    must: bool = False
    """It cannot wait for a cooler day."""
    alert: str = ""
    """The same thing said without what changes from day to day, where it deserves a line on the first screen."""

    def worth(self, on: date) -> float:
        """Return stake × risk × lateness on a day the look is due; 0 before it is due."""
        if on < self.on:
            return 0.0
        late = 1.0 + (on - self.on).days / max(1, self.every_d)
        return self.stake * self.risk * min(MOST_LATE, late)


@dataclass(frozen=True)
class Due:
    """The next look at one planting, and why then."""

    on: date
    why: str
    kind: ReasonKind
    worth: float
    """What is lost by leaving it out today: every reason that is due adds its own."""
    must: bool
    reasons: tuple[Reason, ...]
    """Every reason, soonest first."""
    told: str
    """What a stop says: of the reasons that are due the weightiest, one that cannot wait before the others."""


def next_look(reasons: tuple[Reason, ...], on: date) -> Due:
    """Return the earliest day any reason asks for; of several that fall on it, the weightiest is told.

    Reasons of days before `on` count as they stand: the planting is overdue since the earliest.
    Raises: ValueError without any reason; there is always one, at the least when it was last looked at.
    """
    if not reasons:
        raise ValueError("a planting without any reason to be looked at")
    ordered = tuple(sorted(reasons, key=lambda one: (one.on, -one.stake * one.risk)))
    first = ordered[0]
    due = [one for one in ordered if one.on <= on]
    return Due(
        on=first.on,
        why=first.why,
        kind=first.kind,
        worth=sum(one.worth(on) for one in due),
        must=any(one.must for one in due),
        reasons=ordered,
        told=max(due, key=lambda one: (one.must, one.worth(on))).why if due else first.why,
    )


def group_of(stage: StageId | None, open_causes: tuple[Cause, ...]) -> Pass:
    """Return the worst of what is open there, else seedlings or clean."""
    kinds = {cause.kind for cause in open_causes}
    if kinds & _SUSPECT_KINDS or any(c.contagion == "touch" for c in open_causes):
        return "suspect"
    if kinds & _SPOTTED_KINDS:
        return "spotted"
    if kinds & _ANIMALS:
        return "insects"
    return "seedlings" if stage == "seedling" else "clean"
