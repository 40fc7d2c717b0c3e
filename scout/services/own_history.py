"""What this garden has confirmed of its own troubles, and how that shifts the odds of the next one.

Agreeing with the program counts nothing: only a sign of its own (lens, string test), a clinic or the later course does.
"""

from collections import Counter
from dataclasses import dataclass
from typing import Literal

from scout.errors import BadInput
from scout.services.context import Context
from scout.services.garden import Planted

Sign = Literal["independent", "clinic", "later_course", "agreement"]
COUNTS: tuple[Sign, ...] = ("independent", "clinic", "later_course")


@dataclass(frozen=True)
class Confirmed:
    """How often a cause was confirmed on a crop, of how many confirmed answers there."""

    crop: str
    cause: str
    was_n: int
    of_n: int


def confirm(context: Context, plant: Planted, cause_id: str, sign: Sign, *, was: bool = True) -> None:
    """Keep that a planting's trouble was, or was not, this cause, and what says so; raises BadInput for another crop's.

    It belongs to the open problem of that cause; where there is none, one is opened and closed at once.
    """
    from scout.store import jobs
    from scout.store.tables_follow import Outcome, Trouble

    cause = next((c for c in context.knowledge.causes_of(plant.crop.id) if c.id == cause_id), None)
    if cause is None:
        raise BadInput(f"{plant.crop.name} is not known to have {cause_id!r}.")
    at, offset = context.moment()
    today = context.today.isoformat()
    with context.write() as tx:
        found = jobs.open_troubles(session=tx.session, garden_id=str(context.garden_id), planting_id=plant.planting_id)
        trouble = next((one.id for one in found if one.cause == cause_id), None)
        if trouble is None:
            trouble = tx.add(
                Trouble,
                planting_id=plant.planting_id,
                cause=cause_id,
                title=cause.name,
                opened_on=today,
                closed_on=today,
                state="closed",
            )
        tx.add(
            Outcome,
            trouble_id=trouble,
            verdict="yes" if was else "no",
            sign=sign,
            note="",
            observed_at=at,
            observed_offset_min=offset,
        )


def own_counts(context: Context, crop: str) -> dict[str, tuple[int, int]]:
    """Return cause → times confirmed and times asked on this crop; a confirmed cause is a "no" for every other one."""
    was, was_not = _told(context, crop)
    total = sum(was.values())
    return {cause: (was[cause], total + was_not[cause]) for cause in {*was, *was_not}} if total or was_not else {}


def confirmed(context: Context) -> tuple[Confirmed, ...]:
    """Return everything confirmed in this garden, crop by crop."""
    rows = []
    for crop in context.knowledge.crops:
        counts = own_counts(context, crop)
        rows += [Confirmed(crop, cause, was, of) for cause, (was, of) in sorted(counts.items())]
    return tuple(rows)


def _told(context: Context, crop: str) -> tuple[Counter[str], Counter[str]]:
    from scout.store import jobs, plantings

    garden = str(context.garden_id)
    was: Counter[str] = Counter()
    was_not: Counter[str] = Counter()
    with context.read() as session:
        outcomes = [o for o in jobs.outcomes(session=session, garden_id=garden) if o.trouble_id and o.sign in COUNTS]
        if not outcomes:
            return was, was_not
        crops = {one.id: one.crop for one in plantings.plantings(session=session, garden_id=garden)}
        troubles = {one.id: one for one in jobs.troubles(session=session, garden_id=garden)}
    for outcome in outcomes:
        trouble = troubles[str(outcome.trouble_id)]
        if trouble.cause is not None and crops.get(trouble.planting_id) == crop and outcome.verdict != "cannot_tell":
            (was if outcome.verdict == "yes" else was_not)[trouble.cause] += 1
    return was, was_not
