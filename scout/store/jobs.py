"""Questions about jobs, open problems, outcomes and holds."""

from dataclasses import dataclass

from scout.store.asking import Door, first, found, rows, select


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
class ResultView:
    """How one job came out."""

    control: str | None
    cause: str | None
    verdict: str
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


_JOB, _TROUBLE, _HOLD = select(JobView, "job"), select(TroubleView, "trouble"), select(HoldView, "hold")


def job(*, session: Door, job_id: str) -> JobView | None:
    """Return one job, or None."""
    return first(session, JobView, f"{_JOB} WHERE id = :job", job=job_id)


def open_jobs(*, session: Door, garden_id: str, due_until: str | None = None) -> tuple[JobView, ...]:
    """Return open jobs, the longest due first; with a day, those due by then."""
    by_then = "" if due_until is None else "AND due_on <= :until"
    sql = f"{_JOB} WHERE garden_id = :garden AND state = 'open' {by_then} ORDER BY due_on, id"
    return found(session, JobView, sql, garden=garden_id, until=due_until)


def never_taken_up(*, session: Door, garden_id: str, since: str) -> tuple[tuple[str, str], ...]:
    """Return title and day of what was put away without ever being a planting's job, from the day `since` on."""
    sql = """
        SELECT title, due_on FROM job WHERE garden_id = :garden AND state = 'skipped' AND due_on >= :since
        AND planting_id IS NULL AND control IS NULL
    """
    return tuple((str(title), str(on)) for title, on in rows(session, sql, garden=garden_id, since=since))


def looks_due(*, session: Door, garden_id: str, due_until: str) -> tuple[JobView, ...]:
    """Return done jobs whose result is to be looked at by a day and is not told yet, longest due first."""
    sql = f"""
        {_JOB} WHERE garden_id = :garden AND state = 'done' AND look_again_on <= :until
        AND NOT EXISTS (SELECT 1 FROM outcome WHERE outcome.job_id = job.id AND verdict <> 'cannot_tell')
        ORDER BY look_again_on, id
    """
    return found(session, JobView, sql, garden=garden_id, until=due_until)


def jobs_of(*, session: Door, planting_id: str) -> tuple[JobView, ...]:
    """Return every job of a planting, oldest due day first."""
    return found(session, JobView, f"{_JOB} WHERE planting_id = :planting ORDER BY due_on, id", planting=planting_id)


def open_troubles(*, session: Door, garden_id: str, planting_id: str | None = None) -> tuple[TroubleView, ...]:
    """Return open problems, oldest first; of one planting where it is named."""
    of_one = "" if planting_id is None else "AND planting_id = :planting"
    sql = f"{_TROUBLE} WHERE garden_id = :garden AND state = 'open' {of_one} ORDER BY opened_on, id"
    return found(session, TroubleView, sql, garden=garden_id, planting=planting_id)


def troubles(*, session: Door, garden_id: str) -> tuple[TroubleView, ...]:
    """Return every problem ever followed, oldest first."""
    return found(session, TroubleView, f"{_TROUBLE} WHERE garden_id = :garden ORDER BY opened_on, id", garden=garden_id)


def outcomes(*, session: Door, garden_id: str) -> tuple[OutcomeView, ...]:
    """Return every outcome, oldest first."""
    sql = f"{select(OutcomeView, 'outcome')} WHERE garden_id = :garden ORDER BY observed_at, id"
    return found(session, OutcomeView, sql, garden=garden_id)


def hold(*, session: Door, hold_id: str) -> HoldView | None:
    """Return one hold, or None."""
    return first(session, HoldView, f"{_HOLD} WHERE id = :hold", hold=hold_id)


def results_of(*, session: Door, planting_id: str) -> tuple[ResultView, ...]:
    """Return how the jobs of a planting came out, oldest first."""
    sql = f"""
        {select(ResultView, "outcome", control="job.control", cause="job.cause")}
        JOIN job ON job.id = outcome.job_id WHERE job.planting_id = :planting
        ORDER BY outcome.observed_at, outcome.id
    """
    return found(session, ResultView, sql, planting=planting_id)


def holds(*, session: Door, garden_id: str, at: str) -> tuple[HoldView, ...]:
    """Return the holds that stand at a moment; one without an end stands until it is given one."""
    sql = f"""
        {_HOLD} WHERE garden_id = :garden
        AND (until_at IS NULL OR until_at >= :day OR re_entry_until_at >= :day)
        ORDER BY until_at, id
    """
    return tuple(
        one
        for one in found(session, HoldView, sql, garden=garden_id, day=at[:10])
        if one.until_at is None or stands(one.until_at, at) or stands(one.re_entry_until_at, at)
    )


def stands(end: str | None, at: str) -> bool:
    """Return whether an end still lies ahead at a moment; one that names a day alone stands through that day."""
    return end is not None and (end >= at[:10] if len(end) == 10 else end > at)
