from pathlib import Path

import pytest
from PIL import Image, ImageOps

from scout.photos.taking import LONGEST, stripped_copy, take_in
from tests.photos.drawn import BLUE, GREEN, RED, WHITE, XMP, exif, look, quartered, saved

HERE = Path(__file__).parent
TAKEN = "2026:07:20 06:41:12"


def _near(image: Image.Image, at: tuple[float, float], colour: tuple[int, int, int]) -> bool:
    found = image.convert("RGB").getpixel((int(image.width * at[0]), int(image.height * at[1])))
    assert isinstance(found, tuple)
    return all(abs(one - other) < 25 for one, other in zip(found, colour, strict=True))


def _stored_sideways(orientation: int) -> Image.Image:
    """Pixels as a camera stores them so that `orientation` makes them upright (EXIF 2.32, tag 274)."""
    undone = {
        1: None,
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }[orientation]
    return quartered() if undone is None else quartered().transpose(undone)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_picture_taken_any_way_up_is_kept_upright(tmp_path: Path, orientation: int) -> None:
    source = saved(tmp_path / "a.jpg", _stored_sideways(orientation), exif=exif(orientation), quality=95)
    taken = take_in(source, tmp_path / "kept", name="p1")
    kept = look(tmp_path / "kept" / taken.file)
    assert (kept.size, taken.width, taken.height) == ((240, 160), 240, 160)
    assert _near(kept, (0.2, 0.2), RED) and _near(kept, (0.8, 0.2), BLUE)
    assert _near(kept, (0.2, 0.8), GREEN) and _near(kept, (0.8, 0.8), WHITE)
    assert kept.getexif().get(0x0112, 1) == 1


@pytest.mark.parametrize("orientation", range(1, 9))
def test_the_turn_agrees_with_the_one_pillow_makes(tmp_path: Path, orientation: int) -> None:
    """Reference: PIL.ImageOps.exif_transpose."""
    source = saved(tmp_path / "a.png", _stored_sideways(orientation), exif=exif(orientation))
    expected = ImageOps.exif_transpose(look(source))
    taken = take_in(source, tmp_path, name="p1")
    kept = look(tmp_path / taken.file)
    assert kept.size == expected.size
    for at in ((0.2, 0.2), (0.8, 0.2), (0.2, 0.8), (0.8, 0.8)):
        colour = expected.getpixel((int(expected.width * at[0]), int(expected.height * at[1])))
        assert isinstance(colour, tuple)
        assert _near(kept, at, (int(colour[0]), int(colour[1]), int(colour[2])))


def _assert_no_place_or_owner(content: bytes) -> None:
    image_exif = Image.Exif()
    for secret in (b"GPS", b"OwnerCamera", b"MAKERNOTE", b"xmpmeta", b"48,12.5N", b"a private remark", b"http"):
        assert secret not in content
    start = content.find(b"Exif\0\0")
    assert start > 0
    image_exif.load(content[start : start + 400])
    assert set(image_exif) == {0x8769}
    assert set(image_exif.get_ifd(0x8769)) <= {0x9003, 0x9011}
    assert not image_exif.get_ifd(0x8825)


@pytest.mark.parametrize("kind", ["jpg", "png", "webp"])
def test_place_maker_notes_xmp_and_comment_are_not_kept(tmp_path: Path, kind: str) -> None:
    extra = {"comment": b"a private remark"} if kind == "jpg" else {}
    hidden = {} if kind == "png" else {"xmp": XMP}
    source = saved(tmp_path / f"a.{kind}", exif=exif(6, TAKEN, "+02:00", place=True), **extra, **hidden)
    assert b"MAKERNOTE-SECRET" in source.read_bytes()
    assert look(source).getexif().get_ifd(0x8825)
    taken = take_in(source, tmp_path / "kept", name="p1")
    _assert_no_place_or_owner((tmp_path / "kept" / taken.file).read_bytes())
    copy = stripped_copy(source, tmp_path / "copy.jpg")
    _assert_no_place_or_owner(copy.read_bytes())


def test_time_taken_and_offset_are_read_and_kept(tmp_path: Path) -> None:
    source = saved(tmp_path / "a.jpg", exif=exif(1, TAKEN, "-03:30"))
    taken = take_in(source, tmp_path / "kept", name="p1")
    assert (taken.taken_at, taken.taken_offset_min) == ("2026-07-20T06:41:12", -210)
    inner = look(tmp_path / "kept" / taken.file).getexif().get_ifd(0x8769)
    assert (inner[0x9003], inner[0x9011]) == (TAKEN, "-03:30")


