"""Out of the planned order: go to another bed of the walk, or look at any planting now."""

from dataclasses import dataclass

from scout.errors import NotFound
from scout.services import walk
from scout.services.context import Context
from scout.services.stop_view import planted_at
from scout.services.views import AT_LOOKS, PlannedStop

CHOSEN = "you chose to look"


@dataclass(frozen=True)
class WaitingStop:
    """One stop that is not closed yet."""

    id: str
    row: str
    """Bed and planting, and why it is in the walk."""


def waiting_stops(context: Context) -> tuple[WaitingStop, ...]:
    """Return the stops of the open walk that wait, in their order; those left for later at the end."""
    with context.read() as session:
        from scout.store import walks

        walk_id = walk.open_walk(context)
        stops = walks.stops(session=session, walk_id=walk_id) if walk_id else ()
        found = [stop for state in ("open", "deferred") for stop in stops if stop.state == state]
        places = ((stop, planted_at(context, stop)) for stop in found)
        return tuple(WaitingStop(stop.id, f"{at.bed} · {at.label} — {stop.why}") for stop, at in places)


def go_to(context: Context, stop_id: str) -> None:
    """Stand at another stop of the open walk; the one left stays open and comes in its turn."""
    from scout.store import walks
    from scout.store.tables_walk import Stop

    with context.write() as tx:
        wanted = walks.stop(session=tx.session, stop_id=stop_id)
        if wanted is None or wanted.state not in ("open", "deferred"):
            raise NotFound("This stop is closed already.")
        for other in walks.stops(session=tx.session, walk_id=wanted.walk_id):
            if other.asking is not None:
                tx.change("stop", other.id, {"asking": None})
        if wanted.state == "deferred":
            tx.update(Stop, stop_id, state="open", deferred_why=None, closed_at=None)
        tx.change("stop", stop_id, {"asking": AT_LOOKS.text})


def look_now(context: Context, planting_id: str, bed_id: str) -> None:
    """Stand at a planting now: at its stop of the open walk, at one more, or in a walk of this one stop."""
    from scout.store import walks
    from scout.store.tables_walk import Stop

    with context.write() as tx:
        walk_id = walk.open_walk(context)
        if walk_id is None:
            walk.start(context, (_alone(context, planting_id, bed_id),), mode="single")
            return
        stops = walks.stops(session=tx.session, walk_id=walk_id)
        waits = (one for one in stops if one.planting_id == planting_id and one.state in ("open", "deferred"))
        found = next((one.id for one in waits), None)
        if found is None:
            last = max((one.position for one in stops), default=-1)
            found = tx.add(Stop, walk_id=walk_id, planting_id=planting_id, bed_id=bed_id, position=last + 1, why=CHOSEN)
        go_to(context, found)


def _alone(context: Context, planting_id: str, bed_id: str) -> PlannedStop:
    from scout.services.garden import planted_as

    plant = planted_as(context, planting_id)
    return PlannedStop(planting_id, bed_id, plant.bed, plant.label, "clean", CHOSEN, 0.0, None)
