"""Questions about what was counted, before and after jobs and against marks."""

from dataclasses import dataclass

from scout.store.asking import Door, found, select


@dataclass(frozen=True)
class CountedView:
    """One count."""

    id: str
    planting_id: str
    job_id: str | None
    what: str
    mark: str | None
    way: str
    unit: str
    phase: str
    untreated: bool
    counted_n: int
    looked_n: int
    each: str | None
    observed_at: str


_COUNTED = select(CountedView, "counted")


def counts_of_job(*, session: Door, job_id: str) -> tuple[CountedView, ...]:
    """Return every count before and after a job, oldest first."""
    return found(session, CountedView, f"{_COUNTED} WHERE job_id = :job ORDER BY observed_at, id", job=job_id)
