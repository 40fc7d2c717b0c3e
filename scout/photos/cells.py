"""A picture as coloured half cells of a terminal."""

from pathlib import Path

from PIL import Image

from scout.photos.exif import read_kept
from scout.photos.opening import opened, read_original
from scout.photos.taking import upright

Colour = tuple[int, int, int]
Cell = tuple[Colour, Colour]
"""Upper and lower half, for drawing ▀ with the upper as foreground and the lower as background."""


def half_blocks(file: Path, columns: int, max_rows: int) -> tuple[tuple[Cell, ...], ...]:
    """Return rows of cells that show the picture within `columns` × `max_rows`, its shape kept.

    Valid: columns and max_rows from 1. Errors: ValueError outside that; PhotoError when it cannot be opened.
    """
    if columns < 1 or max_rows < 1:
        raise ValueError("a picture needs at least one column and one row")
    with opened(read_original(file)) as image:
        kept = read_kept(image)
        longest = 2 * max(columns, 2 * max_rows)
        image.draft("RGB", (longest, longest))
        image.load()
        pixels = upright(image, kept)
    return _cells(pixels.resize(_fitting(pixels.size, columns, max_rows), Image.Resampling.BOX))


def _fitting(size: tuple[int, int], columns: int, max_rows: int) -> tuple[int, int]:
    """Return the size in half cells, which are about square: one cell is twice as high as it is wide."""
    scale = min(columns / size[0], 2 * max_rows / size[1])
    rows = min(max_rows, max(1, round(size[1] * scale / 2)))
    return min(columns, max(1, round(size[0] * scale))), 2 * rows


def _cells(pixels: Image.Image) -> tuple[tuple[Cell, ...], ...]:
    raw, stride = pixels.tobytes(), 3 * pixels.width
    lines = [_colours(raw[at : at + stride]) for at in range(0, len(raw), stride)]
    return tuple(tuple(zip(upper, lower, strict=True)) for upper, lower in zip(lines[::2], lines[1::2], strict=True))


def _colours(line: bytes) -> list[Colour]:
    return list(zip(line[::3], line[1::3], line[2::3], strict=True))
