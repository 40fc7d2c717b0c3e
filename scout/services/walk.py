"""The walk: one stop after another, each answer kept when it is given, so that it resumes where it stopped."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from scout.errors import BadInput, Refused
from scout.services.answers import open_stop, stop_of
from scout.services.context import Context
from scout.services.stop_view import clearable, looks_at, planted_at, stop_view
from scout.services.views import AT_LOOKS, Asking, PlannedStop, StopView

if TYPE_CHECKING:
    from scout.store.walks import StopView as StoredStop
    from scout.store.walks import WalkView


def start(context: Context, stops: Sequence[PlannedStop], mode: str = "full") -> str:
    """Begin a walk over these stops, or return the walk that is open already; return its id."""
    from scout.store import walks
    from scout.store.tables_walk import Stop, Walk

    with context.write() as tx:
        going = walks.open_walk(session=tx.session, garden_id=str(context.garden_id), device_id=context.device_id)
        if going is not None:
            return going.id
        at, offset = context.moment()
        walk_id = tx.add(Walk, started_at=at, started_offset_min=offset, mode=mode)
        for position, stop in enumerate(stops):
            tx.add(
                Stop,
                walk_id=walk_id,
                planting_id=stop.planting_id,
                bed_id=stop.bed_id,
                position=position,
                why=stop.why,
                state="open" if stop.deferred_why is None else "deferred",
                deferred_why=stop.deferred_why,
            )
        return walk_id


def open_walk(context: Context) -> str | None:
    """Return the id of this device's open walk, or None."""
    going = _going(context)
    return going.id if going else None


def _going(context: Context) -> "WalkView | None":
    from scout.store import walks

    with context.read() as session:
        return walks.open_walk(session=session, garden_id=str(context.garden_id), device_id=context.device_id)


def _stops(context: Context) -> tuple["StoredStop", ...]:
    """Return every stop of the open walk in its order; none without an open walk."""
    from scout.store import walks

    walk_id = open_walk(context)
    if walk_id is None:
        return ()
    with context.read() as session:
        return walks.stops(session=session, walk_id=walk_id)


def progress(context: Context) -> tuple[int, int] | None:
    """Return how many stops of the open walk are closed, and of how many; None without an open walk."""
    return _done_of(_stops(context)) if open_walk(context) else None


def in_walk(stops: Sequence["StoredStop"]) -> list["StoredStop"]:
    """Return the stops without those that the plan had left for later before the walk began."""
    return [stop for stop in stops if stop.state != "deferred" or stop.closed_at is not None]


def _done_of(stops: Sequence["StoredStop"]) -> tuple[int, int]:
    """Return how many stops of a walk are closed, and of how many."""
    mine = in_walk(stops)
    return sum(stop.state != "open" for stop in mine), len(mine)


def current_stop(context: Context) -> StopView | None:
    """Return the stop where the walk stands, or None when the walk is through or there is none."""
    with context.read():
        stops = _stops(context)
        waiting = standing_first(stops)
        return stop_view(context, waiting, *_done_of(stops)) if waiting else None


def standing_first(stops: Sequence["StoredStop"]) -> list["StoredStop"]:
    """Return the open stops, the one where the walk stands first: the one asked at, else the first of the order."""
    waiting = [stop for stop in stops if stop.state == "open"]
    return sorted(waiting, key=lambda stop: stop.asking is None)


def current_stop_id(context: Context) -> str | None:
    """Return the id of the stop where the walk stands, or None."""
    return next((stop.id for stop in standing_first(_stops(context))), None)


def ask(context: Context, stop_id: str, asking: Asking | None) -> None:
    """Keep which question is on screen, None at the looks: a place in the walk, not a record, without history."""
    with context.write() as tx:
        tx.change("stop", stop_id, {"asking": (asking or AT_LOOKS).text})


def begun_on(context: Context) -> str | None:
    """Return the day on which the open walk was begun, as ISO text; None without an open walk."""
    going = _going(context)
    return going.started_at[:10] if going else None


# closing a stop


def clear(context: Context, stop_id: str, kind: str, looked_n: int) -> None:
    """Close a stop as clear: at a glance, or with every planned look made, on `looked_n` plants.

    "Every look" is refused where a problem is open or a marked plant is due: those are looked at one by one.
    """
    from scout.store.tables_walk import Clearance, LookAnswer, Stop

    with context.write() as tx:
        stop = open_stop(context, tx, stop_id)
        if kind != "glance":
            if not clearable(context, stop):
                raise Refused("A problem is open here or a marked plant is due: answer the looks one by one.")
            for look in looks_at(context, stop):
                tx.add(LookAnswer, stop_id=stop_id, look_id=look.id, answer="clear", looked_n=looked_n)
        tx.add(Clearance, stop_id=stop_id, kind=kind, looked_n=looked_n)
        ask(context, stop_id, None)
        tx.update(Stop, stop_id, state="done", closed_at=context.moment()[0])
        _end_if_through(context)


_NOT_COUNTED = "The plants of this bed were never counted; clear its stops one by one with a number."


def clear_bed(context: Context, stop_id: str) -> None:
    """Close every open stop of this bed in this walk as looked over and clear."""
    from scout.store import walks

    with context.write() as tx:
        stop = stop_of(tx.session, stop_id)
        for other in walks.stops(session=tx.session, walk_id=stop.walk_id):
            if other.bed_id == stop.bed_id and other.state == "open":
                plants_n = planted_at(context, other).plants_n
                if plants_n is None:
                    raise BadInput(_NOT_COUNTED)
                clear(context, other.id, "whole_bed", plants_n)


def close_stop(context: Context, stop_id: str) -> None:
    """Close a stop with what it gave; looks not answered count for nothing."""
    _close(context, stop_id, state="done")


def leave_stop(context: Context, stop_id: str) -> None:
    """Go on to the next stop: one that gave an answer or a note is closed, one that gave nothing is passed by."""
    with context.read() as session:
        stop = stop_of(session, stop_id)
    (close_stop if _gave(stop) else skip_stop)(context, stop_id)


def _gave(stop: "StoredStop") -> bool:
    """Return whether a stop gave an answer or a note."""
    return stop.opened_at is not None or bool(stop.note)


def skip_stop(context: Context, stop_id: str) -> None:
    """Pass a stop by; it counts as not looked at."""
    _close(context, stop_id, state="skipped")


def defer(context: Context, stop_id: str, why: str) -> None:
    """Leave a stop for later, with the reason."""
    _close(context, stop_id, state="deferred", deferred_why=why)


def _close(context: Context, stop_id: str, **values: Any) -> None:
    from scout.store.tables_walk import Stop

    with context.write() as tx:
        open_stop(context, tx, stop_id)
        ask(context, stop_id, None)
        tx.update(Stop, stop_id, closed_at=context.moment()[0], **values)
        _end_if_through(context)


def _end_if_through(context: Context) -> None:
    """End the walk once its last stop is closed."""
    if current_stop_id(context) is None:
        finish(context)


def finish(context: Context) -> None:
    """End the open walk; a stop still open counts as made where it gave an answer, else as skipped."""
    from scout.store import walks
    from scout.store.tables_walk import Stop, Walk

    walk_id = open_walk(context)
    if walk_id is None:
        return
    at, offset = context.moment()
    with context.write() as tx:
        for stop in walks.stops(session=tx.session, walk_id=walk_id):
            if stop.state == "open":
                tx.update(Stop, stop.id, state="done" if _gave(stop) else "skipped", closed_at=at)
        tx.update(Walk, walk_id, ended_at=at, ended_offset_min=offset)
