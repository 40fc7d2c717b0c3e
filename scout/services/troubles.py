"""Open problems and the jobs that follow from a control: due, done, look again."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.errors import NotFound
from scout.knowledge.cause_file import Cause
from scout.plain import day_text
from scout.services.context import Context
from scout.services.garden import planted

if TYPE_CHECKING:
    from scout.store.jobs import JobView


@dataclass(frozen=True)
class JobLine:
    """One job as a row."""

    id: str
    bed: str
    title: str
    due_on: str
    overdue: bool
    look_again: bool
    """True: the job is done and its result is to be looked at."""
    planting_id: str | None = None
    labelled: bool = False
    """True: a labelled product, after which its label's days and hours are asked for."""
    crop: str = ""


def open_causes(context: Context, planting_id: str) -> tuple[Cause, ...]:
    """Return the causes of a planting's open problems."""
    from scout.store import jobs

    with context.read() as session:
        found = jobs.open_troubles(session=session, garden_id=str(context.garden_id), planting_id=planting_id)
    causes = context.knowledge.causes
    return tuple(causes[trouble.cause] for trouble in found if trouble.cause in causes)


def open_causes_by_planting(context: Context) -> dict[str, tuple[Cause, ...]]:
    """Return planting id → causes of its open problems, for the whole garden in one question."""
    from scout.store import jobs

    with context.read() as session:
        found = jobs.open_troubles(session=session, garden_id=str(context.garden_id))
    causes = context.knowledge.causes
    grouped: dict[str, tuple[Cause, ...]] = {}
    for trouble in found:
        if trouble.cause in causes:
            grouped[trouble.planting_id] = (*grouped.get(trouble.planting_id, ()), causes[trouble.cause])
    return grouped


def take_control(
    context: Context, planting_id: str, bed_id: str, stop_id: str | None, cause_id: str, control_id: str, when: str
) -> str:
    """Open (or go on with) the problem, make the control a job, and return what is due when, as a sentence."""
    from scout.store import jobs
    from scout.store.tables_follow import Job, Trouble

    cause, control = context.knowledge.causes[cause_id], context.knowledge.controls[control_id]
    today = context.today
    due = today if when == "today" else today + timedelta(days=7)
    again = due + timedelta(days=max(1, round(min(control.look_again_d[0], cause.look_again_d))))
    with context.write() as tx:
        going = jobs.open_troubles(session=tx.session, garden_id=str(context.garden_id), planting_id=planting_id)
        trouble_id = next((trouble.id for trouble in going if trouble.cause == cause_id), None)
        if trouble_id is None:
            since = opened_on(context, planting_id)
            trouble_id = tx.add(
                Trouble, planting_id=planting_id, cause=cause_id, title=cause.name, opened_on=since.isoformat()
            )
        tx.add(
            Job,
            planting_id=planting_id,
            bed_id=bed_id,
            control=control_id,
            cause=cause_id,
            trouble_id=trouble_id,
            title=control.name,
            due_on=due.isoformat(),
            look_again_on=again.isoformat(),
            stop_id=stop_id,
        )
    return f"{control.name}: due {day_text(due)}, look again {day_text(again)}."


def opened_on(context: Context, planting_id: str) -> date:
    """Return the day on which the signs of a planting's open problem were first seen; today where none were."""
    from scout.services.course import told_of

    course = told_of(context, planting_id).course
    return course.since if course else context.today


def job_lines(
    context: Context, due_until: date | None = None, *, by_bed: bool = False, planting_id: str | None = None
) -> tuple[JobLine, ...]:
    """Return open jobs and results to look at, the longest due first, or in walking order of their beds.

    planting_id: only those of one planting.
    """
    from scout.store import jobs

    until = (due_until or context.today + timedelta(days=365)).isoformat()
    today = context.today.isoformat()
    bed_of, crop_of = {}, {}
    for one in planted(context):
        bed_of[one.planting_id], crop_of[one.planting_id] = one.bed, one.crop.name
    place = {bed: number for number, bed in enumerate(bed_of.values())} if by_bed else {}
    with context.read() as session:
        todo = jobs.open_jobs(session=session, garden_id=str(context.garden_id), due_until=until)
        looks = jobs.looks_due(session=session, garden_id=str(context.garden_id), due_until=until)

    def line(job: "JobView", due: str, again: bool) -> JobLine:
        bed = bed_of.get(job.planting_id or "", "garden")
        labelled = context.knowledge.control_kind.get(job.control or "") == "labelled"
        crop = crop_of.get(job.planting_id or "", "")
        return JobLine(job.id, bed, job.title, due, due < today, again, job.planting_id, labelled, crop)

    lines = [line(job, job.due_on, False) for job in todo]
    lines += [line(job, job.look_again_on or today, True) for job in looks]
    lines = [one for one in lines if planting_id in (None, one.planting_id)]
    return tuple(sorted(lines, key=lambda line: (place.get(line.bed, len(place)), line.due_on, line.bed)))


