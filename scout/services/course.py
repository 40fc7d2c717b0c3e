"""The open problem of a planting over its walks: since when, how many plants, what weather and controls did to it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.course import Course, Sighting, cleared, counts_text, course_of, spread_circumstances
from scout.diagnosis.evidence import Day, Evidence, Response
from scout.plain import day_text, lower_first
from scout.services.context import Context
from scout.services.garden import Planted

if TYPE_CHECKING:
    from scout.store.findings import FindingView
    from scout.store.jobs import ResultView

BACK_D = 60
"""Findings older than this belong to no open problem."""
RESPONSE_LOG_ODDS = 1.0
"""What a control that worked, or did not, says of the cause it was tried for. Our choice: about one in three controls
fails against the right cause, and two in three troubles go on when the wrong one was treated."""
HOT_C, COOL_C = 33.0, 30.0
"""A day from HOT_C on is hot; a week in which no day reaches COOL_C is without heat. Our choice."""
COOL_DAYS_N = 6
"""Days of the last seven that must be known to say that it was cool."""
STILL_D = 3
"""A sign seen within so many days is there still."""
WATER_WAIT_D = 2
"""Days after a watering from which a plant that is limp still is not helped by it."""
_QUICK = ("whole_plant.limp", "flower.drop", "flower.buds_drop", "leaf.rolled")
"""Signs that come and go with the weather; a scorched leaf stays scorched and says nothing."""
_LIMP = "whole_plant.limp"


@dataclass(frozen=True)
class Told:
    """What was found on a planting lately and how its jobs came out."""

    findings: "Sequence[FindingView]"
    results: "Sequence[ResultView]"
    course: Course | None


def told_of(context: Context, planting_id: str) -> Told:
    """Return the findings of the last weeks and the course they belong to."""
    from scout.store import findings, jobs

    since = (context.today - timedelta(days=BACK_D)).isoformat()
    with context.read() as session:
        found = findings.findings_since(session=session, planting_id=planting_id, since=since)
        results = jobs.results_of(session=session, planting_id=planting_id)
    over = [one.observed_at for one in results if one.verdict == "yes"]
    ended = date.fromisoformat(over[-1][:10]) if over else None
    known = [_of_today(context, one) for one in found if one.symptom in context.knowledge.symptoms]
    return Told(known, results, course_of([_sighting(one) for one in known], context.today, ended))


def _of_today(context: Context, one: "FindingView") -> "FindingView":
    """Return a finding under the sign that has taken the place of its own, where that was retired."""
    return replace(one, symptom=context.knowledge.symptom(one.symptom).id)


def _sighting(one: "FindingView") -> Sighting:
    on = date.fromisoformat(one.observed_at[:10])
    return Sighting(on, one.symptom, one.state == "seen", one.looked_n, one.affected_n)


def course_line(told: Told) -> str | None:
    """Return since when and on how many plants, "since 8 July, 2, now 4 of 6 plants"; None without an open course."""
    if told.course is None:
        return None
    counted = counts_text(told.course)
    return f"since {day_text(told.course.since)}{f', {counted}' if counted else ''}"


def course_lines(context: Context, plant: Planted, evidence: Evidence) -> tuple[str, ...]:
    """Return what stands under the answer: since when the problem is open, and which earlier signs still count."""
    told = told_of(context, plant.planting_id)
    line = course_line(told)
    if told.course is None or line is None or told.course.since >= context.today:
        return ()
    names = [context.knowledge.symptoms[sign].name for bout in evidence.earlier for sign in bout.seen]
    lines = [f"Open problem {line}."]
    if names:
        lines.append(f"Earlier signs, fading: {', '.join(lower_first(name) for name in names)}.")
    return tuple(lines)


def course_circumstances(context: Context, told: Told, plant: Planted, days: Sequence[Day]) -> dict[str, bool]:
    """Return what the course says as a whole: spreading, over by itself, what cooler weather and water did."""
    course, today = told.course, context.today
    if course is None:
        return {}
    said = spread_circumstances(course, today)
    if cleared(course) and not _worked_on(told):
        said["got_better_alone"] = True
    said |= cool_circumstances(course, {day.on: day for day in days if not day.forecast}, today)
    if _limp_after_water(context, course, plant):
        said["went_on_after_water"] = True
    return said


def _worked_on(told: Told) -> bool:
    assert told.course is not None
    return any(one.observed_at[:10] >= told.course.since.isoformat() for one in told.results)


def cool_circumstances(course: Course, days: Mapping[date, Day], today: date) -> dict[str, bool]:
    """Return whether signs that come and go with heat went on, or went, in a week without heat after hot days."""
    week = [days[day].tmax_c for day in _back(today, 7) if day in days and days[day].tmax_c is not None]
    begun = [days[day].tmax_c for day in _back(course.since, 7) if day in days]
    was_hot = any(high is not None and high >= HOT_C for high in begun)
    is_cool = len(week) >= COOL_DAYS_N and all(high is not None and high < COOL_C for high in week)
    quick = [one for one in course.sightings if one.symptom.startswith(_QUICK)]
    if not (was_hot and is_cool and quick) or (today - course.since).days < 7:
        return {}
    newest = {one.symptom: one for one in quick}
    if not any(one.seen for one in newest.values()):
        return {"better_in_cool_weather": True, "went_on_in_cool_weather": False}
    if any(one.seen and (today - one.on).days <= STILL_D for one in newest.values()):
        return {"better_in_cool_weather": False, "went_on_in_cool_weather": True}
    return {}


def _back(day: date, days_n: int) -> list[date]:
    return [day - timedelta(days=back) for back in range(days_n)]


def _limp_after_water(context: Context, course: Course, plant: Planted) -> bool:
    """Return True when the bed was watered and the plants were limp two days later and more."""
    from scout.services.weather_features import noted_of
    from scout.store import records

    limp = [one.on for one in course.sightings if one.seen and one.symptom.startswith(_LIMP)]
    if not limp:
        return False
    with context.read() as session:
        noted = records.waterings(
            session=session,
            garden_id=str(context.garden_id),
            since=course.since.isoformat(),
            until=limp[-1].isoformat(),
        )
    watered = [date.fromisoformat(day) for day, outcome in noted_of(plant, noted) if outcome == "watered"]
    return any(WATER_WAIT_D <= (limp[-1] - day).days <= 7 for day in watered)


def responses_of(told: Told) -> dict[str, Response]:
    """Return what the controls tried since the problem began say of the causes they were tried for."""
    if told.course is None:
        return {}
    said: dict[str, Response] = {}
    for one in told.results:
        if one.cause and one.control and one.observed_at[:10] >= told.course.since.isoformat():
            moved = {"yes": RESPONSE_LOG_ODDS, "no": -RESPONSE_LOG_ODDS}.get(one.verdict)
            if moved is not None:
                said[one.cause] = Response(one.control, moved)
    return said
