"""Take a picture in: upright, small, dated, and without the place it was taken at."""

import errno
import os
import re
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from scout.errors import PhotoError
from scout.photos.exif import Kept, read_kept, rebuilt
from scout.photos.opening import opened, read_original

LONGEST = 1600
"""Pixels on the longer side: enough to see a 2 mm spot on a leaf that fills the frame."""
QUALITY = 85
_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,79}(\.jpg)?")


@dataclass(frozen=True, slots=True)
class TakenPhoto:
    """A picture as it now lies in the grower's folder."""

    file: str
    """File name inside the folder."""
    sha256: str
    """Of the original's bytes: two equal ones are the same picture."""
    taken_at: str | None
    """Local wall time by the camera's clock, ISO 8601; None when the picture does not say."""
    taken_offset_min: int | None
    """Minutes east of UTC; None when the picture does not say."""
    width: int
    height: int


def take_in(source: Path, into: Path, *, name: str) -> TakenPhoto:
    """Keep `source` as JPEG in the folder `into` under the generated `name`; the original stays as it is.

    At most 1600 pixels on the longer side, upright, with the time taken and no other EXIF, no XMP, no comment.
    Errors: PhotoError with one sentence for the grower; ValueError when `name` is not a generated name.
    """
    if not _NAME.fullmatch(name):
        raise ValueError("a kept picture's name is generated: letters, digits, - and _ only")
    original = read_original(source)
    with opened(original) as image:
        kept = read_kept(image)
        _decode_small(image)
        pixels = upright(image, kept)
    file = into / (name if name.endswith(".jpg") else f"{name}.jpg")
    _save(pixels, file, kept, QUALITY)
    return TakenPhoto(file.name, original.sha256, kept.taken_at, kept.offset_min, pixels.width, pixels.height)


def stripped_copy(file: Path, to: Path) -> Path:
    """Write a full-size JPEG copy of the picture `file` as `to` for handing on, and return `to`.

    Upright, with the time taken and never with place, owner, maker notes, XMP or comment. PhotoError as `take_in`.
    """
    with opened(read_original(file)) as image:
        kept = read_kept(image)
        image.load()
        pixels = upright(image, kept)
    _save(pixels, to, kept, 92)
    return to


def _decode_small(image: Image.Image) -> None:
    """Decode to at most LONGEST pixels; a JPEG is decoded at a half, quarter or eighth where that suffices."""
    share = min(1.0, LONGEST / max(image.size))
    target = (max(1, round(image.width * share)), max(1, round(image.height * share)))
    image.draft("RGB", target)  # by both sides: asked for a square, it would stop one halving early
    image.load()
    image.thumbnail((LONGEST, LONGEST), reducing_gap=None)


def upright(image: Image.Image, kept: Kept) -> Image.Image:
    """Return a new RGB picture that carries nothing of the original but its pixels and colour profile."""
    profile = image.info.get("icc_profile") if image.mode == "RGB" else None
    pixels = _rgb(image)
    pixels = pixels.transpose(kept.turn) if kept.turn is not None else pixels.copy()
    pixels.info = {"icc_profile": profile} if profile else {}  # Pillow writes comment and XMP found in here
    return pixels


def _rgb(image: Image.Image) -> Image.Image:
    if image.mode == "RGB":
        return image
    if image.mode.startswith("I"):  # 16-bit grey; a plain convert would clip it to white
        return image.convert("I").point(lambda value: value / 256).convert("L").convert("RGB")
    if image.has_transparency_data:
        layered = image.convert("RGBA")
        white = Image.new("RGBA", layered.size, "white")
        return Image.alpha_composite(white, layered).convert("RGB")
    return image.convert("RGB")


def _save(pixels: Image.Image, file: Path, kept: Kept, quality: int) -> None:
    """Write beside the goal and move into place, so that a half-written picture never has the final name."""
    part = file.with_name(f".{file.stem}.part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with part.open("wb") as out:
            pixels.save(out, "JPEG", quality=quality, exif=rebuilt(kept) if kept.taken_at else b"")
            out.flush()
            os.fsync(out.fileno())
        os.replace(part, file)
    except OSError as error:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        raise PhotoError(_not_saved(error)) from None


def _not_saved(error: OSError) -> str:
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return "The picture could not be kept because the disk is full; free some space and take it in again."
    return "The picture could not be kept; check that the folder for pictures may be written to."