@pytest.mark.parametrize("stamp", [None, "0000:00:00 00:00:00", "    :  :     :  :  ", "2026:13:45 10:00:00", "now"])
def test_a_camera_without_a_clock_gives_no_time(tmp_path: Path, stamp: str | None) -> None:
    taken = take_in(saved(tmp_path / "a.jpg", exif=exif(1, stamp, "+99:00")), tmp_path / "kept", name="p1")
    assert (taken.taken_at, taken.taken_offset_min) == (None, None)
    assert b"Exif" not in (tmp_path / "kept" / taken.file).read_bytes()


def test_a_damaged_exif_block_costs_the_time_and_not_the_picture(tmp_path: Path) -> None:
    block = bytearray(exif(6, TAKEN))
    block[4:] = b"\xff" * (len(block) - 4)
    taken = take_in(saved(tmp_path / "a.jpg", exif=bytes(block)), tmp_path / "kept", name="p1")
    assert taken.taken_at is None and (tmp_path / "kept" / taken.file).exists()


@pytest.mark.parametrize("size", [(4032, 3024), (3024, 4032), (1601, 40), (5000, 3)])
def test_a_large_picture_is_made_small_and_keeps_its_shape(tmp_path: Path, size: tuple[int, int]) -> None:
    taken = take_in(saved(tmp_path / "a.jpg", quartered(*size)), tmp_path / "kept", name="p1")
    assert max(taken.width, taken.height) == LONGEST
    share = LONGEST / max(size)
    assert abs(taken.width - size[0] * share) <= 1 and abs(taken.height - size[1] * share) <= 1


def test_a_small_picture_is_not_made_larger(tmp_path: Path) -> None:
    taken = take_in(saved(tmp_path / "a.png", quartered(30, 20)), tmp_path / "kept", name="p1")
    assert (taken.width, taken.height) == (30, 20)


@pytest.mark.parametrize("mode", ["1", "L", "P", "LA", "RGBA", "CMYK", "I;16", "YCbCr"])
def test_every_colour_mode_becomes_a_plain_picture(tmp_path: Path, mode: str) -> None:
    if mode == "I;16":
        image = Image.new("I;16", (40, 30), 32768)
    elif mode == "P":
        image = quartered(40, 30).quantize(8)
    else:
        image = quartered(40, 30).convert(mode)
    kind = "jpg" if mode in ("CMYK", "YCbCr") else "png"
    taken = take_in(saved(tmp_path / f"a.{kind}", image), tmp_path / "kept", name="p1")
    kept = look(tmp_path / "kept" / taken.file)
    assert kept.mode == "RGB" and kept.size == (40, 30)
    if mode == "I;16":
        assert _near(kept, (0.5, 0.5), (128, 128, 128))
    if mode in ("P", "RGBA"):
        assert _near(kept, (0.2, 0.2), RED)


def test_what_is_see_through_is_shown_on_white(tmp_path: Path) -> None:
    taken = take_in(saved(tmp_path / "a.png", Image.new("RGBA", (20, 20), (0, 0, 0, 0))), tmp_path, name="p1")
    assert _near(look(tmp_path / taken.file), (0.5, 0.5), (255, 255, 255))


def test_the_hash_is_of_the_original_and_the_original_is_untouched(tmp_path: Path) -> None:
    import hashlib

    source = saved(tmp_path / "a.jpg")
    before = source.read_bytes()
    taken = take_in(source, tmp_path / "kept", name="p1")
    assert taken.sha256 == hashlib.sha256(before).hexdigest()
    assert source.read_bytes() == before


def test_nothing_but_the_picture_is_left_in_the_folder(tmp_path: Path) -> None:
    take_in(saved(tmp_path / "a.jpg"), tmp_path / "kept", name="0190-ab_c.jpg")
    assert [path.name for path in (tmp_path / "kept").iterdir()] == ["0190-ab_c.jpg"]


@pytest.mark.parametrize("name", ["", "../x", "a/b", "my tomato", "a.png", ".hidden", "x" * 200, "a\n", "b.jpg\n"])
def test_only_a_generated_name_is_accepted(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="generated"):
        take_in(saved(tmp_path / "a.jpg"), tmp_path / "kept", name=name)


def test_a_heic_picture_is_taken_in_without_its_place(tmp_path: Path) -> None:
    """leaf.heic: 64 × 48, red top left, dated, with GPS; drawn and encoded once for this test."""
    pi_heif = pytest.importorskip("pi_heif", reason="pi-heif is not installed here")
    source = HERE / "leaf.heic"
    taken = take_in(source, tmp_path, name="p1")
    assert (taken.width, taken.height) == (64, 48)
    assert (taken.taken_at, taken.taken_offset_min) == ("2026-07-20T06:41:12", 120)
    assert _near(look(tmp_path / taken.file), (0.2, 0.2), (200, 30, 30))
    assert pi_heif.open_heif(source).to_pillow().getexif().get_ifd(0x8825)
    _assert_no_place_or_owner((tmp_path / taken.file).read_bytes())
