"""Questions about jobs, open problems, outcomes and holds."""

from dataclasses import dataclass

from sqlmodel import Session, col

from scout.store.tables_follow import HoldRow, JobRow, OutcomeRow, TroubleRow
from scout.store.views import first_view, select_view, views


@dataclass(frozen=True)
class JobView:
    """One job."""

    id: str
    planting_id: str | None
    bed_id: str | None
    control: str | None
    cause: str | None
    trouble_id: str | None
    title: str
    due_on: str
    state: str
    skipped_why: str | None
    done_at: str | None
    look_again_on: str | None
    stop_id: str | None


@dataclass(frozen=True)
class TroubleView:
    """One problem that is followed."""

    id: str
    planting_id: str
    cause: str | None
    title: str
    opened_on: str
    closed_on: str | None
    state: str


@dataclass(frozen=True)
class OutcomeView:
    """Whether something worked, and what says so."""

    id: str
    job_id: str | None
    trouble_id: str | None
    verdict: str
    sign: str
    note: str
    observed_at: str


@dataclass(frozen=True)
class HoldView:
    """Do not eat, do not enter."""

    id: str
    planting_id: str
    reason: str
    until_at: str | None
    re_entry_until_at: str | None
    note: str
    applied_at: str | None
    harvest_interval_d: int | None
    re_entry_h: int | None


def job(*, session: Session, job_id: str) -> JobView | None:
    """Return one job, or None."""
    return first_view(session, JobView, select_view(JobView, JobRow).where(col(JobRow.id) == job_id))


def open_jobs(*, session: Session, garden_id: str, due_until: str | None = None) -> tuple[JobView, ...]:
    """Return open jobs, the longest due first; with a day, those due by then."""
    query = select_view(JobView, JobRow).where(col(JobRow.garden_id) == garden_id, col(JobRow.state) == "open")
    if due_until is not None:
        query = query.where(col(JobRow.due_on) <= due_until)
    return views(session, JobView, query.order_by(col(JobRow.due_on), col(JobRow.id)))


def looks_due(*, session: Session, garden_id: str, due_until: str) -> tuple[JobView, ...]:
    """Return done jobs whose result is to be looked at by a day and has no outcome yet, longest due first."""
    judged = select_view(OutcomeView, OutcomeRow).with_only_columns(col(OutcomeRow.job_id))
    judged = judged.where(col(OutcomeRow.job_id).is_not(None))
    query = select_view(JobView, JobRow).where(
        col(JobRow.garden_id) == garden_id,
        col(JobRow.state) == "done",
        col(JobRow.look_again_on) <= due_until,
        col(JobRow.id).not_in(judged),
    )
    return views(session, JobView, query.order_by(col(JobRow.look_again_on), col(JobRow.id)))


def jobs_of(*, session: Session, planting_id: str) -> tuple[JobView, ...]:
    """Return every job of a planting, oldest due day first."""
    query = select_view(JobView, JobRow).where(col(JobRow.planting_id) == planting_id)
    return views(session, JobView, query.order_by(col(JobRow.due_on), col(JobRow.id)))


def open_troubles(*, session: Session, garden_id: str, planting_id: str | None = None) -> tuple[TroubleView, ...]:
    """Return open problems, oldest first; of one planting where it is named."""
    query = select_view(TroubleView, TroubleRow).where(
        col(TroubleRow.garden_id) == garden_id, col(TroubleRow.state) == "open"
    )
    if planting_id is not None:
        query = query.where(col(TroubleRow.planting_id) == planting_id)
    return views(session, TroubleView, query.order_by(col(TroubleRow.opened_on), col(TroubleRow.id)))


def troubles(*, session: Session, garden_id: str) -> tuple[TroubleView, ...]:
    """Return every problem ever followed, oldest first."""
    query = select_view(TroubleView, TroubleRow).where(col(TroubleRow.garden_id) == garden_id)
    return views(session, TroubleView, query.order_by(col(TroubleRow.opened_on), col(TroubleRow.id)))


def outcomes(*, session: Session, garden_id: str) -> tuple[OutcomeView, ...]:
    """Return every outcome, oldest first."""
    query = select_view(OutcomeView, OutcomeRow).where(col(OutcomeRow.garden_id) == garden_id)
    return views(session, OutcomeView, query.order_by(col(OutcomeRow.observed_at), col(OutcomeRow.id)))


def hold(*, session: Session, hold_id: str) -> HoldView | None:
    """Return one hold, or None."""
    return first_view(session, HoldView, select_view(HoldView, HoldRow).where(col(HoldRow.id) == hold_id))


def holds(*, session: Session, garden_id: str, at: str) -> tuple[HoldView, ...]:
    """Return the holds that stand at a moment; one without an end stands until it is given one.

    An end that names a day alone stands through that day.
    """
    row, day = HoldRow, at[:10]
    query = select_view(HoldView, row).where(
        col(row.garden_id) == garden_id,
        col(row.until_at).is_(None) | (col(row.until_at) >= day) | (col(row.re_entry_until_at) >= day),
    )
    found = views(session, HoldView, query.order_by(col(row.until_at), col(row.id)))
    return tuple(
        one for one in found if one.until_at is None or _stands(one.until_at, at) or _stands(one.re_entry_until_at, at)
    )


def _stands(end: str | None, at: str) -> bool:
    return end is not None and end >= (at[:10] if len(end) == 10 else at)
