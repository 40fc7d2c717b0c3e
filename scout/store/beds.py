"""Questions about the garden, its site and its beds."""

from dataclasses import dataclass

from sqlalchemy import func
from sqlmodel import Session, col

from scout.store.tables_garden import BedRow, DeviceRow, GardenRow, SiteRow
from scout.store.views import first_view, select_view, views


@dataclass(frozen=True)
class NamedView:
    """A garden or a device."""

    id: str
    name: str


@dataclass(frozen=True)
class SiteView:
    """Where the garden lies."""

    id: str
    latitude: float | None
    longitude: float | None
    zone: str
    units: str
    first_frost: str | None
    last_frost: str | None


@dataclass(frozen=True)
class BedView:
    """One bed or tub."""

    id: str
    name: str
    kind: str
    position: int
    water_zone: str | None
    note: str
    retired_on: str | None


def gardens(*, session: Session) -> tuple[NamedView, ...]:
    """Return every garden of this file or server, oldest first."""
    return views(session, NamedView, select_view(NamedView, GardenRow).order_by(col(GardenRow.id)))


def devices(*, session: Session, garden_id: str) -> tuple[NamedView, ...]:
    """Return the devices that write into a garden, oldest first."""
    query = select_view(NamedView, DeviceRow).where(col(DeviceRow.garden_id) == garden_id)
    return views(session, NamedView, query.order_by(col(DeviceRow.id)))


def site(*, session: Session, garden_id: str) -> SiteView | None:
    """Return the garden's site, or None while it is not set."""
    query = select_view(SiteView, SiteRow).where(col(SiteRow.garden_id) == garden_id)
    return first_view(session, SiteView, query.order_by(col(SiteRow.entered_at).desc(), col(SiteRow.id).desc()))


def bed(*, session: Session, bed_id: str) -> BedView | None:
    """Return one bed, or None."""
    return first_view(session, BedView, select_view(BedView, BedRow).where(col(BedRow.id) == bed_id))


def beds_named(*, session: Session, garden_id: str, name: str) -> tuple[BedView, ...]:
    """Return the beds of that name, whatever its capitals; those still in use first."""
    query = select_view(BedView, BedRow).where(col(BedRow.garden_id) == garden_id)
    query = query.where(func.lower(col(BedRow.name)) == func.lower(name))
    return views(session, BedView, query.order_by(col(BedRow.retired_on).is_not(None), col(BedRow.position)))


def beds_in_order(*, session: Session, garden_id: str, on: str | None = None) -> tuple[BedView, ...]:
    """Return beds in walking order; with a day `on`, only those not retired by then."""
    query = select_view(BedView, BedRow).where(col(BedRow.garden_id) == garden_id)
    if on is not None:
        query = query.where(col(BedRow.retired_on).is_(None) | (col(BedRow.retired_on) > on))
    return views(session, BedView, query.order_by(col(BedRow.position), col(BedRow.name), col(BedRow.id)))
