"""What one planting brings to its stop: last visit, open problems, holds, marked plants due, today's pick."""

from dataclasses import dataclass
from datetime import timedelta

from scout.diagnosis.due import Pass, group_of
from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.last_visit import last_visit
from scout.services.troubles import open_causes

MARKED_EVERY_D = 3
"""Days after which a marked plant is measured again: the visits of a leaf-spot season lie 3-7 days apart."""


@dataclass(frozen=True)
class StopFacts:
    """What is known before the first look."""

    group: Pass
    last_visit: tuple[str, ...]
    holds: tuple[str, ...]
    troubles: tuple[str, ...]
    going_on: str | None
    """Since when signs are seen, and on how many plants, where no problem was named yet and it did not begin today."""
    marked_due: int
    jobs: tuple[str, ...]
    """What is to be done here, or looked at again, by today."""
    picks: tuple[int, int]
    pick_lines: tuple[str, ...]


def facts_of(context: Context, plant: Planted) -> StopFacts:
    """Return the facts of a planting today."""
    from scout.services.course import course_line, told_of
    from scout.services.holds import at_bed
    from scout.services.pick_tally import pick_tally

    causes, picks = open_causes(context, plant.planting_id), _picks(context, plant.planting_id)
    told = told_of(context, plant.planting_id)
    going_on = course_line(told)
    earlier = told.course if told.course and told.course.since < context.today else None
    return StopFacts(
        group=group_of(plant.stage, causes),
        last_visit=last_visit(context, plant.planting_id),
        holds=at_bed(context, plant),
        troubles=tuple(f"{cause.name}, {going_on}" if going_on else cause.name for cause in causes),
        going_on=None if causes or earlier is None else going_on,
        marked_due=_marked_due(context, plant.planting_id),
        jobs=_jobs(context, plant.planting_id),
        picks=picks,
        pick_lines=pick_tally(context, plant).lines if any(picks) else (),
    )


def _marked_due(context: Context, planting_id: str) -> int:
    from scout.store import marked

    with context.read() as session:
        plants = marked.marked_plants(session=session, planting_id=planting_id)
        if not plants:
            return 0
        measured = marked.measurements(session=session, planting_id=planting_id)
    last = {one.marked_plant_id: one.observed_at[:10] for one in measured}
    due = (context.today - timedelta(days=MARKED_EVERY_D)).isoformat()
    return sum(last.get(plant.id, "") <= due for plant in plants)


def _jobs(context: Context, planting_id: str) -> tuple[str, ...]:
    from scout.services.troubles import job_lines

    due = job_lines(context, context.today, planting_id=planting_id)
    return tuple(f"{'Did it work' if job.look_again else 'To do'}: {job.title}" for job in due)


def _picks(context: Context, planting_id: str) -> tuple[int, int]:
    from scout.store import records

    day = context.today.isoformat()
    with context.read() as session:
        mine = records.picks(
            session=session, garden_id=str(context.garden_id), since=day, until=day, planting_id=planting_id
        )
    return sum(pick.sound_n for pick in mine), sum(pick.odd_n for pick in mine)
