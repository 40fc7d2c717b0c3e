"""What the last visit to a planting said: read before anything is asked."""

from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.plain import day_text
from scout.services.answers import finding_view
from scout.services.context import Context
from scout.services.wording import plants_text

if TYPE_CHECKING:
    from scout.store.walks import ClearanceView

_BACK_D = 60
"""A visit longer ago than this says nothing of today. Our choice."""


def last_visit(context: Context, planting_id: str) -> tuple[str, ...]:
    """Return the last visit of a planting as lines: the day, the note, then what was seen; none of long ago."""
    from scout.store import findings, walks

    with context.read() as session:
        stop = walks.last_visit(session=session, planting_id=planting_id)
        if stop is None or stop.closed_at is None:
            return ()
        found = findings.findings_of_stop(session=session, stop_id=stop.id)
        cleared = walks.clearances(session=session, stop_id=stop.id)
    if stop.closed_at < (context.today - timedelta(days=_BACK_D)).isoformat():
        return ()
    day = day_text(date.fromisoformat(stop.closed_at[:10]))
    first = f"{day}: {stop.note}" if stop.note else day
    seen = [finding_view(context, one) for one in found if one.state == "seen"]
    if seen:
        return (first, *(f"{one.name}{plants_text(one.affected_n, one.looked_n)}" for one in seen[:3]))
    return (f"{first} · {_clear_words(cleared)}",)


def _clear_words(cleared: "tuple[ClearanceView, ...]") -> str:
    """Return what a clear stop says, with the upper limit that "0 of n" leaves open."""
    from scout.science.sampling import upper_limit_none_found

    if not cleared:
        return "nothing noted"
    one = cleared[-1]
    if one.kind == "glance":
        return f"glanced over {one.looked_n}, nothing caught the eye"
    limit = round(100 * upper_limit_none_found(one.looked_n))
    return f"0 of {one.looked_n} (could still be up to {limit} %)"
