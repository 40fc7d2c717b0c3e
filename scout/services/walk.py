"""The walk: one stop after another, each answer kept when it is given, so that it resumes where it stopped."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import Any

from scout.diagnosis.looks import looks_for
from scout.errors import BadInput, NotFound, Refused
from scout.knowledge.crop_file import Look
from scout.services.answers import finding_view, findings_of, open_stop
from scout.services.context import Context
from scout.services.findings import as_view
from scout.services.garden import Planted, planted, planted_as
from scout.services.views import Asking, FindingView, LookView, PlannedStop, StopView
from scout.services.wording import day_text, plants_text


def load_libraries() -> None:
    """Load what the answers of a walk need and no first screen waits for; costs a second, once."""
    from importlib import import_module

    for module in (
        "diagnosis.network",
        "diagnosis.words",
        "science.sampling",
        "services.causes",
        "services.stop_facts",
        "store.undo",
    ):
        import_module(f"scout.{module}")


def try_rankings(context: Context) -> Iterator[str]:
    """Rank one sign for every crop that stands here, crop by crop: the first ranking of a crop makes what all share."""
    from scout.diagnosis.evidence import Count, Evidence
    from scout.services.answering import answer_evidence

    for crop in dict.fromkeys(plant.crop for plant in planted(context)):
        signs = [sign for look in crop.looks for sign in look.symptoms][:1]
        seen = {sign: Count(None, None) for sign in signs}
        answer_evidence(context.knowledge, Evidence(crop=crop.id, on=context.today, seen=seen), most=1)
        yield crop.id


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
    from scout.store import walks

    with context.read() as session:
        going = walks.open_walk(session=session, garden_id=str(context.garden_id), device_id=context.device_id)
    return going.id if going else None


def progress(context: Context) -> tuple[int, int] | None:
    """Return how many stops of the open walk are closed, and of how many; None without an open walk."""
    from scout.store import walks

    walk_id = open_walk(context)
    if walk_id is None:
        return None
    with context.read() as session:
        stops = walks.stops(session=session, walk_id=walk_id)
    return _done_of(stops)


def in_walk(stops: Sequence[Any]) -> list[Any]:
    """Return the stops without those that the plan had left for later before the walk began."""
    return [stop for stop in stops if stop.state != "deferred" or stop.closed_at is not None]


def _done_of(stops: Sequence[Any]) -> tuple[int, int]:
    """Return how many stops of a walk are closed, and of how many."""
    mine = in_walk(stops)
    return sum(stop.state != "open" for stop in mine), len(mine)


def current_stop(context: Context) -> StopView | None:
    """Return the first open stop of the open walk, or None when the walk is through or there is none."""
    from scout.store import walks

    walk_id = open_walk(context)
    if walk_id is None:
        return None
    with context.read() as session:
        stops = walks.stops(session=session, walk_id=walk_id)
        waiting = [stop for stop in stops if stop.state == "open"]
        if not waiting:
            return None
        return _view(context, waiting[0], *_done_of(stops), waiting)


def _view(context: Context, stop: Any, closed: int, total: int, waiting: list[Any]) -> StopView:
    from scout.services.stop_facts import facts_of
    from scout.store import walks

    plant = _planted_at(context, stop)
    facts = facts_of(context, plant)
    with context.read() as session:
        answers = walks.look_answers(session=session, stop_id=stop.id)
    looks = tuple(_look(context, look, answers) for look in looks_at(context, stop, plant))
    here = [other for other in waiting if other.bed_id == stop.bed_id]
    clear_all = not facts.troubles and not facts.marked_due
    return StopView(
        id=stop.id,
        walk_id=stop.walk_id,
        planting_id=stop.planting_id,
        number=closed + 1,
        total=total,
        bed=plant.bed,
        bed_kind=plant.bed_kind,
        crop_id=plant.crop.id,
        crop=plant.crop.name,
        variety=plant.variety,
        plants_n=plant.plants_n,
        group=facts.group,
        why=stop.why,
        last_visit=facts.last_visit,
        holds=facts.holds,
        troubles=facts.troubles,
        looks=looks,
        findings=findings_of(context, stop.id),
        picks=facts.picks,
        may_clear_all=clear_all,
        may_clear_bed=clear_all and len(here) > 1 and all(_clearable(context, other) for other in here[1:]),
        marked_due=facts.marked_due,
        asking=_asking(stop.asking),
        state=stop.state,
        pick_lines=facts.pick_lines,
        going_on=facts.going_on,
    )


def _clearable(context: Context, stop: Any) -> bool:
    from scout.services.stop_facts import facts_of

    facts = facts_of(context, _planted_at(context, stop))
    return not facts.troubles and not facts.marked_due


def _planted_at(context: Context, stop: Any) -> Planted:
    """Return the planting as it stands in the stop's bed; one pulled since is shown as it stood."""
    for one in planted(context):
        if one.planting_id == stop.planting_id and one.bed_id == stop.bed_id:
            return one
    return planted_as(context, stop.planting_id)


