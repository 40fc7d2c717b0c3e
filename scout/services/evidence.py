"""Gathers what is known of one planting today into evidence for the ranking: each clue once, the newest answer."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.advise import Bedside
from scout.diagnosis.conditions import conditions_on, season_on
from scout.diagnosis.course import earlier_bouts
from scout.diagnosis.evidence import Count, Day, Evidence
from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.site import site_of

if TYPE_CHECKING:
    from scout.services.course import Told

SAME_LOOK_D = 7
"""Findings of the last week are of one bout; older ones belong to the open problem's history. Our choice."""
_WEATHER_BACK_D = 14
"""The longest look back of a condition that does not wait for a flower."""


def evidence_for(context: Context, plant: Planted) -> Evidence:
    """Return everything the ranking may use for a planting today."""
    from scout.diagnosis.fruit import days_back
    from scout.services.course import responses_of, told_of
    from scout.services.fruit_size import size_of
    from scout.services.own_history import own_counts
    from scout.services.weather import days_between
    from scout.services.weather_features import with_features

    today = context.today
    since = today - timedelta(days=SAME_LOOK_D)
    told = told_of(context, plant.planting_id)
    seen, not_seen = _found_lately(context, plant, told, since)
    site = site_of(context)
    back = max(_WEATHER_BACK_D, days_back(plant.crop))
    days = with_features(context, plant, days_between(context, today - timedelta(days=back), today))
    size = size_of(context, plant)
    return Evidence(
        crop=plant.crop.id,
        on=today,
        stage=plant.stage,
        season=season_on(context.knowledge, today, site.last_frost, site.first_frost),
        seen=seen,
        not_seen=not_seen,
        circumstances=_circumstances(context, plant, told, days),
        conditions=conditions_on(context.knowledge, plant.crop.id, today, days, size),
        days=days,
        size=size,
        own_counts=own_counts(context, plant.crop.id),
        earlier=earlier_bouts(told.course, since, {*seen, *not_seen}),
        responses=responses_of(told),
    )


def _found_lately(
    context: Context, plant: Planted, told: "Told", since: date
) -> tuple[dict[str, Count], dict[str, Count]]:
    """Return what was seen and what was looked for and not seen in the last week, each sign by its newest answer."""
    seen: dict[str, Count] = {}
    not_seen: dict[str, Count] = {}
    for one in told.findings:
        if one.observed_at < since.isoformat():
            continue
        mine, other = (seen, not_seen) if one.state == "seen" else (not_seen, seen)
        other.pop(one.symptom, None)
        mine[one.symptom] = Count(one.looked_n, one.affected_n)
    for symptom, count in _looked_clear(context, plant, since.isoformat()).items():
        if symptom not in seen:
            not_seen.setdefault(symptom, count)
    return seen, not_seen


def _circumstances(context: Context, plant: Planted, told: "Told", days: Sequence[Day]) -> dict[str, bool]:
    """Return how it is grown and how the trouble lies in it: by the records, and before these by what was answered."""
    from scout.services.bed_pattern import pattern_from_records
    from scout.services.course import course_circumstances
    from scout.services.outside import circumstances_from_outside

    since = context.today - timedelta(days=SAME_LOOK_D)
    recorded = pattern_from_records(context, plant, told, since) | course_circumstances(context, told, plant, days)
    return _grown(plant) | circumstances_from_outside(context, plant) | recorded | answered(context, plant)


def answered(context: Context, plant: Planted) -> dict[str, bool]:
    """Return the answers given about a planting that still hold: how the trouble lies is asked anew each time."""
    from scout.store import plantings

    with context.read() as session:
        said = plantings.circumstances_said(session=session, planting_id=plant.planting_id)
    known = context.knowledge.circumstances
    return {
        name: value
        for name, (value, at) in said.items()
        if name in known and _still(known[name].lasts_d, date.fromisoformat(at[:10]), context.today)
    }


def _still(lasts_d: int | None, said_on: date, today: date) -> bool:
    return lasts_d is None or (today - said_on).days <= lasts_d


def _looked_clear(context: Context, plant: Planted, since: str) -> dict[str, Count]:
    """Return the symptoms that clear looks of the newest visit speak against, with how many plants were looked at."""
    from scout.store import walks

    with context.read() as session:
        stop = walks.newest_stop(session=session, planting_id=plant.planting_id, since=since)
    return clear_at(context, plant, stop.id) if stop is not None else {}


def clear_at(context: Context, plant: Planted, stop_id: str) -> dict[str, Count]:
    """Return the symptoms that the clear looks of one stop speak against, with how many plants were looked at.

    A glance speaks only of what shows at a glance.
    """
    from scout.store import walks

    clear: dict[str, Count] = {}
    with context.read() as session:
        answers = walks.look_answers(session=session, stop_id=stop_id)
        cleared = walks.clearances(session=session, stop_id=stop_id)
    looks = {look.id: look for look in plant.crop.looks}
    for answer in answers.values():
        look = looks.get(answer.look_id)
        if look is not None and answer.answer == "clear":
            clear |= {s: Count(answer.looked_n) for s in look.symptoms}
    for one in cleared:
        if one.kind == "glance":
            known = context.knowledge.symptoms_of(plant.crop.id)
            glanced = (s.id for s in known if s.effort == "glance" and s.kind != "quality")
            clear |= {s: Count(one.looked_n) for s in glanced}
    return clear


def _grown(plant: Planted) -> dict[str, bool]:
    """Return what follows from the record of the planting itself."""
    grown = {"container": plant.bed_kind == "tub"}
    if plant.origin != "unknown":
        grown["volunteer"] = plant.origin == "volunteer"
        grown["saved_seed"] = plant.origin == "saved_seed"
        grown["bought_plants"] = plant.origin == "bought_plant"
    return grown


def bedside_for(context: Context, plant: Planted, evidence: Evidence) -> Bedside:
    """Return what is known at the bed that controls depend on; None where nobody said."""
    from scout.services.felt import leaves_felt_dry
    from scout.services.troubles import open_causes
    from scout.services.weather import heat_ahead

    causes = open_causes(context, plant.planting_id)
    contagious = any(c.kind in ("viral", "bacterial", "phytoplasma") for c in causes)
    splash = any(c.kind in ("fungal", "oomycete", "bacterial") for c in causes)
    suspects = _suspected(evidence)
    dry = evidence.circumstances.get("soil_dry_5cm")
    moist = evidence.circumstances.get("soil_moist_5cm")
    bees = evidence.circumstances.get("sets_without_bees")
    return Bedside(
        leaves_dry=leaves_felt_dry(context, plant),
        heat_ahead=heat_ahead(context),
        touch_contagious=True if contagious or suspects else None,
        splash_disease=True if splash or _spots(evidence) else None,
        needs_pollinating=None if bees is None else not bees,
        soil_dry=dry if dry is not None else (False if moist else None),
    )


def _suspected(evidence: Evidence) -> bool:
    """Return True when a sign of virus or bacterial wilt was seen and nothing rules it out yet."""
    signs = {
        "leaf.mosaic",
        "leaf.greasy_specks",
        "stem.milky_stream",
        "stem.milky_string",
        "whole_plant.sudden_green_wilt",
    }
    return bool(signs & set(evidence.seen))


def _spots(evidence: Evidence) -> bool:
    return any("spot" in s or "angular" in s or "fuzz" in s for s in evidence.seen if s.startswith("leaf."))
