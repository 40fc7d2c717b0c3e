"""Questions about what was seen."""

from dataclasses import dataclass
from typing import Any

from sqlalchemy import func, select
from sqlmodel import Session, col

from scout.store.plantings import end_of
from scout.store.tables_walk import FindingRow
from scout.store.views import first_view, select_view, views

BedFinding = tuple[str, str, str, int | None, int | None]
"""observed_at, symptom, state, looked_n, affected_n."""


@dataclass(frozen=True)
class FindingView:
    """One finding."""

    id: str
    stop_id: str | None
    planting_id: str
    bed_id: str | None
    symptom: str
    state: str
    looked_n: int | None
    affected_n: int | None
    severity_outer_pct: float | None
    severity_middle_pct: float | None
    severity_inner_pct: float | None
    place: str | None
    which_plants: str | None
    note: str
    manner: str
    observed_at: str
    observed_offset_min: int | None


@dataclass(frozen=True)
class Tally:
    """How often a symptom was noted in a bed."""

    bed_id: str | None
    symptom: str
    seen_n: int
    last_at: str


def finding(*, session: Session, finding_id: str) -> FindingView | None:
    """Return one finding, or None."""
    query = select_view(FindingView, FindingRow).where(col(FindingRow.id) == finding_id)
    return first_view(session, FindingView, query)


def findings_since(*, session: Session, planting_id: str, since: str) -> tuple[FindingView, ...]:
    """Return the findings of a planting from the day `since` on, oldest first."""
    query = select_view(FindingView, FindingRow).where(
        col(FindingRow.planting_id) == planting_id, col(FindingRow.observed_at) >= since
    )
    return views(session, FindingView, query.order_by(col(FindingRow.observed_at), col(FindingRow.id)))


def findings_of_stop(*, session: Session, stop_id: str) -> tuple[FindingView, ...]:
    """Return the findings of one stop, oldest first."""
    query = select_view(FindingView, FindingRow).where(col(FindingRow.stop_id) == stop_id)
    return views(session, FindingView, query.order_by(col(FindingRow.observed_at), col(FindingRow.id)))


def last_finding(*, session: Session, planting_id: str) -> FindingView | None:
    """Return the newest finding of a planting, or None."""
    return first_view(session, FindingView, _newest_first(planting_id))


def last_note(*, session: Session, planting_id: str) -> FindingView | None:
    """Return the newest finding of a planting that carries a note, or None."""
    return first_view(session, FindingView, _newest_first(planting_id).where(col(FindingRow.note) != ""))


def last_findings(*, session: Session, garden_id: str, since: str) -> dict[str, FindingView]:
    """Return the newest finding seen on each planting from the day `since` on, by planting id."""
    query = select_view(FindingView, FindingRow).where(
        col(FindingRow.garden_id) == garden_id,
        col(FindingRow.state) == "seen",
        col(FindingRow.observed_at) >= since,
    )
    query = query.order_by(col(FindingRow.observed_at), col(FindingRow.id))
    return {found.planting_id: found for found in views(session, FindingView, query)}


def last_of_bed(*, session: Session, bed_id: str, limit: int = 200) -> tuple[BedFinding, ...]:
    """Return the newest findings of a bed as plain tuples, newest first."""
    return tuple(tuple(row) for row in session.connection().execute(last_of_bed_query(bed_id, limit)))


def last_of_bed_query(bed_id: str, limit: int) -> Any:
    """Return the statement of `last_of_bed`, so that a test can ask the engine for its plan."""
    row = FindingRow
    columns = (col(row.observed_at), col(row.symptom), col(row.state), col(row.looked_n), col(row.affected_n))
    query = select(*columns).where(col(row.bed_id) == bed_id)
    return query.order_by(col(row.observed_at).desc()).limit(limit)


def tallies(*, session: Session, garden_id: str, since: str, until: str) -> tuple[Tally, ...]:
    """Return how often each symptom was seen in each bed from the day `since` to the day `until`."""
    row = FindingRow
    query: Any = (
        select(col(row.bed_id), col(row.symptom), func.count(), func.max(col(row.observed_at)))
        .where(col(row.garden_id) == garden_id, col(row.state) == "seen")
        .where(col(row.observed_at) >= since, col(row.observed_at) < end_of(until))
        .group_by(col(row.bed_id), col(row.symptom))
        .order_by(col(row.bed_id), col(row.symptom))
    )
    return views(session, Tally, query)


def _newest_first(planting_id: str) -> Any:
    query = select_view(FindingView, FindingRow).where(col(FindingRow.planting_id) == planting_id)
    return query.order_by(
        col(FindingRow.observed_at).desc(), col(FindingRow.entered_at).desc(), col(FindingRow.id).desc()
    )
