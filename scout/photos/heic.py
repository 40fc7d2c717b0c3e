"""HEIC, the kind of picture many phones write, turned into one that Pillow reads by itself."""

import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

from scout.errors import PhotoError

MAX_SECONDS = 60
_TOO_LARGE = 3
_CHILD = Path(__file__).with_name("heic_child.py")
_BRANDS = frozenset({b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"})
"""Brands of ISO/IEC 23008-12 that stand at bytes 8-11 of the file."""


def is_heic(content: bytes) -> bool:
    """Tell whether the bytes begin like a HEIC picture."""
    return content[4:8] == b"ftyp" and content[8:12] in _BRANDS


def as_png(content: bytes, name: str, max_pixels: int) -> bytes:
    """Return the picture as PNG bytes with its EXIF; PhotoError, with `name` in it, when that fails."""
    if find_spec("pi_heif") is None:
        raise PhotoError(
            f"{name!r} is a HEIC picture: install its reader with `pip install pi-heif`, or let the phone save JPEG."
        )
    command = [sys.executable, "-I", str(_CHILD), str(max_pixels)]
    try:
        done = subprocess.run(command, input=content, capture_output=True, timeout=MAX_SECONDS, check=False)
    except subprocess.TimeoutExpired:
        raise PhotoError(f"{name!r} took too long to open; let the phone save JPEG.") from None
    except OSError:
        raise PhotoError(f"{name!r} is HEIC and cannot be opened here; let the phone save JPEG.") from None
    if done.returncode == _TOO_LARGE:
        raise PhotoError(f"{name!r} has too many pixels; send a smaller copy.")
    if done.returncode != 0:
        raise PhotoError(f"{name!r} is cut short or damaged; copy it again.")
    return done.stdout
