"""How the trouble lies in the bed, as far as the garden's own records tell: circumstances nobody needs to be asked."""

from collections.abc import Collection
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.pattern import leaf_circumstances, place_circumstances, share_circumstances
from scout.services.context import Context
from scout.services.course import Told
from scout.services.garden import Planted

if TYPE_CHECKING:
    from scout.store.findings import FindingView

CLEAR_FAMILIES_N = 2
"""So many other families looked at for the same sign and found without it say that it is not on several sorts."""
SUDDEN_D = 2
"""A sign that a clear look did not see so many days before came suddenly."""
FRONT_D = 14
"""Measurements of marked plants this far apart at most tell whether the spots climb."""


def pattern_from_records(context: Context, plant: Planted, told: Told, since: date) -> dict[str, bool]:
    """Return the circumstances that counts, places, other beds, earlier looks and marked plants tell of."""
    lately = [one for one in told.findings if one.state == "seen" and one.observed_at >= since.isoformat()]
    if not lately:
        return {}
    said = _from_counts(plant, lately) | _other_families(context, plant, {one.symptom for one in lately}, since)
    if _was_clear_just_before(context, plant, lately):
        said["sudden"] = True
        if said.get("most_plants"):
            said["whole_bed_at_once"] = True
    return said | _from_marked(context, plant)


def _from_counts(plant: Planted, lately: "list[FindingView]") -> dict[str, bool]:
    """Return what the newest count, the newest places and the newest judged leaves say."""
    newest = lately[-1].observed_at[:10]
    counted = [one for one in lately if one.affected_n and one.looked_n and one.observed_at >= newest]
    said: dict[str, bool] = {}
    if counted:
        most = max(counted, key=lambda one: one.affected_n or 0)
        said |= share_circumstances(most.looked_n, most.affected_n, plant.plants_n)
    said |= place_circumstances(next((one.which_plants for one in reversed(lately) if one.which_plants), None))
    judged = next((one for one in reversed(lately) if one.severity_outer_pct is not None), None)
    if judged is not None:
        thirds = (judged.severity_outer_pct, judged.severity_middle_pct, judged.severity_inner_pct)
        said |= leaf_circumstances(*thirds)
    return said


def _other_families(context: Context, plant: Planted, signs: Collection[str], since: date) -> dict[str, bool]:
    """Return whether the same sign was seen this week on plants of another family."""
    from scout.store import findings

    with context.read() as session:
        elsewhere = findings.seen_elsewhere(
            session=session,
            garden_id=str(context.garden_id),
            planting_id=plant.planting_id,
            since=since.isoformat(),
        )
    families: dict[str, set[str]] = {"seen": set(), "not_seen": set()}
    for crop, symptom, state in elsewhere:
        known = context.knowledge.crops.get(crop)
        if known is not None and known.family != plant.crop.family and symptom in signs:
            families[state].add(known.family)
    if families["seen"]:
        return {"several_species": True}
    return {"several_species": False} if len(families["not_seen"]) >= CLEAR_FAMILIES_N else {}


def _was_clear_just_before(context: Context, plant: Planted, lately: "list[FindingView]") -> bool:
    """Return True when the first sign of this week was looked for, and not there, at most two days before."""
    from scout.services.evidence import clear_at
    from scout.store import walks

    first = lately[0]
    day = date.fromisoformat(first.observed_at[:10])
    since, until = day - timedelta(days=SUDDEN_D), day - timedelta(days=1)
    with context.read() as session:
        stops = walks.stops_between(
            session=session, planting_id=plant.planting_id, since=since.isoformat(), until=until.isoformat()
        )
    return any(first.symptom in clear_at(context, plant, stop.id) for stop in stops)


def _from_marked(context: Context, plant: Planted) -> dict[str, bool]:
    """Return whether the spots climb and keep coming, by the last two visits to the marked plants."""
    from scout.store import marked

    with context.read() as session:
        measured = marked.measurements(session=session, planting_id=plant.planting_id)
    since = (context.today - timedelta(days=FRONT_D)).isoformat()
    by_plant: dict[str, list[tuple[int | None, int | None]]] = {}
    for one in measured:
        if one.observed_at >= since:
            by_plant.setdefault(one.marked_plant_id, []).append((one.highest_diseased, one.newly_diseased))
    rises = [b[0] - a[0] for *_, a, b in (r for r in by_plant.values() if len(r) > 1) if a[0] and b[0]]
    fresh = [a[1] and b[1] for *_, a, b in (r for r in by_plant.values() if len(r) > 1)]
    said = {}
    if rises:
        said["spreading_upward"] = sum(rise > 0 for rise in rises) * 2 > len(rises)
    if fresh and all(fresh):
        said["mixed_ages"] = True
    return said
