"""When the stops of late walks were closed."""

from dataclasses import dataclass

from scout.store.asking import Door, found, select

MOST_WALKS = 8
"""The newest walks are enough for a median, and few enough for the first screen."""


@dataclass(frozen=True)
class ClosedStop:
    """One finished stop of a walk."""

    walk_id: str
    started_at: str
    """Of the walk."""
    closed_at: str
    cleared: bool
    """Closed as clear, in one go."""


_CLEARED = "EXISTS (SELECT 1 FROM clearance WHERE clearance.stop_id = stop.id)"


def closed_stops(*, session: Door, garden_id: str, since: str) -> tuple[ClosedStop, ...]:
    """Return the finished stops of the newest ended walks from the day `since` on, walk by walk in order of closing."""
    sql = f"""
        {select(ClosedStop, "stop", started_at="walk.started_at", cleared=_CLEARED)}
        JOIN walk ON walk.id = stop.walk_id
        WHERE stop.walk_id IN (
            SELECT id FROM walk WHERE garden_id = :garden AND started_at >= :since AND ended_at IS NOT NULL
            ORDER BY started_at DESC, id DESC LIMIT {MOST_WALKS}
        )
        AND stop.state = 'done' AND stop.closed_at IS NOT NULL
        ORDER BY stop.walk_id, stop.closed_at, stop.position
    """
    return found(session, ClosedStop, sql, garden=garden_id, since=since)
