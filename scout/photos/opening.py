"""Open a picture from outside, or say in one sentence why it cannot be opened."""

import hashlib
import io
import struct
import threading
import warnings
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, UnidentifiedImageError

from scout.errors import PhotoError
from scout.photos.heic import as_png, is_heic
from scout.plain import shortened

SUFFIXES = frozenset({".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif"})
KINDS = "JPEG, PNG, WebP or HEIC"
MAX_PIXELS = 8192 * 6144
"""About 50 MP: the largest frame of an ordinary phone; anything larger can fill the memory of one."""
MAX_BYTES = 100_000_000
UNREADABLE = (
    OSError, SyntaxError, ValueError, TypeError, KeyError, IndexError, AttributeError, EOFError,
    RuntimeError, MemoryError, struct.error, zlib.error,
)  # fmt: skip
"""What Pillow and its plug-ins raise on damaged bytes; they promise no common type."""

_one_at_a_time = threading.Lock()


@dataclass(frozen=True, slots=True)
class Original:
    """The bytes of a picture, read once, so that what is hashed is what is decoded."""

    name: str
    """The file's name, cleaned, for sentences only."""
    content: bytes

    @property
    def sha256(self) -> str:
        """Return the SHA-256 of the bytes in hexadecimal."""
        return hashlib.sha256(self.content).hexdigest()


def read_original(source: Path) -> Original:
    """Return the bytes of `source`; PhotoError when it is no readable file of a sensible size."""
    name = shortened(source.name, 60)
    if source.is_dir():
        raise PhotoError(f"{name!r} is a folder; name a picture in it.")
    try:
        size = source.stat().st_size
        if size > MAX_BYTES:
            raise PhotoError(f"{name!r} is larger than {MAX_BYTES // 1_000_000} MB; send a smaller copy.")
        content = source.read_bytes() if size else b""
    except FileNotFoundError:
        raise PhotoError(f"There is no picture {name!r}; check the name and the folder.") from None
    except (OSError, ValueError):
        raise PhotoError(f"{name!r} cannot be read; check that the file may be opened.") from None
    if not content:
        raise PhotoError(f"{name!r} is empty; copy it again from the phone or camera.")
    return Original(name, content)


@contextmanager
def opened(original: Original) -> Iterator[Image.Image]:
    """Give the picture, its header read and its pixels not; PhotoError for all that goes wrong inside."""
    content = original.content
    if is_heic(content):
        content = as_png(content, original.name, MAX_PIXELS)
    try:
        with _quietly(), Image.open(io.BytesIO(content), formats=["JPEG", "PNG", "WEBP"]) as image:
            _refuse_huge(image, original.name)
            yield image
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise _too_large(original.name) from None
    except UnidentifiedImageError:
        raise PhotoError(f"{original.name!r} is not a {KINDS} picture, or it is damaged.") from None
    except UNREADABLE:
        raise PhotoError(f"{original.name!r} is cut short or damaged; copy it again.") from None


@contextmanager
def _quietly() -> Iterator[None]:
    """Make Pillow's warning of a huge picture an error and keep its others off the screen, for now only.

    The lock keeps two pictures opened in two threads from putting back each other's filters.
    """
    with _one_at_a_time, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        yield


def _refuse_huge(image: Image.Image, name: str) -> None:
    if image.width * image.height > MAX_PIXELS:
        raise _too_large(name)


def _too_large(name: str) -> PhotoError:
    return PhotoError(f"{name!r} has more than {MAX_PIXELS // 1_000_000} million pixels; send a smaller copy.")
