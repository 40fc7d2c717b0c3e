"""The one thing that is erased for good: a picture, such as one with a person in it."""

from dataclasses import dataclass

from scout import paths
from scout.errors import NotFound, PhotoError
from scout.services.context import Context
from scout.services.named import said

WHY = "a person is in it"

STAYS = "The file it was taken from, and copies handed out, are yours to delete."


@dataclass(frozen=True)
class Erased:
    """One picture that was erased, when, and why."""

    id: str
    erased_at: str
    why: str


def erase(context: Context, words: str, why: str = WHY) -> tuple[str, ...]:
    """Erase a picture by its id: the file, its row, and what the history says of it.

    Returns the ids under which the very same picture is still kept, for another bed or stop.

    That it was erased, and why, is kept. It cannot be undone. Where the file cannot be deleted nothing is erased.
    Errors: NotFound, PhotoError.
    """
    from scout.store import photos

    photo_id = words.strip().lower()
    with context.read() as session:
        kept = photos.photos(session=session, garden_id=str(context.garden_id))
    mine = next((photo for photo in kept if photo.id == photo_id), None)
    if mine is None:
        raise NotFound(f"There is no picture {said(words)}; 'bedwalk photo list' prints the ids.")
    with context.write() as tx:  # the file goes first: a row without a file can be erased again, a file alone not
        file = paths.photos(context.root) / photos.erase_photo(tx, photo_id, why=why.strip() or WHY)
        try:
            file.unlink(missing_ok=True)
        except OSError as error:
            reason = (error.strerror or "the system gave no reason").lower()
            raise PhotoError(f"{file} cannot be deleted: {reason}; nothing was erased.") from None
    return tuple(photo.id for photo in kept if photo.sha256 == mine.sha256 and photo is not mine)


def erased(context: Context) -> tuple[Erased, ...]:
    """Return what was erased, first to last."""
    from scout.store import photos

    with context.read() as session:
        found = photos.tombstones(session=session, garden_id=str(context.garden_id))
    return tuple(Erased(one.row_id, one.entered_at, one.why) for one in found)
