"""Questions about plantings: what stands where, how many plants, how it is grown."""

from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, and_, func
from sqlmodel import Session, col, select

from scout.store.tables_garden import BedRow, CircumstanceRow, PlantCountRow, PlantingBedRow, PlantingRow
from scout.store.views import first_view, select_view, views


@dataclass(frozen=True)
class PlantingView:
    """One planting."""

    id: str
    crop: str
    variety_label: str | None
    variety_found: str | None
    identity: str
    origin: str
    habit: str | None
    sown_on: str | None
    set_out_on: str | None
    removed_on: str | None
    removed_why: str | None
    stage_override: str | None
    note: str


@dataclass(frozen=True)
class PlaceView:
    """A planting in a bed, for a time."""

    id: str
    planting_id: str
    bed_id: str
    from_on: str
    until_on: str | None


@dataclass(frozen=True)
class CountView:
    """How many plants stood on a day."""

    planting_id: str
    counted_on: str
    plants_n: int


def planting(*, session: Session, planting_id: str) -> PlantingView | None:
    """Return one planting, or None."""
    query = select_view(PlantingView, PlantingRow).where(col(PlantingRow.id) == planting_id)
    return first_view(session, PlantingView, query)


def plantings(*, session: Session, garden_id: str, on: str | None = None) -> tuple[PlantingView, ...]:
    """Return plantings, oldest first; with a day `on`, those in the ground or in a tray on that day."""
    query = select_view(PlantingView, PlantingRow).where(col(PlantingRow.garden_id) == garden_id)
    if on is not None:
        query = query.where(_not_removed(on))
    return views(session, PlantingView, query.order_by(col(PlantingRow.sown_on), col(PlantingRow.id)))


def places(*, session: Session, garden_id: str, on: str) -> tuple[PlaceView, ...]:
    """Return which planting stands in which bed on a day, in walking order."""
    place = PlantingBedRow
    query = (
        select_view(PlaceView, place)
        .join(BedRow, col(BedRow.id) == col(place.bed_id))
        .join(PlantingRow, col(PlantingRow.id) == col(place.planting_id))
        .where(col(place.garden_id) == garden_id, col(place.from_on) <= on, _not_removed(on))
        .where(col(place.until_on).is_(None) | (col(place.until_on) >= on))
        .where(col(BedRow.retired_on).is_(None) | (col(BedRow.retired_on) > on))
        .order_by(col(BedRow.position), col(BedRow.name), col(place.from_on), col(place.id))
    )
    return views(session, PlaceView, query)


def places_of(*, session: Session, planting_id: str) -> tuple[PlaceView, ...]:
    """Return every place a planting ever had, first to last."""
    query = select_view(PlaceView, PlantingBedRow).where(col(PlantingBedRow.planting_id) == planting_id)
    return views(session, PlaceView, query.order_by(col(PlantingBedRow.from_on), col(PlantingBedRow.id)))


def grown_in(*, session: Session, bed_id: str) -> tuple[PlaceView, ...]:
    """Return everything that ever stood in a bed, first to last: what rotation asks."""
    query = select_view(PlaceView, PlantingBedRow).where(col(PlantingBedRow.bed_id) == bed_id)
    return views(session, PlaceView, query.order_by(col(PlantingBedRow.from_on), col(PlantingBedRow.id)))


def plant_counts(*, session: Session, garden_id: str, on: str) -> dict[str, CountView]:
    """Return the newest count of each planting up to a day, by planting id."""
    query = select_view(CountView, PlantCountRow).where(
        col(PlantCountRow.garden_id) == garden_id, col(PlantCountRow.counted_on) <= on
    )
    query = query.order_by(col(PlantCountRow.counted_on), col(PlantCountRow.entered_at), col(PlantCountRow.id))
    return {count.planting_id: count for count in views(session, CountView, query)}


def circumstances(*, session: Session, planting_id: str, until: str | None = None) -> dict[str, bool]:
    """Return how a planting is grown: the newest answer to each question, up to the end of a day `until`."""
    row = CircumstanceRow
    query = select(row.circumstance, row.value).where(col(row.planting_id) == planting_id)
    if until is not None:
        query = query.where(col(row.observed_at) < end_of(until))
    query = query.order_by(col(row.observed_at), col(row.entered_at), col(row.id))
    return {name: bool(value) for name, value in session.connection().execute(query)}


def end_of(day: str) -> str:
    """Return a text that sorts after every moment of that day and before the next."""
    return f"{day}U"


def _not_removed(on: str) -> ColumnElement[Any]:
    removed = col(PlantingRow.removed_on)
    begun = func.coalesce(col(PlantingRow.sown_on), col(PlantingRow.set_out_on))
    return and_(removed.is_(None) | (removed > on), begun.is_(None) | (begun <= on))
