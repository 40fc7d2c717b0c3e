"""What reaches the garden from outside: goods brought in, disease reported near; and what that says of a planting."""

import re
from datetime import timedelta

from scout.errors import BadInput
from scout.services.context import Context
from scout.services.garden import Planted

SEASON_D = 180
"""Straw, manure or compost brought in this long ago still counts. Our choice: about one growing season."""
NEAR_D = 30
"""A report of disease counts this long. Our choice: some cycles of the disease."""
NEAR_KM = 80.0
"""A report from farther away does not count; spores ride storms over tens of kilometres. Our choice, no source."""
GOODS = ("straw or hay", "manure", "compost", "plants", "soil or potting mix")
_PLANT_MATTER = re.compile(r"straw|hay|manure|compost|clipping", re.IGNORECASE)


def note_brought_in(context: Context, what: str, bed_id: str | None = None) -> str:
    """Keep what came into the garden today, and into which bed if only one; return its id."""
    from scout.store.tables_log import BroughtIn

    with context.write() as tx:
        return tx.add(BroughtIn, what=what, bed_id=bed_id, on=context.today.isoformat())


def note_near_report(context: Context, disease: str, distance_km: float | None = None) -> str:
    """Keep that a disease is reported near the garden today; raises BadInput for one that is not known."""
    from scout.store.tables_log import NearReport

    if disease not in reportable(context):
        known = ", ".join(reportable(context).values())
        raise BadInput(f"Reports near by are kept for diseases that travel: {known}.")
    with context.write() as tx:
        return tx.add(NearReport, disease=disease, distance_km=distance_km, reported_on=context.today.isoformat())


def reportable(context: Context) -> dict[str, str]:
    """Return id → name of the diseases for which a report near by speaks."""
    causes = context.knowledge.causes.values()
    return {c.id: c.name for c in causes if any(clue.circumstance == "disease_near" for clue in c.clues)}


def outside_lines(context: Context) -> tuple[str, ...]:
    """Return what came in and what was reported lately, a line each, the newest first."""
    from scout.services.garden import bed_names
    from scout.store import outside

    today = context.today
    with context.read() as session:
        goods = outside.brought_in(session=session, since=_back(context, SEASON_D), until=today.isoformat())
        reports = outside.near_reports(session=session, since=_back(context, NEAR_D), until=today.isoformat())
    beds = {bed_id: name for bed_id, name, _ in bed_names(context)}
    names = reportable(context)
    lines = [f"{r.reported_on} reported near: {names.get(r.disease, r.disease)}{_far(r.distance_km)}" for r in reports]
    lines += [f"{g.on} brought in: {g.what}{_where(beds.get(g.bed_id or ''))}" for g in goods]
    return tuple(lines)


def circumstances_from_outside(context: Context, plant: Planted) -> dict[str, bool]:
    """Return what arrivals and reports say of a planting. That nothing was noted says nothing, so none is False."""
    from scout.store import outside

    until = context.today.isoformat()
    with context.read() as session:
        goods = outside.brought_in(session=session, since=_back(context, SEASON_D), until=until)
        reports = outside.near_reports(session=session, since=_back(context, NEAR_D), until=until)
    causes = {cause.id for cause in context.knowledge.causes_of(plant.crop.id)}
    said: dict[str, bool] = {}
    if any(_PLANT_MATTER.search(one.what) and one.bed_id in (None, plant.bed_id) for one in goods):
        said["straw_manure_brought_in"] = True
    if any(one.disease in causes and (one.distance_km or 0.0) <= NEAR_KM for one in reports):
        said["disease_near"] = True
    return said


def _back(context: Context, days_n: int) -> str:
    return (context.today - timedelta(days=days_n)).isoformat()


def _far(distance_km: float | None) -> str:
    return f", {distance_km:g} km away" if distance_km is not None else ""


def _where(bed: str | None) -> str:
    return f" ({bed})" if bed else ""
