"""Pictures: taken in upright, small and without place; shown as coloured half blocks."""

from dataclasses import dataclass
from pathlib import Path

from scout import paths
from scout.services.context import Context

Cell = tuple[tuple[int, int, int], tuple[int, int, int]]


@dataclass(frozen=True)
class PhotoView:
    """One picture that was taken in."""

    id: str
    file: Path
    taken_at: str | None
    drawing: bool
    note: str


def attach(
    context: Context, source: Path, owner_kind: str, owner_id: str, *, note: str = "", drawing: bool = False
) -> str:
    """Take in a picture for a stop, finding, planting or bed; return its id.

    The same picture for the same owner twice is kept once; its file goes when its row is refused.
    """
    from scout.photos.taking import take_in
    from scout.store import photos
    from scout.store.tables_log import Photo

    photo_id = context.new_id()
    folder = paths.photos(context.root)
    folder.mkdir(parents=True, exist_ok=True)
    taken = take_in(source, folder, name=photo_id)
    with context.read() as session:
        mine = photos.photos_of(session=session, owner_kind=owner_kind, owner_id=owner_id)
    same = next((photo.id for photo in mine if photo.sha256 == taken.sha256), None)
    if same is not None:
        (folder / taken.file).unlink(missing_ok=True)
        return same
    try:
        with context.write() as tx:
            return tx.add(
                Photo,
                row_id=photo_id,
                owner_kind=owner_kind,
                owner_id=owner_id,
                file=taken.file,
                sha256=taken.sha256,
                taken_at=taken.taken_at[:16] if taken.taken_at else None,  # to the minute, as all moments are kept
                taken_offset_min=taken.taken_offset_min,
                width=taken.width,
                height=taken.height,
                drawing=drawing,
                note=note,
            )
    except BaseException:
        (folder / taken.file).unlink(missing_ok=True)
        raise


def photos_of(context: Context, owner_kind: str, owner_id: str) -> tuple[PhotoView, ...]:
    """Return the pictures of one owner."""
    from scout.store import photos

    folder = paths.photos(context.root)
    with context.read() as session:
        found = photos.photos_of(session=session, owner_kind=owner_kind, owner_id=owner_id)
    return tuple(PhotoView(p.id, folder / p.file, p.taken_at, p.drawing, p.note) for p in found)


def in_inbox(context: Context) -> tuple[Path, ...]:
    """Return new pictures in the watched folder, oldest first."""
    from scout.photos.inbox import inbox_files

    chosen = context.settings.inbox
    folder = Path(chosen).expanduser() if chosen else paths.inbox(context.root)
    folder.mkdir(parents=True, exist_ok=True)
    return inbox_files(folder)


def cells(file: Path, columns: int, rows: int) -> tuple[tuple[Cell, ...], ...]:
    """Return a picture as rows of (upper colour, lower colour) for the half block."""
    from scout.photos.cells import half_blocks

    return half_blocks(file, columns, rows)
