"""Questions about walks: where the grower stopped, what each stop gave."""

from dataclasses import dataclass

from scout.store.asking import Door, end_of, first, found, rows, select
from scout.store.plantings import STANDS


@dataclass(frozen=True)
class WalkView:
    """One walk."""

    id: str
    device_id: str
    started_at: str
    started_offset_min: int | None
    ended_at: str | None
    mode: str


@dataclass(frozen=True)
class StopView:
    """One stop."""

    id: str
    walk_id: str
    planting_id: str
    bed_id: str
    position: int
    why: str
    state: str
    deferred_why: str | None
    asking: str | None
    note: str
    opened_at: str | None
    closed_at: str | None


@dataclass(frozen=True)
class LookAnswerView:
    """What one look gave."""

    id: str
    stop_id: str
    look_id: str
    answer: str
    looked_n: int | None


@dataclass(frozen=True)
class ClearanceView:
    """Nothing caught the eye, or nothing was seen."""

    id: str
    stop_id: str
    kind: str
    looked_n: int


_WALK, _STOP = select(WalkView, "walk"), select(StopView, "stop")


def open_walk(*, session: Door, garden_id: str, device_id: str | None = None) -> WalkView | None:
    """Return the newest walk that is not ended, of one device where it is named; None when there is none."""
    of_one = "" if device_id is None else "AND device_id = :device"
    sql = f"{_WALK} WHERE garden_id = :garden AND ended_at IS NULL {of_one} ORDER BY started_at DESC, id DESC"
    return first(session, WalkView, sql, garden=garden_id, device=device_id)


def walks(*, session: Door, garden_id: str, since: str, until: str) -> tuple[WalkView, ...]:
    """Return the walks begun from the day `since` to the day `until`, in order."""
    sql = f"""
        {_WALK} WHERE garden_id = :garden AND started_at >= :since AND started_at < :until ORDER BY started_at, id
    """
    return found(session, WalkView, sql, garden=garden_id, since=since, until=end_of(until))


def stops(*, session: Door, walk_id: str) -> tuple[StopView, ...]:
    """Return the stops of a walk in their order."""
    return found(session, StopView, f"{_STOP} WHERE walk_id = :walk ORDER BY position, id", walk=walk_id)


def stop(*, session: Door, stop_id: str) -> StopView | None:
    """Return one stop, or None."""
    return first(session, StopView, f"{_STOP} WHERE id = :stop", stop=stop_id)


def look_answers(*, session: Door, stop_id: str) -> dict[str, LookAnswerView]:
    """Return the newest answer to each look of a stop, by look id."""
    sql = f"{select(LookAnswerView, 'look_answer')} WHERE stop_id = :stop ORDER BY entered_at, id"
    return {answer.look_id: answer for answer in found(session, LookAnswerView, sql, stop=stop_id)}


def clearances(*, session: Door, stop_id: str) -> tuple[ClearanceView, ...]:
    """Return the clear signs of a stop, first to last."""
    sql = f"{select(ClearanceView, 'clearance')} WHERE stop_id = :stop ORDER BY entered_at, id"
    return found(session, ClearanceView, sql, stop=stop_id)


def last_visits(*, session: Door, garden_id: str, on: str) -> dict[str, StopView]:
    """Return the last finished stop of each planting that stands on a day, by planting id."""
    sql = f"""
        {_STOP} JOIN planting ON stop.id = (
            SELECT done.id FROM stop done WHERE done.planting_id = planting.id AND done.state = 'done'
            ORDER BY done.closed_at DESC, done.id DESC LIMIT 1
        ) WHERE planting.garden_id = :garden AND {STANDS}
    """
    return {stop.planting_id: stop for stop in found(session, StopView, sql, garden=garden_id, day=on)}


def last_visit(*, session: Door, planting_id: str) -> StopView | None:
    """Return the last finished stop of one planting, or None."""
    sql = f"{_STOP} WHERE planting_id = :planting AND state = 'done' ORDER BY closed_at DESC, id DESC"
    return first(session, StopView, sql, planting=planting_id)


def newest_stop(*, session: Door, planting_id: str, since: str) -> StopView | None:
    """Return the newest stop at a planting that was opened from the day `since` on, or None."""
    sql = f"{_STOP} WHERE planting_id = :planting AND opened_at >= :since ORDER BY opened_at DESC, id DESC"
    return first(session, StopView, sql, planting=planting_id, since=since)


def stops_between(*, session: Door, planting_id: str, since: str, until: str) -> tuple[StopView, ...]:
    """Return the stops at a planting opened from the day `since` to the day `until`, the newest first."""
    sql = f"""
        {_STOP} WHERE planting_id = :planting AND opened_at >= :since AND opened_at < :until
        ORDER BY opened_at DESC, id DESC
    """
    return found(session, StopView, sql, planting=planting_id, since=since, until=end_of(until))


def last_looks(*, session: Door, planting_id: str, except_stop: str) -> dict[str, str]:
    """Return when each look was last made at a planting, by look id, leaving one stop out; skips do not count."""
    sql = """
        SELECT look_answer.look_id, stop.opened_at FROM look_answer JOIN stop ON stop.id = look_answer.stop_id
        WHERE stop.planting_id = :planting AND stop.id <> :stop
        AND look_answer.answer <> 'skip' AND stop.opened_at IS NOT NULL
        ORDER BY stop.opened_at
    """
    return {str(look): str(at) for look, at in rows(session, sql, planting=planting_id, stop=except_stop)}
