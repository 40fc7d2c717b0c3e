"""The walk plan: which beds today, in which order, and what waits for the evening."""

from datetime import date, timedelta

from scout.diagnosis.due import PASSES, Due, next_look
from scout.services.context import Context
from scout.services.garden import Planted, planted
from scout.services.views import PlannedStop, WalkPlan
from scout.services.weather import heat_today
from scout.services.wording import lower_first

SEEN_BACK_D = 30
WASH = "Between the clean and the sick beds: wash hands, wipe the blade, empty the bag."


def walk_plan(context: Context, minutes: float | None = None, *, everything: bool = False) -> WalkPlan:
    """Return the stops due today, clean beds before sick; with `minutes`, the least worthwhile wait with a reason.

    everything: also the plantings that are not due yet.
    """
    due = [(plant, reason) for plant, reason in _due(context) if everything or reason.on <= context.today]
    staying, waiting = _fitted(due, minutes)
    stops = tuple(_stop(plant, reason, None) for plant, reason in _ordered(staying))
    deferred = tuple(_stop(plant, reason, _why_later(reason)) for plant, reason in _ordered(waiting))
    return WalkPlan(stops, deferred, sum(stop.minutes for stop in stops), _lines(context, stops))


def next_due(context: Context) -> tuple[tuple[Planted, Due], ...]:
    """Return every planting with the date of its next look, soonest first."""
    return tuple(sorted(_due(context), key=lambda pair: (pair[1].on, pair[0].position)))


def _due(context: Context) -> list[tuple[Planted, Due]]:
    from scout.services.troubles import open_causes_by_planting
    from scout.store import findings, jobs, walks

    today = context.today
    with context.read() as session:
        visits = walks.last_visits(session=session, garden_id=str(context.garden_id), on=today.isoformat())
        looks = jobs.looks_due(session=session, garden_id=str(context.garden_id), due_until=today.isoformat())
        seen = findings.last_findings(
            session=session, garden_id=str(context.garden_id), since=(today - timedelta(days=SEEN_BACK_D)).isoformat()
        )
        todo = jobs.open_jobs(session=session, garden_id=str(context.garden_id), due_until=today.isoformat())
    causes = open_causes_by_planting(context)
    days: dict[str, list[tuple[date, str]]] = {}
    for job in (*todo, *looks):
        if job.planting_id is not None:
            again = job.look_again_on if job.state == "done" else None
            why = f"look again: {lower_first(job.title)}" if again else f"to do: {lower_first(job.title)}"
            days.setdefault(job.planting_id, []).append((date.fromisoformat(again or job.due_on), why))
    found = []
    for plant in planted(context):
        visit = visits.get(plant.planting_id)
        last = date.fromisoformat(visit.closed_at[:10]) if visit and visit.closed_at else None
        open_causes = causes.get(plant.planting_id, ())
        jobs_due = tuple(days.get(plant.planting_id, ()))
        finding = seen.get(plant.planting_id)
        seen_on = last if finding and last and finding.observed_at[:10] == last.isoformat() else None
        found.append((plant, next_look(plant.crop, plant.stage, today, last, open_causes, jobs_due, seen_on)))
    return found


def _fitted(
    due: list[tuple[Planted, Due]], minutes: float | None
) -> tuple[list[tuple[Planted, Due]], list[tuple[Planted, Due]]]:
    """Return what fits into the minutes, the most worthwhile first, and what does not."""
    if minutes is None:
        return due, []
    staying, waiting, used = [], [], 0.0
    for plant, reason in sorted(due, key=lambda pair: (-pair[1].worth, pair[0].position)):
        if used + reason.minutes <= minutes:
            staying.append((plant, reason))
            used += reason.minutes
        else:
            waiting.append((plant, reason))
    return staying, waiting


def _ordered(stops: list[tuple[Planted, Due]]) -> list[tuple[Planted, Due]]:
    return sorted(stops, key=lambda pair: (PASSES.index(pair[1].group), pair[0].position, pair[0].crop.name))


def _stop(plant: Planted, reason: Due, deferred_why: str | None) -> PlannedStop:
    return PlannedStop(
        planting_id=plant.planting_id,
        bed_id=plant.bed_id,
        bed=plant.bed,
        crop=plant.label,
        group=reason.group,
        why=reason.why,
        minutes=reason.minutes,
        deferred_why=deferred_why,
    )


def _why_later(reason: Due) -> str:
    return f"Not enough time before the heat; {reason.why}, so the evening will do"


def _lines(context: Context, stops: tuple[PlannedStop, ...]) -> tuple[str, ...]:
    heat = heat_today(context)
    lines = [heat.line, *heat.advice]
    if any(stop.group in ("spotted", "suspect") for stop in stops):
        lines.append(WASH)
    if _wet_this_morning(context):
        lines.append("Leaves are wet: look, do not touch; spotted beds wait until they are dry.")
    return tuple(lines)


def _wet_this_morning(context: Context) -> bool:
    from scout.services.weather import days_between

    today = context.today
    return any(day.wet_morning for day in days_between(context, today, today))
