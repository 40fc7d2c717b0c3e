"""Questions about what is logged along the way: picks, water, arrivals, reports, natural enemies."""

from dataclasses import dataclass

from sqlmodel import Session, col

from scout.store.plantings import end_of
from scout.store.tables_log import BroughtInRow, EnemySeenRow, NearReportRow, PickRow, WateringRow
from scout.store.views import select_view, views


@dataclass(frozen=True)
class PickView:
    """One pick of one planting."""

    id: str
    planting_id: str
    sound_n: int
    odd_n: int
    weight_g: float | None
    observed_at: str


@dataclass(frozen=True)
class WateringView:
    """What happened to the water."""

    id: str
    water_zone: str | None
    bed_id: str | None
    outcome: str
    observed_at: str


@dataclass(frozen=True)
class ArrivalView:
    """What came in from outside."""

    id: str
    what: str
    bed_id: str | None
    on: str


@dataclass(frozen=True)
class NearReportView:
    """A disease reported near here."""

    id: str
    disease: str
    distance_km: float | None
    reported_on: str


@dataclass(frozen=True)
class EnemyView:
    """A natural enemy seen."""

    id: str
    planting_id: str
    enemy: str
    count_n: int | None
    observed_at: str


def picks(*, session: Session, garden_id: str, since: str, until: str) -> tuple[PickView, ...]:
    """Return the picks from the day `since` to the day `until`, oldest first."""
    query = select_view(PickView, PickRow).where(col(PickRow.garden_id) == garden_id)
    query = query.where(col(PickRow.observed_at) >= since, col(PickRow.observed_at) < end_of(until))
    return views(session, PickView, query.order_by(col(PickRow.observed_at), col(PickRow.id)))


def waterings(*, session: Session, garden_id: str, since: str, until: str) -> tuple[WateringView, ...]:
    """Return what was noted of the water from the day `since` to the day `until`, oldest first."""
    row = WateringRow
    query = select_view(WateringView, row).where(col(row.garden_id) == garden_id)
    query = query.where(col(row.observed_at) >= since, col(row.observed_at) < end_of(until))
    return views(session, WateringView, query.order_by(col(row.observed_at), col(row.id)))


def arrivals(*, session: Session, garden_id: str, since: str) -> tuple[ArrivalView, ...]:
    """Return what came in from the day `since` on, oldest first."""
    row = BroughtInRow
    query = select_view(ArrivalView, row).where(col(row.garden_id) == garden_id, col(row.on) >= since)
    return views(session, ArrivalView, query.order_by(col(row.on), col(row.id)))


def near_reports(*, session: Session, garden_id: str, since: str) -> tuple[NearReportView, ...]:
    """Return the diseases reported near here from the day `since` on, oldest first."""
    row = NearReportRow
    query = select_view(NearReportView, row).where(col(row.garden_id) == garden_id)
    query = query.where(col(row.reported_on) >= since)
    return views(session, NearReportView, query.order_by(col(row.reported_on), col(row.id)))


def enemies_seen(*, session: Session, planting_id: str, since: str) -> tuple[EnemyView, ...]:
    """Return the natural enemies seen on a planting from the day `since` on, oldest first."""
    row = EnemySeenRow
    query = select_view(EnemyView, row).where(col(row.planting_id) == planting_id)
    query = query.where(col(row.observed_at) >= since)
    return views(session, EnemyView, query.order_by(col(row.observed_at), col(row.id)))
