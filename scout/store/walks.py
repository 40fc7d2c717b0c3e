"""Questions about walks: where the grower stopped, what each stop gave."""

from dataclasses import dataclass

from sqlmodel import Session, col

from scout.store.plantings import end_of
from scout.store.tables_walk import ClearanceRow, LookAnswerRow, StopRow, WalkRow
from scout.store.views import first_view, select_view, views


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


def open_walk(*, session: Session, garden_id: str, device_id: str | None = None) -> WalkView | None:
    """Return the newest walk that is not ended, of one device where it is named; None when there is none."""
    query = select_view(WalkView, WalkRow).where(col(WalkRow.garden_id) == garden_id)
    query = query.where(col(WalkRow.ended_at).is_(None))
    if device_id is not None:
        query = query.where(col(WalkRow.device_id) == device_id)
    return first_view(session, WalkView, query.order_by(col(WalkRow.started_at).desc(), col(WalkRow.id).desc()))


def walk(*, session: Session, walk_id: str) -> WalkView | None:
    """Return one walk, or None."""
    return first_view(session, WalkView, select_view(WalkView, WalkRow).where(col(WalkRow.id) == walk_id))


def walks(*, session: Session, garden_id: str, since: str, until: str) -> tuple[WalkView, ...]:
    """Return the walks begun from the day `since` to the day `until`, in order."""
    query = select_view(WalkView, WalkRow).where(col(WalkRow.garden_id) == garden_id)
    query = query.where(col(WalkRow.started_at) >= since, col(WalkRow.started_at) < end_of(until))
    return views(session, WalkView, query.order_by(col(WalkRow.started_at), col(WalkRow.id)))


def stops(*, session: Session, walk_id: str) -> tuple[StopView, ...]:
    """Return the stops of a walk in their order."""
    query = select_view(StopView, StopRow).where(col(StopRow.walk_id) == walk_id)
    return views(session, StopView, query.order_by(col(StopRow.position), col(StopRow.id)))


def stop(*, session: Session, stop_id: str) -> StopView | None:
    """Return one stop, or None."""
    return first_view(session, StopView, select_view(StopView, StopRow).where(col(StopRow.id) == stop_id))


def look_answers(*, session: Session, stop_id: str) -> dict[str, LookAnswerView]:
    """Return the newest answer to each look of a stop, by look id."""
    query = select_view(LookAnswerView, LookAnswerRow).where(col(LookAnswerRow.stop_id) == stop_id)
    query = query.order_by(col(LookAnswerRow.entered_at), col(LookAnswerRow.id))
    return {answer.look_id: answer for answer in views(session, LookAnswerView, query)}


def clearances(*, session: Session, stop_id: str) -> tuple[ClearanceView, ...]:
    """Return the clear signs of a stop, first to last."""
    query = select_view(ClearanceView, ClearanceRow).where(col(ClearanceRow.stop_id) == stop_id)
    return views(session, ClearanceView, query.order_by(col(ClearanceRow.entered_at), col(ClearanceRow.id)))


def last_visits(*, session: Session, garden_id: str) -> dict[str, StopView]:
    """Return the last finished stop of each planting, by planting id."""
    query = select_view(StopView, StopRow).where(col(StopRow.garden_id) == garden_id)
    query = query.where(col(StopRow.state) == "done").order_by(col(StopRow.closed_at), col(StopRow.id))
    return {stop.planting_id: stop for stop in views(session, StopView, query)}


def last_visit(*, session: Session, planting_id: str) -> StopView | None:
    """Return the last finished stop of one planting, or None."""
    query = select_view(StopView, StopRow).where(col(StopRow.planting_id) == planting_id)
    query = query.where(col(StopRow.state) == "done")
    return first_view(session, StopView, query.order_by(col(StopRow.closed_at).desc(), col(StopRow.id).desc()))


def newest_stop(*, session: Session, planting_id: str, since: str) -> StopView | None:
    """Return the newest stop at a planting that was opened from the day `since` on, or None."""
    query = select_view(StopView, StopRow).where(col(StopRow.planting_id) == planting_id)
    query = query.where(col(StopRow.opened_at) >= since)
    return first_view(session, StopView, query.order_by(col(StopRow.opened_at).desc(), col(StopRow.id).desc()))


def last_looks(*, session: Session, planting_id: str, except_stop: str) -> dict[str, str]:
    """Return when each look was last made at a planting, by look id, leaving one stop out; skips do not count."""
    query = (
        select_view(LookAnswerView, LookAnswerRow)
        .with_only_columns(col(LookAnswerRow.look_id), col(StopRow.opened_at))
        .join(StopRow, col(StopRow.id) == col(LookAnswerRow.stop_id))
        .where(col(StopRow.planting_id) == planting_id, col(StopRow.id) != except_stop)
        .where(col(LookAnswerRow.answer) != "skip", col(StopRow.opened_at).is_not(None))
        .order_by(col(StopRow.opened_at))
    )
    return {str(look): str(at) for look, at in session.connection().execute(query)}
