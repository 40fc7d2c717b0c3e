"""What is kept of a picture's EXIF: when it was taken and which way is up. Never where."""

import re
from dataclasses import dataclass
from datetime import datetime

from PIL import Image

from scout.photos.opening import UNREADABLE

_ORIENTATION, _EXIF_IFD = 0x0112, 0x8769
_TAKEN, _OFFSET = 0x9003, 0x9011
_STAMP = re.compile(r"(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)")
_ZONE = re.compile(r"([+-])(\d\d):(\d\d)")

_UPRIGHT = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
"""EXIF 2.32 table of Orientation: the turn that undoes each value."""


@dataclass(frozen=True, slots=True)
class Kept:
    """What is read of a picture's EXIF; None where the camera did not write it."""

    taken_at: str | None
    """Local wall time, such as "2026-07-20T06:41:12"."""
    offset_min: int | None
    """Minutes east of UTC."""
    turn: Image.Transpose | None


def read_kept(image: Image.Image) -> Kept:
    """Return when and which way up; a damaged EXIF block reads as nothing known."""
    try:
        exif = image.getexif()
        turn = _UPRIGHT.get(int(exif.get(_ORIENTATION, 1)))
        ifd = exif.get_ifd(_EXIF_IFD)
        return Kept(_taken(ifd.get(_TAKEN)), _offset(ifd.get(_OFFSET)), turn)
    except UNREADABLE:
        return Kept(None, None, None)


def rebuilt(kept: Kept) -> bytes:
    """Return a new EXIF block that holds the time taken and its offset, and nothing else."""
    exif = Image.Exif()
    if kept.taken_at is not None:
        ifd = exif.get_ifd(_EXIF_IFD)
        ifd[_TAKEN] = kept.taken_at.replace("-", ":").replace("T", " ")
        if kept.offset_min is not None:
            sign, minutes = ("-" if kept.offset_min < 0 else "+"), abs(kept.offset_min)
            ifd[_OFFSET] = f"{sign}{minutes // 60:02d}:{minutes % 60:02d}"
    return exif.tobytes()


def _taken(value: object) -> str | None:
    match = _STAMP.fullmatch(value.strip("\x00 ")) if isinstance(value, str) else None
    if match is None:
        return None
    text = f"{match[1]}-{match[2]}-{match[3]}T{match[4]}"
    try:
        return datetime.fromisoformat(text).isoformat()
    except ValueError:  # cameras without a set clock write 0000:00:00
        return None


def _offset(value: object) -> int | None:
    match = _ZONE.fullmatch(value.strip("\x00 ")) if isinstance(value, str) else None
    if match is None:
        return None
    minutes = int(match[2]) * 60 + int(match[3])
    if minutes > 14 * 60 or int(match[3]) > 59:
        return None
    return -minutes if match[1] == "-" else minutes
