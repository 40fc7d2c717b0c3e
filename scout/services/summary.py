"""A finished walk in a few lines: what changed, what to do, when to look again."""

from scout.services.context import Context
from scout.services.views import WalkSummary
from scout.services.walk import in_walk
from scout.services.wording import plants_text


def last_summary(context: Context) -> WalkSummary:
    """Return the newest walk of this device, summed up."""
    from scout.store import findings, walks

    day = context.today.isoformat()
    with context.read() as session:
        garden_id = str(context.garden_id)
        done = walks.walks(session=session, garden_id=garden_id, since="2000-01-01", until=day)
        mine = [walk for walk in done if walk.device_id == context.device_id]
        if not mine:
            return WalkSummary(0, 0, 0, ("No walk yet.",))
        stops = walks.stops(session=session, walk_id=mine[-1].id)
        clear = sum(bool(walks.clearances(session=session, stop_id=stop.id)) for stop in stops)
        seen = [
            one
            for stop in stops
            for one in findings.findings_of_stop(session=session, stop_id=stop.id)
            if one.state == "seen"
        ]
    return WalkSummary(len(in_walk(stops)), clear, len(seen), tuple(_lines(context, stops, seen)))


def _lines(context: Context, stops: tuple, seen: list) -> list[str]:  # type: ignore[type-arg]
    from scout.services.garden import planted
    from scout.services.troubles import job_lines

    name = {one.planting_id: f"{one.bed}, {one.crop.name.lower()}" for one in planted(context)}
    symptoms = context.knowledge.symptoms
    lines = []
    for one in seen:
        what = symptoms[one.symptom].name if one.symptom in symptoms else one.symptom
        count = plants_text(one.affected_n, one.looked_n)
        lines.append(f"{name.get(one.planting_id, '?')}: {what}{count}")
    deferred = [stop for stop in stops if stop.state == "deferred"]
    lines += [f"Left for later: {name.get(stop.planting_id, '?')} ({stop.deferred_why})" for stop in deferred]
    due = job_lines(context, context.today)
    lines += [f"To do: {job.title} ({job.bed})" for job in due[:5]]
    return lines
