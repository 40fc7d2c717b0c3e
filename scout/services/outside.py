"""What reaches the garden from outside: goods brought in, disease reported near; and what that says of a planting."""

import re
from datetime import timedelta
from typing import TYPE_CHECKING

from scout.errors import BadInput
from scout.services.context import Context
from scout.services.garden import Planted

if TYPE_CHECKING:
    from scout.store.records import ArrivalView, NearReportView

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

    goods, reports = _lately(context)
    beds = {bed_id: name for bed_id, name, _ in bed_names(context)}
    names = reportable(context)
    lines = [
        f"{r.reported_on} reported near: {names.get(r.disease, r.disease)}{_far(r.distance_km)}"
        for r in reversed(reports)
    ]
    lines += [f"{g.on} brought in: {g.what}{_where(beds.get(g.bed_id or ''))}" for g in reversed(goods)]
    return tuple(lines)


def circumstances_from_outside(context: Context, plant: Planted) -> dict[str, bool]:
    """Return what arrivals and reports say of a planting. That nothing was noted says nothing, so none is False."""
    goods, reports = _lately(context)
    causes = {cause.id for cause in context.knowledge.causes_of(plant.crop.id)}
    said: dict[str, bool] = {}
    if any(_PLANT_MATTER.search(one.what) and one.bed_id in (None, plant.bed_id) for one in goods):
        said["straw_manure_brought_in"] = True
    if any(one.disease in causes and (one.distance_km or 0.0) <= NEAR_KM for one in reports):
        said["disease_near"] = True
    return said


def _lately(context: Context) -> "tuple[list[ArrivalView], list[NearReportView]]":
    """Return arrivals of this season and reports of the last weeks up to today, oldest first."""
    from scout.store import records

    garden, today = str(context.garden_id), context.today.isoformat()
    with context.read() as session:
        goods = records.arrivals(session=session, garden_id=garden, since=_back(context, SEASON_D))
        reports = records.near_reports(session=session, garden_id=garden, since=_back(context, NEAR_D))
    return [g for g in goods if g.on <= today], [r for r in reports if r.reported_on <= today]


def _back(context: Context, days_n: int) -> str:
    return (context.today - timedelta(days=days_n)).isoformat()


def _far(distance_km: float | None) -> str:
    return f", {distance_km:g} km away" if distance_km is not None else ""


def _where(bed: str | None) -> str:
    return f" ({bed})" if bed else ""
