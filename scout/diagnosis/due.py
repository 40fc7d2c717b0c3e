"""When a planting is next looked at, in which pass of the walk, and for how long."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from scout.knowledge.schema import Cause, Crop, StageId

Pass = Literal["seedlings", "clean", "insects", "spotted", "suspect"]
PASSES: tuple[Pass, ...] = ("seedlings", "clean", "insects", "spotted", "suspect")
"""In walking order: hands and blades carry what is on the last ones to the next."""

QUIET_D = 7
"""Weekly is the usual start (scouting guides of university extension); closer while plants are small."""
SEEDLING_D = 3
SEEN_AGAIN_D = 4
"""Days after which something seen is looked at again, whether or not it has a name yet. Our choice."""
_SUSPECT_KINDS = frozenset({"viral", "bacterial", "phytoplasma"})
_SPOTTED_KINDS = frozenset({"fungal", "oomycete"})
_ANIMALS = frozenset({"insect", "mite", "mollusc", "nematode", "vertebrate"})
MINUTES: dict[Pass, float] = {"seedlings": 1.0, "clean": 1.0, "insects": 3.0, "spotted": 5.0, "suspect": 5.0}
"""Minutes a stop takes without picking. Our choice; common practice speaks of seconds to five minutes a bed."""
PICKING_MIN = 2.0


@dataclass(frozen=True)
class Due:
    """The next look at one planting, and why then."""

    on: date
    why: str
    group: Pass
    minutes: float
    worth: float
    """How much is lost by leaving it for the evening: orders stops when time is short."""


def group_of(stage: StageId | None, open_causes: tuple[Cause, ...]) -> Pass:
    """Return the pass of the walk: the worst of what is open there, else seedlings or clean."""
    kinds = {cause.kind for cause in open_causes}
    if kinds & _SUSPECT_KINDS or any(c.contagion == "touch" for c in open_causes):
        return "suspect"
    if kinds & _SPOTTED_KINDS:
        return "spotted"
    if kinds & _ANIMALS:
        return "insects"
    return "seedlings" if stage == "seedling" else "clean"


def next_look(
    crop: Crop,
    stage: StageId | None,
    on: date,
    last_seen_on: date | None,
    open_causes: tuple[Cause, ...],
    jobs_due: tuple[tuple[date, str], ...] = (),
    seen_on: date | None = None,
) -> Due:
    """Return the earliest date any reason asks for, and that reason.

    jobs_due: day and what for, of jobs and of results to look at.
    seen_on: the day of the last visit, where something was seen at it.
    """
    group = group_of(stage, open_causes)
    picking = stage in ("fruiting", "finishing") and crop.pick_every_d is not None
    reasons = _reasons(crop, stage, on, last_seen_on, open_causes, jobs_due, picking)
    if seen_on is not None:
        again = seen_on + timedelta(days=SEEN_AGAIN_D)
        reasons.append((again, f"something was seen on {seen_on.day} {seen_on:%B}"))
    due_on, why = min(reasons, key=lambda reason: reason[0])
    overdue = max(0, (on - due_on).days)
    worth = 1.0 + overdue + 2.0 * PASSES.index(group) + (1.5 if picking else 0.0)
    return Due(due_on, why, group, MINUTES[group] + (PICKING_MIN if picking else 0.0), worth)


def _reasons(
    crop: Crop,
    stage: StageId | None,
    on: date,
    last: date | None,
    causes: tuple[Cause, ...],
    jobs_due: tuple[tuple[date, str], ...],
    picking: bool,
) -> list[tuple[date, str]]:
    if last is None:
        return [(on, "not looked at yet")]
    reasons = [(last + timedelta(days=QUIET_D), f"last looked at on {last.day} {last:%B}")]
    if stage == "seedling":
        reasons.append((last + timedelta(days=SEEDLING_D), "small plants die of what large ones ignore"))
    if picking and crop.pick_every_d is not None:
        reasons.append((last + timedelta(days=crop.pick_every_d), "picking is due"))
    reasons += [(last + timedelta(days=c.look_again_d), f"open problem: {c.name.lower()}") for c in causes]
    reasons += list(jobs_due)
    return reasons
