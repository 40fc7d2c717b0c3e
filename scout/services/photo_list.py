"""Pictures by name: whose they are, which there are, and one of them to look at."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from scout import paths
from scout.errors import BadInput, NotFound
from scout.plain import clean_text
from scout.services.context import Context
from scout.services.garden import bed_names, planted
from scout.services.named import bed_named, full_name, planting_named, said
from scout.services.spoken_walk import stop_here

if TYPE_CHECKING:
    from scout.store.photos import PhotoView


@dataclass(frozen=True)
class KeptPhoto:
    """One picture that was taken in."""

    id: str
    owner: str
    """What it shows: a bed, a planting, a stop."""
    taken_at: str | None
    width: int
    height: int
    drawing: bool
    note: str


@dataclass(frozen=True)
class Picture:
    """One picture to look at."""

    file: Path
    label: str
    width: int
    height: int


def owner_named(context: Context, bed: str | None, stop: str | None, planting: str | None) -> tuple[str, str]:
    """Return kind and id of what a picture is to belong to; exactly one of the three is to be named."""
    given = [name for name in (bed, stop, planting) if name is not None]
    if len(given) != 1:
        raise BadInput("Say what the picture shows with one of --bed NAME, --stop current or --planting NAME.")
    if bed is not None:
        return "bed", bed_named(context, bed)
    if planting is not None:
        return "planting", planting_named(context, planting).planting_id
    return "stop", _stop(context, str(stop))


def _stop(context: Context, words: str) -> str:
    from scout.store import walks

    if words == "current":
        return stop_here(context).id
    with context.read() as session:
        found = walks.stop(session=session, stop_id=words)
    if found is None:
        raise NotFound(f"There is no stop {said(words)}; write --stop current for the one where the walk stands.")
    return found.id


def kept_photos(context: Context, owner: tuple[str, str] | None = None) -> tuple[KeptPhoto, ...]:
    """Return the pictures of the garden, or of one owner, in the order they were taken in."""
    from scout.store import photos

    with context.read() as session:
        found = photos.photos(session=session, garden_id=str(context.garden_id))
    names = {bed_id: name for bed_id, name, _ in bed_names(context)}
    names |= {one.planting_id: full_name(one) for one in planted(context)}
    mine = [photo for photo in found if owner is None or (photo.owner_kind, photo.owner_id) == owner]
    return tuple(_kept(photo, names) for photo in mine)


def _kept(photo: "PhotoView", names: dict[str, str]) -> KeptPhoto:
    owner = f"{photo.owner_kind.replace('_', ' ')} {names.get(photo.owner_id, '')}".strip()
    return KeptPhoto(photo.id, owner, photo.taken_at, photo.width, photo.height, photo.drawing, photo.note)


def photo_line(photo: KeptPhoto) -> str:
    """Return a kept picture as one line."""
    drawing = ", drawing" if photo.drawing else ""
    note = f", {clean_text(photo.note)}" if photo.note else ""
    when = photo.taken_at or "time not known"
    return f"{photo.id}  {photo.owner}, {when}, {photo.width} × {photo.height}{drawing}{note}"


def picture(context: Context, words: str) -> Picture:
    """Return a picture by the path of a file or the id of one that was taken in. Errors: PhotoError, NotFound."""
    from scout.services.site import open_garden

    file = Path(words).expanduser()
    if _is_file(file):
        return _looked_into(file)
    kept = kept_photos(context) if open_garden(context) is not None else ()
    for photo in kept:
        if photo.id == words.strip().lower():
            label = clean_text(photo.note) or photo.owner
            folder = paths.photos(context.root)
            return Picture(folder / _file_of(context, photo.id), label, photo.width, photo.height)
    raise NotFound(f"There is no file and no picture {said(words)}; 'bedwalk photo list' prints the ids.")


def _is_file(file: Path) -> bool:
    try:
        return file.exists()
    except (OSError, ValueError):  # a name far too long, or with a character no name may have
        return False


def _file_of(context: Context, photo_id: str) -> str:
    from scout.store import photos

    with context.read() as session:
        found = photos.photo(session=session, photo_id=photo_id)
    return found.file if found else ""


def _looked_into(file: Path) -> Picture:
    from scout.photos.opening import opened, read_original

    original = read_original(file)
    with opened(original) as image:
        return Picture(file, original.name, image.width, image.height)


def ansi_lines(cells: tuple[tuple[tuple[tuple[int, int, int], tuple[int, int, int]], ...], ...]) -> list[str]:
    """Return rows of half blocks as text with colour codes, each line set back to plain at its end."""
    return ["".join(_ansi(upper, lower) for upper, lower in row) + "\x1b[0m" for row in cells]


def _ansi(upper: tuple[int, int, int], lower: tuple[int, int, int]) -> str:
    (r, g, b), (x, y, z) = upper, lower
    return f"\x1b[38;2;{r};{g};{b};48;2;{x};{y};{z}m▀"
