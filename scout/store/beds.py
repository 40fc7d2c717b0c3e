"""Questions about the garden, its site and its beds."""

from dataclasses import dataclass

from scout.store.asking import Door, first, found, select


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


_BED = select(BedView, "bed")


def gardens(*, session: Door) -> tuple[NamedView, ...]:
    """Return every garden of this file or server, oldest first."""
    return found(session, NamedView, f"{select(NamedView, 'garden')} ORDER BY id")


def devices(*, session: Door, garden_id: str) -> tuple[NamedView, ...]:
    """Return the devices that write into a garden, oldest first."""
    sql = f"{select(NamedView, 'device')} WHERE garden_id = :garden ORDER BY id"
    return found(session, NamedView, sql, garden=garden_id)


def site(*, session: Door, garden_id: str) -> SiteView | None:
    """Return the garden's site, or None while it is not set."""
    sql = f"{select(SiteView, 'site')} WHERE garden_id = :garden ORDER BY entered_at DESC, id DESC"
    return first(session, SiteView, sql, garden=garden_id)


def bed(*, session: Door, bed_id: str) -> BedView | None:
    """Return one bed, or None."""
    return first(session, BedView, f"{_BED} WHERE id = :bed", bed=bed_id)


def beds_named(*, session: Door, garden_id: str, name: str) -> tuple[BedView, ...]:
    """Return the beds of that name, whatever its capitals; those still in use first."""
    sql = f"{_BED} WHERE garden_id = :garden AND lower(name) = lower(:name) ORDER BY retired_on IS NOT NULL, position"
    return found(session, BedView, sql, garden=garden_id, name=name)


def beds_in_order(*, session: Door, garden_id: str, on: str | None = None) -> tuple[BedView, ...]:
    """Return beds in walking order; with a day `on`, only those not retired by then."""
    in_use = "" if on is None else "AND (retired_on IS NULL OR retired_on > :day)"
    sql = f"{_BED} WHERE garden_id = :garden {in_use} ORDER BY position, name, id"
    return found(session, BedView, sql, garden=garden_id, day=on)
