"""Counts on a marked plant that can hardly be: asked about before they are kept, never refused."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from scout.plain import day_text
from scout.services.context import Context

if TYPE_CHECKING:
    from scout.store.marked import MeasurementView

ASK = "Is that right?"
_EVER_UP = {
    "top_leaf": "top leaf",
    "highest_diseased": "highest spotted leaf (those taken off count too)",
    "stripped_to": "strip line",
}
"""Heights that do not go down: leaves are counted from the soil, taken off or not."""


@dataclass(frozen=True)
class Doubt:
    """One thing to ask about."""

    text: str
    against_itself: bool
    """True: the numbers of this one visit contradict each other; False: they contradict an earlier visit."""


def doubts(
    context: Context, marked_plant_id: str, planting_id: str, given: Mapping[str, int | None]
) -> tuple[Doubt, ...]:
    """Return what can hardly be in a measurement of today, against itself and against the visits before."""
    from scout.store import marked

    today = context.today.isoformat()
    with context.read() as session:
        measured = marked.measurements(session=session, planting_id=planting_id)
    before = [one for one in measured if one.marked_plant_id == marked_plant_id and one.observed_at[:10] < today]
    return (*_against_itself(given), *_against_before(before, given))


def _against_itself(given: Mapping[str, int | None]) -> list[Doubt]:
    top, spotted, strip = (given.get(name) for name in ("top_leaf", "highest_diseased", "stripped_to"))
    found = []
    if top is not None and spotted is not None and spotted > top:
        found.append(Doubt(f"Highest spotted leaf {spotted} is above the top leaf {top}.", True))
    if top is not None and strip is not None and strip > top:
        found.append(Doubt(f"Stripped up to {strip} is above the top leaf {top}.", True))
    new = given.get("newly_diseased")
    if top is not None and new is not None and new > max(top, spotted or 0):
        found.append(Doubt(f"{new} newly spotted leaves are more than the plant has (top leaf {top}).", True))
    return found


def _against_before(before: "list[MeasurementView]", given: Mapping[str, int | None]) -> list[Doubt]:
    found = []
    for name, words in _EVER_UP.items():
        now = given.get(name)
        known = [(getattr(one, name), one.observed_at[:10]) for one in before if getattr(one, name) is not None]
        if now is None or not known:
            continue
        highest, on = max(known)
        if now < highest:
            day = date.fromisoformat(on)
            found.append(Doubt(f"The {words} was {highest} on {day_text(day)} and is {now} now.", False))
    return found
