"""Questions about pictures, and the one erasure there is."""

from dataclasses import dataclass

from sqlmodel import Session, col

from scout.errors import NotFound
from scout.store.history import Transaction
from scout.store.tables import table_of
from scout.store.tables_history import Tombstone, TombstoneRow
from scout.store.tables_log import PhotoRow
from scout.store.views import first_view, select_view, views


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


def photo(*, session: Session, photo_id: str) -> PhotoView | None:
    """Return one picture, or None."""
    return first_view(session, PhotoView, select_view(PhotoView, PhotoRow).where(col(PhotoRow.id) == photo_id))


def photos_of(*, session: Session, owner_kind: str, owner_id: str) -> tuple[PhotoView, ...]:
    """Return the pictures of one owner in the order they were taken in."""
    query = select_view(PhotoView, PhotoRow).where(
        col(PhotoRow.owner_kind) == owner_kind, col(PhotoRow.owner_id) == owner_id
    )
    return views(session, PhotoView, query.order_by(col(PhotoRow.id)))


def photos(*, session: Session, garden_id: str) -> tuple[PhotoView, ...]:
    """Return every picture of a garden in the order they were taken in."""
    query = select_view(PhotoView, PhotoRow).where(col(PhotoRow.garden_id) == garden_id)
    return views(session, PhotoView, query.order_by(col(PhotoRow.id)))


def photo_with_content(*, session: Session, garden_id: str, sha256: str) -> PhotoView | None:
    """Return the picture that was already taken in with this content, or None."""
    query = select_view(PhotoView, PhotoRow).where(col(PhotoRow.garden_id) == garden_id, col(PhotoRow.sha256) == sha256)
    return first_view(session, PhotoView, query)


def tombstones(*, session: Session, garden_id: str) -> tuple[TombstoneView, ...]:
    """Return what was erased for good, first to last."""
    query = select_view(TombstoneView, TombstoneRow).where(col(TombstoneRow.garden_id) == garden_id)
    return views(session, TombstoneView, query.order_by(col(TombstoneRow.entered_at), col(TombstoneRow.id)))


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