def looks_at(context: Context, stop: Any, plant: Planted) -> tuple[Look, ...]:
    """Return the few looks of a stop; they stay the same while the stop is answered."""
    from scout.services.troubles import open_causes
    from scout.store import walks

    with context.read() as session:
        made = walks.last_looks(session=session, planting_id=plant.planting_id, except_stop=stop.id)
    last = {look: date.fromisoformat(at[:10]) for look, at in made.items()}
    hour = int(stop.opened_at[11:13]) if stop.opened_at and len(stop.opened_at) > 10 else context.here_and_now.hour
    causes = open_causes(context, plant.planting_id)
    return looks_for(plant.crop, plant.stage, causes, last, context.today, hour)


def _look(context: Context, look: Look, answers: dict[str, Any]) -> LookView:
    given = answers.get(look.id)
    symptoms = tuple(as_view(context.knowledge.symptoms[s]) for s in look.symptoms)
    return LookView(look.id, look.place, look.ask, look.why, given.answer if given else "open", symptoms)


def _asking(text: str | None) -> Asking | None:
    if not text:
        return None
    what, _, subject = text.partition(":")
    return Asking(what, subject)  # type: ignore[arg-type]


def ask(context: Context, stop_id: str, asking: Asking | None) -> None:
    """Keep which question is on screen: a place in the walk, not a record, so it has no history."""
    with context.write() as tx:
        tx.change("stop", stop_id, {"asking": asking.text if asking else None})


# closing a stop


def clear(context: Context, stop_id: str, kind: str, looked_n: int) -> None:
    """Close a stop as clear: at a glance, or with every planned look made, on `looked_n` plants.

    "Every look" is refused where a problem is open or a marked plant is due: those are looked at one by one.
    """
    from scout.store import walks
    from scout.store.tables_walk import Clearance, LookAnswer, Stop

    with context.write() as tx:
        open_stop(context, tx, stop_id)
        stop = walks.stop(session=tx.session, stop_id=stop_id)
        plant = _planted_at(context, stop)
        if kind != "glance":
            if not _clearable(context, stop):
                raise Refused("A problem is open here or a marked plant is due: answer the looks one by one.")
            for look in looks_at(context, stop, plant):
                tx.add(LookAnswer, stop_id=stop_id, look_id=look.id, answer="clear", looked_n=looked_n)
        tx.add(Clearance, stop_id=stop_id, kind=kind, looked_n=looked_n)
        ask(context, stop_id, None)
        tx.update(Stop, stop_id, state="done", closed_at=context.moment()[0])
        _end_if_through(context)


