"""Gathers what is known of one planting today into evidence for the ranking: each clue once, the newest answer."""

from datetime import date, timedelta

from scout.diagnosis.advise import Bedside
from scout.diagnosis.conditions import conditions_on, season_on
from scout.diagnosis.evidence import Count, Evidence
from scout.services.context import Context
from scout.services.garden import Planted, site_of

SAME_LOOK_D = 7
"""Findings of the last week are of one bout; older ones belong to the open problem's history. Our choice."""
_WEATHER_BACK_D = 45


def evidence_for(context: Context, plant: Planted) -> Evidence:
    """Return everything the ranking may use for a planting today."""
    from scout.services.outside import circumstances_from_outside
    from scout.services.own_history import own_counts
    from scout.services.weather import days_between
    from scout.services.weather_features import with_features
    from scout.store import findings, plantings

    today = context.today
    since = (today - timedelta(days=SAME_LOOK_D)).isoformat()
    with context.read() as session:
        found = findings.findings_since(session=session, planting_id=plant.planting_id, since=since)
        circumstances = plantings.circumstances(session=session, planting_id=plant.planting_id)
    seen: dict[str, Count] = {}
    not_seen: dict[str, Count] = {}
    for one in found:
        if one.symptom not in context.knowledge.symptoms:
            continue  # from newer knowledge
        mine, other = (seen, not_seen) if one.state == "seen" else (not_seen, seen)
        other.pop(one.symptom, None)
        mine[one.symptom] = Count(one.looked_n, one.affected_n)
    for symptom, count in _looked_clear(context, plant, since).items():
        if symptom not in seen:
            not_seen.setdefault(symptom, count)
    site = site_of(context)
    days = with_features(context, plant, days_between(context, today - timedelta(days=_WEATHER_BACK_D), today))
    return Evidence(
        crop=plant.crop.id,
        on=today,
        stage=plant.stage,
        season=season_on(context.knowledge, today, site.last_frost, site.first_frost),
        seen=seen,
        not_seen=not_seen,
        circumstances=_grown(plant) | circumstances_from_outside(context, plant) | circumstances,
        conditions=conditions_on(context.knowledge, plant.crop.id, today, days),
        own_counts=own_counts(context, plant.crop.id),
    )


def _looked_clear(context: Context, plant: Planted, since: str) -> dict[str, Count]:
    """Return the symptoms that clear looks of the newest visit speak against, with how many plants were looked at.

    A glance speaks only of what shows at a glance.
    """
    from scout.store import walks

    clear: dict[str, Count] = {}
    with context.read() as session:
        stop = walks.newest_stop(session=session, planting_id=plant.planting_id, since=since)
        if stop is None:
            return clear
        answers = walks.look_answers(session=session, stop_id=stop.id)
        cleared = walks.clearances(session=session, stop_id=stop.id)
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
    from scout.services.troubles import open_causes
    from scout.services.weather import heat_ahead, leaves_felt_dry

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


def day_text(day: date) -> str:
    """Return a date as a grower says it."""
    return f"{day.day} {day:%B}"
