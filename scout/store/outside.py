"""Questions about what was brought into the garden, and what is reported near it."""

from dataclasses import dataclass

from sqlmodel import Session, col

from scout.store.tables_log import BroughtInRow, NearReportRow
from scout.store.views import select_view, views


@dataclass(frozen=True)
class BroughtInView:
    """One arrival."""

    what: str
    bed_id: str | None
    on: str


@dataclass(frozen=True)
class NearReportView:
    """One report of a disease near the garden."""

    disease: str
    distance_km: float | None
    reported_on: str


def brought_in(*, session: Session, since: str, until: str) -> tuple[BroughtInView, ...]:
    """Return what came in between two days, the newest first."""
    day = col(BroughtInRow.on)
    query = select_view(BroughtInView, BroughtInRow).where(day >= since, day <= until)
    return views(session, BroughtInView, query.order_by(day.desc(), col(BroughtInRow.id)))


def near_reports(*, session: Session, since: str, until: str) -> tuple[NearReportView, ...]:
    """Return what was reported near between two days, the newest first."""
    day = col(NearReportRow.reported_on)
    query = select_view(NearReportView, NearReportRow).where(day >= since, day <= until)
    return views(session, NearReportView, query.order_by(day.desc(), col(NearReportRow.id)))
