"""Pictures drawn for these tests."""

from io import BytesIO
from pathlib import Path

from PIL import Image

RED, BLUE, GREEN, WHITE = (220, 20, 20), (20, 20, 220), (20, 160, 20), (250, 250, 250)
XMP = (
    b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
    b'<rdf:Description xmlns:exif="http://ns.adobe.com/exif/1.0/" exif:GPSLatitude="48,12.5N"/>'
    b"</rdf:RDF></x:xmpmeta>"
)


def quartered(width: int = 240, height: int = 160) -> Image.Image:
    """Red top left, blue top right, green bottom left, white bottom right."""
    image = Image.new("RGB", (width, height), WHITE)
    image.paste(RED, (0, 0, width // 2, height // 2))
    image.paste(BLUE, (width // 2, 0, width, height // 2))
    image.paste(GREEN, (0, height // 2, width // 2, height))
    return image


def exif(orientation: int = 1, taken: str | None = None, offset: str | None = None, place: bool = False) -> bytes:
    made = Image.Exif()
    made[0x0112] = orientation
    made[0x010F] = "OwnerCamera"
    inner = made.get_ifd(0x8769)
    inner[0x927C] = b"MAKERNOTE-SECRET"
    if taken:
        inner[0x9003] = taken
    if offset:
        inner[0x9011] = offset
    if place:
        gps = made.get_ifd(0x8825)
        gps[1], gps[2], gps[3], gps[4] = "N", (48.0, 12.0, 30.5), "E", (11.0, 30.0, 0.0)
        gps[0x1D] = "2026:07:20"
    return made.tobytes()


def saved(path: Path, image: Image.Image | None = None, **options: object) -> Path:
    (image or quartered()).save(path, **options)
    return path


def encoded(image: Image.Image | None = None, kind: str = "JPEG", **options: object) -> bytes:
    out = BytesIO()
    (image or quartered()).save(out, kind, **options)
    return out.getvalue()


def look(path: Path) -> Image.Image:
    """Open from memory, so that no file stays open behind a test."""
    return Image.open(BytesIO(path.read_bytes()))
