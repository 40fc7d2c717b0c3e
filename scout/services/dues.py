"""Every planting with its next look and why: one pass over the garden, a question a table, none a planting."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from scout.diagnosis.due import Due, Pass, Reason, group_of, next_look
from scout.diagnosis.due_reasons import LookFacts, picking, reasons_for
from scout.diagnosis.due_weather import crop_risk
from scout.knowledge.cause_file import Cause
from scout.plain import day_text, lower_first
from scout.services.context import Context
from scout.services.garden import Planted, planted

SEEN_BACK_D = 30
LATE_JOB_D = 3
"""Days after which a job not done deserves a line on the first screen. Our choice."""


@dataclass(frozen=True)
class PlantDue:
    """One planting, when it is next looked at, and what was known of it."""

    plant: Planted
    due: Due
    group: Pass
    picked: bool
    open_causes: tuple[Cause, ...]
    seen_symptom: str | None
    """The newest symptom seen at it lately."""


def dues(context: Context) -> tuple[PlantDue, ...]:
    """Return every planting with its next look, in walking order; inside one read they are worked out once."""
    with context.read():
        return context.once(f"dues {context.today}", lambda: _dues(context))


def _dues(context: Context) -> tuple[PlantDue, ...]:
    from scout.services.pest_dates import pest_reasons
    from scout.services.risk_days import risk_days
    from scout.services.troubles import open_causes_by_planting
    from scout.store import findings, walks

    today, garden = context.today, str(context.garden_id)
    with context.read() as session:
        visits = walks.last_visits(session=session, garden_id=garden, on=today.isoformat())
        since = (today - timedelta(days=SEEN_BACK_D)).isoformat()
        seen = findings.last_findings(session=session, garden_id=garden, since=since)
    causes, given, near = open_causes_by_planting(context), _given(context), _near(context)
    days, pests = risk_days(context), pest_reasons(context)
    plants = planted(context)
    risks = {crop.id: crop_risk(context.knowledge, crop) for crop in {p.crop.id: p.crop for p in plants}.values()}
    found = []
    for plant in plants:
        visit, finding = visits.get(plant.planting_id), seen.get(plant.planting_id)
        last = date.fromisoformat(visit.closed_at[:10]) if visit and visit.closed_at else None
        open_causes = causes.get(plant.planting_id, ())
        facts = LookFacts(
            crop=plant.crop,
            stage=plant.stage,
            last_on=last,
            open_causes=open_causes,
            given=(*given.get(plant.planting_id, ()), *_since_visit(pests.get(plant.crop.id, ()), plant, last)),
            seen_on=last if finding and last and finding.observed_at[:10] == last.isoformat() else None,
            near=tuple(cause for cause in near if plant.crop.id in cause.common),
            in_tub=plant.bed_kind == "tub",
            risk=risks[plant.crop.id],
            days=days,
        )
        due = next_look(reasons_for(facts, today), today)
        group, symptom = group_of(plant.stage, open_causes), finding.symptom if finding else None
        found.append(PlantDue(plant, due, group, picking(plant.crop, plant.stage), open_causes, symptom))
    return tuple(found)


def _since_visit(reasons: tuple[Reason, ...], plant: Planted, last: date | None) -> tuple[Reason, ...]:
    """Return the pest stages that the last visit could not answer, and that found the planting in its bed."""
    begun = plant.set_out_on or plant.sown_on or ""
    return tuple(one for one in reasons if (last is None or one.on > last) and one.on.isoformat() >= begun)


def _given(context: Context) -> Mapping[str, list[Reason]]:
    """Return the reasons that jobs give, by planting: to do, or done and its result to be looked at."""
    from scout.store import jobs

    today, garden = context.today.isoformat(), str(context.garden_id)
    with context.read() as session:
        looks = jobs.looks_due(session=session, garden_id=garden, due_until=today)
        todo = jobs.open_jobs(session=session, garden_id=garden, due_until=today)
    found: dict[str, list[Reason]] = defaultdict(list)
    for job in todo:
        if job.planting_id is not None:
            found[job.planting_id].append(_to_do(date.fromisoformat(job.due_on), lower_first(job.title), context.today))
    for job in looks:
        if job.planting_id is not None and job.look_again_on is not None:
            on = date.fromisoformat(job.look_again_on)
            why = f"look again: {lower_first(job.title)}"
            found[job.planting_id].append(Reason(on, why, "job", 2.0, 1.5, LATE_JOB_D))
    return found


def _to_do(on: date, title: str, today: date) -> Reason:
    late = (today - on).days >= LATE_JOB_D
    alert = f"Late since {day_text(on)}: {title}" if late else ""
    return Reason(on, f"to do: {title}", "job", 3.0, 1.5, LATE_JOB_D, must=True, alert=alert)


def _near(context: Context) -> tuple[Cause, ...]:
    """Return the diseases reported near here lately."""
    from scout.services.outside import NEAR_D, NEAR_KM
    from scout.store import records

    today = context.today
    since = (today - timedelta(days=NEAR_D)).isoformat()
    with context.read() as session:
        found = records.near_reports(session=session, garden_id=str(context.garden_id), since=since)
    told = {
        one.disease for one in found if one.reported_on <= today.isoformat() and (one.distance_km or 0.0) <= NEAR_KM
    }
    causes = context.knowledge.causes
    return tuple(causes[disease] for disease in sorted(told) if disease in causes)
