"""Questions about pictures, and the one erasure there is."""

from dataclasses import dataclass

from scout.errors import NotFound
from scout.store.asking import Door, first, found, select
from scout.store.history import Transaction
from scout.store.tables import table_of
from scout.store.tables_history import Tombstone


@dataclass(frozen=True)
class PhotoView:
    """One picture."""

    id: str
    owner_kind: str
    owner_id: str
    file: str
    sha256: str
    taken_at: str | None
    taken_offset_min: int | None
    width: int
    height: int
    drawing: bool
    note: str


@dataclass(frozen=True)
class TombstoneView:
    """What was erased, and why."""

    entity: str
    row_id: str
    why: str
    entered_at: str


_PHOTO = select(PhotoView, "photo")


def photo(*, session: Door, photo_id: str) -> PhotoView | None:
    """Return one picture, or None."""
    return first(session, PhotoView, f"{_PHOTO} WHERE id = :photo", photo=photo_id)


def photos_of(*, session: Door, owner_kind: str, owner_id: str) -> tuple[PhotoView, ...]:
    """Return the pictures of one owner in the order they were taken in."""
    sql = f"{_PHOTO} WHERE owner_kind = :kind AND owner_id = :owner ORDER BY id"
    return found(session, PhotoView, sql, kind=owner_kind, owner=owner_id)


def photos(*, session: Door, garden_id: str) -> tuple[PhotoView, ...]:
    """Return every picture of a garden in the order they were taken in."""
    return found(session, PhotoView, f"{_PHOTO} WHERE garden_id = :garden ORDER BY id", garden=garden_id)


def tombstones(*, session: Door, garden_id: str) -> tuple[TombstoneView, ...]:
    """Return what was erased for good, first to last."""
    sql = f"{select(TombstoneView, 'tombstone')} WHERE garden_id = :garden ORDER BY entered_at, id"
    return found(session, TombstoneView, sql, garden=garden_id)


def erase_photo(tx: Transaction, photo_id: str, *, why: str) -> str:
    """Erase a picture's row and what the history holds of it; return its file name, for the caller to delete.

    A tombstone stays, so that another device erases it too. This cannot be undone.
    """
    row = tx.row("photo", photo_id)
    if row is None:
        raise NotFound(f"There is no photo with the id {photo_id}.")
    tx.remove("photo", photo_id)
    change = table_of("change")
    scrub = change.update().where(change.c.entity == "photo", change.c.row_id == photo_id)
    tx.session.connection().execute(scrub.values(before=None, after=None))
    tx.add_silently(Tombstone, entity="photo", row_id=photo_id, why=why)
    return str(row["file"])
