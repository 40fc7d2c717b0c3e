from pathlib import Path

import pytest
from PIL import Image

from scout.errors import PhotoError
from scout.photos.cells import half_blocks
from tests.photos.drawn import BLUE, GREEN, RED, WHITE, exif, quartered, saved


def _near(found: tuple[int, int, int], colour: tuple[int, int, int]) -> bool:
    return all(abs(one - other) < 25 for one, other in zip(found, colour, strict=True))


def test_the_corners_show_the_colours_of_the_picture(tmp_path: Path) -> None:
    rows = half_blocks(saved(tmp_path / "a.jpg", quartered(800, 800)), 40, 20)
    assert (len(rows), len(rows[0])) == (20, 40)
    assert _near(rows[0][0][0], RED) and _near(rows[0][-1][0], BLUE)
    assert _near(rows[-1][0][1], GREEN) and _near(rows[-1][-1][1], WHITE)


def test_upper_and_lower_half_of_one_cell_differ_where_the_picture_does(tmp_path: Path) -> None:
    image = Image.new("RGB", (2, 2), RED)
    image.paste(BLUE, (0, 1, 2, 2))
    ((cell, _),) = half_blocks(saved(tmp_path / "a.png", image), 2, 5)
    assert cell == (RED, BLUE)


@pytest.mark.parametrize("columns", [1, 2, 3, 7, 45, 200])
@pytest.mark.parametrize("size", [(64, 48), (48, 64), (900, 2), (2, 900), (1, 1)])
def test_any_width_from_one_gives_whole_rows_within_the_limits(
    tmp_path: Path, columns: int, size: tuple[int, int]
) -> None:
    rows = half_blocks(saved(tmp_path / "a.png", quartered(*size)), columns, 12)
    assert 1 <= len(rows) <= 12
    assert {len(row) for row in rows} == {len(rows[0])} and 1 <= len(rows[0]) <= columns
    assert all(0 <= part <= 255 for row in rows for cell in row for half in cell for part in half)


def test_a_wide_picture_keeps_its_shape(tmp_path: Path) -> None:
    rows = half_blocks(saved(tmp_path / "a.jpg", quartered(600, 300)), 40, 40)
    assert (len(rows[0]), 2 * len(rows)) == (40, 20)


def test_a_sideways_picture_is_shown_upright(tmp_path: Path) -> None:
    stored = quartered(60, 40).transpose(Image.Transpose.ROTATE_90)
    rows = half_blocks(saved(tmp_path / "a.png", stored, exif=exif(6)), 30, 30)
    assert len(rows[0]) == 30 and _near(rows[0][0][0], RED) and _near(rows[0][-1][0], BLUE)


def test_no_width_is_a_mistake_and_no_picture_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="at least one column"):
        half_blocks(saved(tmp_path / "a.jpg"), 0, 5)
    with pytest.raises(PhotoError, match="no picture"):
        half_blocks(tmp_path / "gone.jpg", 5, 5)