def add_job(context: Context, title: str, due_on: date, planting_id: str | None = None) -> str:
    """Keep a job of the grower's own, of one planting or of the whole garden; return its id. Errors: BadInput."""
    from scout.store.tables_follow import Job

    with context.write() as tx:
        return tx.add(Job, title=title, due_on=due_on.isoformat(), planting_id=planting_id)


def job_done(context: Context, job_id: str, *, again_in_d: int | None = None) -> None:
    """Note that a job was done now; its re-look moves with it. `again_in_d`: it is to be done again then."""
    from scout.store import jobs
    from scout.store.tables_follow import Job

    today = context.today
    with context.write() as tx:
        job = jobs.job(session=tx.session, job_id=job_id)
        if job is None:
            raise NotFound("This job was taken back.")
        wait = _wait_d(job)
        look = None if wait is None else (today + timedelta(days=wait)).isoformat()
        tx.update(Job, job_id, state="done", done_at=context.moment()[0], look_again_on=look)
        if again_in_d is not None:
            due = today + timedelta(days=again_in_d)
            again = None if wait is None else (due + timedelta(days=wait)).isoformat()
            kept = {name: getattr(job, name) for name in _REPEATED}
            tx.add(Job, **kept, due_on=due.isoformat(), look_again_on=again)


_REPEATED = ("planting_id", "bed_id", "control", "cause", "trouble_id", "title")


def _wait_d(job: "JobView") -> int | None:
    """Return the days from the day a job is due to its re-look."""
    if job.look_again_on is None:
        return None
    return max(1, (date.fromisoformat(job.look_again_on) - date.fromisoformat(job.due_on)).days)


def again_after_d(context: Context, job_id: str) -> int:
    """Return after how many days a job like this is usually done again: its control's re-look."""
    from scout.store import jobs

    with context.read() as session:
        job = jobs.job(session=session, job_id=job_id)
    control = context.knowledge.controls.get(job.control or "") if job else None
    return max(1, round(control.look_again_d[0])) if control else 7


def job_skipped(context: Context, job_id: str, why: str) -> None:
    """Note that a job will not be done, and why."""
    from scout.store.tables_follow import Job

    with context.write() as tx:
        tx.update(Job, job_id, state="skipped", skipped_why=why)


def judged(context: Context, job_id: str, verdict: str, sign: str = "later_course") -> None:
    """Note whether a done job worked: yes, no or cannot_tell. A yes closes its problem, a cannot_tell looks again."""
    from scout.store import jobs
    from scout.store.tables_follow import Job, Outcome, Trouble

    at, offset = context.moment()
    with context.write() as tx:
        job = jobs.job(session=tx.session, job_id=job_id)
        if job is None:
            raise NotFound("This job was taken back.")
        tx.add(Outcome, job_id=job_id, verdict=verdict, sign=sign, note="", observed_at=at, observed_offset_min=offset)
        if verdict == "yes" and job.trouble_id is not None:
            tx.update(Trouble, job.trouble_id, state="closed", closed_on=context.today.isoformat())
        if verdict == "cannot_tell":
            tx.update(Job, job_id, look_again_on=_next_look(context, job).isoformat())


def _next_look(context: Context, job: "JobView") -> date:
    """Return when to look again: after the control's days, and not before a count can tell."""
    from scout.services.job_outcome import tells_from

    control = context.knowledge.controls.get(job.control or "")
    usual = context.today + timedelta(days=max(1, round(control.look_again_d[0])) if control else 7)
    done = date.fromisoformat(job.done_at[:10]) if job.done_at else context.today
    tells = tells_from(context.knowledge.causes.get(job.cause or ""), done)
    return max(usual, tells) if tells else usual


def worked_when(context: Context, job_id: str) -> tuple[str, ...]:
    """Return what to count and the tell-tale of a job's control."""
    from scout.store import jobs

    with context.read() as session:
        job = jobs.job(session=session, job_id=job_id)
    control = context.knowledge.controls.get(job.control or "") if job else None
    return (f"Count: {control.count}", f"It worked when: {control.worked}") if control else ()