def clear_bed(context: Context, stop_id: str) -> None:
    """Close every open stop of this bed in this walk as looked over and clear."""
    from scout.store import walks

    with context.write() as tx:
        stop = walks.stop(session=tx.session, stop_id=stop_id)
        if stop is None:
            raise NotFound("This stop does not exist any more.")
        waiting = walks.stops(session=tx.session, walk_id=stop.walk_id)
        for other in waiting:
            if other.bed_id == stop.bed_id and other.state == "open":
                plants_n = _planted_at(context, other).plants_n
                if plants_n is None:
                    raise BadInput(
                        "The plants of this bed were never counted; clear its stops one by one with a number."
                    )
                clear(context, other.id, "whole_bed", plants_n)


def close_stop(context: Context, stop_id: str) -> None:
    """Close a stop with what it gave; looks not answered count for nothing."""
    _close(context, stop_id, state="done")


def leave_stop(context: Context, stop_id: str) -> None:
    """Go on to the next stop: one that gave an answer or a note is closed, one that gave nothing is passed by."""
    from scout.store import walks

    with context.read() as session:
        stop = walks.stop(session=session, stop_id=stop_id)
    gave = stop is not None and (stop.opened_at is not None or bool(stop.note))
    (close_stop if gave else skip_stop)(context, stop_id)


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


def current_stop_id(context: Context) -> str | None:
    """Return the id of the first open stop, or None."""
    from scout.store import walks

    walk_id = open_walk(context)
    if walk_id is None:
        return None
    with context.read() as session:
        return next((stop.id for stop in walks.stops(session=session, walk_id=walk_id) if stop.state == "open"), None)


def finish(context: Context) -> None:
    """End the open walk; stops still open count as skipped."""
    from scout.store import walks
    from scout.store.tables_walk import Stop, Walk

    walk_id = open_walk(context)
    if walk_id is None:
        return
    at, offset = context.moment()
    with context.write() as tx:
        for stop in walks.stops(session=tx.session, walk_id=walk_id):
            if stop.state == "open":
                tx.update(Stop, stop.id, state="skipped", closed_at=at)
        tx.update(Walk, walk_id, ended_at=at, ended_offset_min=offset)


def undo(context: Context) -> str:
    """Take back the last thing given on this device and say what it was."""
    from scout.store.undo import undo_last

    undone = undo_last(context.engine, context.stamp)
    nouns = list(dict.fromkeys(entity.replace("_", " ") for entity, _ in undone.rows))
    walk_row = next((row_id for entity, row_id in undone.rows if entity == "walk"), None)
    return f"Taken back: {', '.join(nouns[:3])}." if walk_row is None else "Taken back; the walk goes on."


def last_words(context: Context, planting_id: str, back_d: int = 60) -> tuple[str, ...]:
    """Return the last visit of a planting as lines: the day, the note, then what was seen."""
    from scout.store import findings, walks

    with context.read() as session:
        stop = walks.last_visit(session=session, planting_id=planting_id)
        if stop is None or stop.closed_at is None:
            return ()
        found = findings.findings_of_stop(session=session, stop_id=stop.id)
        cleared = walks.clearances(session=session, stop_id=stop.id)
    if stop.closed_at < (context.today - timedelta(days=back_d)).isoformat():
        return ()
    day = day_text(date.fromisoformat(stop.closed_at[:10]))
    first = f"{day}: {stop.note}" if stop.note else day
    seen = [_said(finding_view(context, f)) for f in found if f.state == "seen"]
    if seen:
        return (first, *seen[:3])
    return (f"{first} · {_clear_words(cleared)}",)


def _said(found: FindingView) -> str:
    count = plants_text(found.affected_n, found.looked_n)
    return f"{found.name}{count}"


def _clear_words(cleared: Sequence[Any]) -> str:
    """Return what a clear stop says, with the upper limit that "0 of n" leaves open."""
    from scout.science.sampling import upper_limit_none_found

    if not cleared:
        return "nothing noted"
    one = cleared[-1]
    if one.kind == "glance":
        return f"glanced over {one.looked_n}, nothing caught the eye"
    limit = round(100 * upper_limit_none_found(one.looked_n))
    return f"0 of {one.looked_n} (could still be up to {limit} %)"
