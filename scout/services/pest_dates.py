"""What pests do by degree days, as dated reasons to look: days reached on record, and the next one at this pace."""

from collections import defaultdict
from collections.abc import Mapping
from datetime import date, timedelta

from scout.diagnosis.due import STAKES, Reason
from scout.knowledge.cause_file import Cause
from scout.plain import day_text, lower_first
from scout.services.context import Context
from scout.services.warmth import Event, PestCount, pest_counts

STILL_D = 14
"""A stage reached this long ago has been looked for, or is over. Our choice."""
EVERY_D = 4
"""Days a pest stage lasts about, by which lateness is measured. Our choice."""


def pest_reasons(context: Context) -> Mapping[str, tuple[Reason, ...]]:
    """Return crop id → reasons to look for a pest stage, lately reached or coming.

    A count whose figures were made for other places tells no day, so it gives none.
    """
    found: dict[str, list[Reason]] = defaultdict(list)
    for count in pest_counts(context):
        cause = context.knowledge.causes[count.cause]
        for reason in _dated(count, cause, context.today):
            for crop in cause.common:
                found[crop].append(reason)
    return {crop: tuple(reasons) for crop, reasons in found.items()}


def _dated(count: PestCount, cause: Cause, today: date) -> list[Reason]:
    found = []
    for event in count.events:
        if event.on is not None and event.look and (today - event.on).days <= STILL_D:
            found.append(_reason(cause, event, event.on, f"about {day_text(event.on)}"))
    coming = next((event for event in count.events if event.on is None), None)
    if coming is not None and coming.look and count.to_go_n is not None:
        on = today + timedelta(days=max(1, count.to_go_n))
        found.append(_reason(cause, coming, on, f"expected about {day_text(on)}"))
    return found


def _reason(cause: Cause, event: Event, on: date, when: str) -> Reason:
    name = lower_first(cause.name)
    why = f"{name}: {event.name} {when}, by warmth"
    alert = f"{cause.name}: {event.name}, by warmth"
    return Reason(on, why, "pest", STAKES[cause.stake], 1.5, EVERY_D, alert=alert)
