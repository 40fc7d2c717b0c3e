"""How long this garden's stops took on its last walks."""

from collections import defaultdict
from collections.abc import Mapping
from datetime import datetime, timedelta

from scout.diagnosis.due import Pass
from scout.diagnosis.minutes import default_minutes, is_slow, measured_minutes
from scout.services.context import Context

BACK_D = 60
"""Walks this far back are timed; a grower gets quicker over a season. Our choice."""


def measured_by_kind(context: Context) -> dict[bool, float]:
    """Return the median minutes of slow stops (True: something found or measured) and quick ones; too few: left out."""
    gaps: dict[bool, list[float]] = defaultdict(list)
    for slow, gap in _gaps(context):
        gaps[slow].append(gap)
    told = {slow: measured_minutes(found) for slow, found in gaps.items()}
    return {slow: minutes for slow, minutes in told.items() if minutes is not None}


def minutes_of(group: Pass, measured: Mapping[bool, float], *, picked: bool, plants_n: int | None) -> float:
    """Return the minutes of one stop: this garden's own where enough are on record, else the stated default."""
    own = measured.get(is_slow(group))
    return own if own is not None else default_minutes(group, picked=picked, plants_n=plants_n)


def _gaps(context: Context) -> list[tuple[bool, float]]:
    """Return slow or not, and the minutes since the stop before (or the start), of the finished stops of late walks."""
    from scout.store import walk_times

    since = (context.today - timedelta(days=BACK_D)).isoformat()
    with context.read() as session:
        closed = walk_times.closed_stops(session=session, garden_id=str(context.garden_id), since=since)
    found: list[tuple[bool, float]] = []
    before: dict[str, str] = {}
    for stop in closed:
        begun = before.get(stop.walk_id, stop.started_at)
        before[stop.walk_id] = stop.closed_at
        if len(begun) > 10 and len(stop.closed_at) > 10:  # a day without a time of day tells no minutes
            gap = datetime.fromisoformat(stop.closed_at) - datetime.fromisoformat(begun)
            found.append((not stop.cleared, gap.total_seconds() / 60.0))
    return found
