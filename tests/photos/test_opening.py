import errno
import os
import struct
import sys
import warnings
import zlib
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageFile

from scout.errors import PhotoError
from scout.photos import heic
from scout.photos.taking import stripped_copy, take_in
from tests.photos.drawn import encoded, look, quartered, saved

HERE = Path(__file__).parent


def _refused(source: Path, into: Path) -> str:
    with pytest.raises(PhotoError) as caught:
        take_in(source, into, name="p1")
    sentence = str(caught.value)
    assert "\n" not in sentence and sentence.endswith(".")
    assert not into.exists() or not list(into.iterdir())
    return sentence


def _bomb(width: int, height: int) -> bytes:
    """A PNG (ISO/IEC 15948) whose heading promises a huge picture."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    heading = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", heading)
        + chunk(b"IDAT", zlib.compress(b"\0" * 900))
        + chunk(b"IEND", b"")
    )


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    assert "There is no picture 'gone.jpg'" in _refused(tmp_path / "gone.jpg", tmp_path / "kept")


def test_a_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "pics").mkdir()
    assert "is a folder" in _refused(tmp_path / "pics", tmp_path / "kept")


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "is empty"),
        (b"day,tmax,tmin\n", "is not a JPEG, PNG, WebP or HEIC picture"),
        (b"GIF89a" + b"\0" * 50, "is not a JPEG"),
        (b"%PDF-1.7\n", "is not a JPEG"),
        (b"\xff\xd8\xff", "is not a JPEG"),
        (b"\0\0\0\x18ftypheic" + b"\0" * 40, "damaged"),
    ],
)
def test_what_is_no_picture_is_refused(tmp_path: Path, content: bytes, said: str) -> None:
    source = tmp_path / "a.jpg"
    source.write_bytes(content)
    assert said in _refused(source, tmp_path / "kept")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("share", [0.3, 0.6, 0.9])
def test_a_picture_cut_short_is_refused_and_not_filled_with_grey(tmp_path: Path, kind: str, share: float) -> None:
    noise = Image.effect_noise((300, 200), 60).convert("RGB")
    content = encoded(noise, kind)
    source = tmp_path / "a.jpg"
    source.write_bytes(content[: int(len(content) * share)])
    assert "damaged" in _refused(source, tmp_path / "kept")
    assert ImageFile.LOAD_TRUNCATED_IMAGES is False


@pytest.mark.parametrize("size", [(8193, 6144), (10_000, 10_000), (20_000, 20_000), (2_000_000_000, 2)])
def test_a_picture_that_would_fill_the_memory_is_refused_by_its_heading(tmp_path: Path, size: tuple[int, int]) -> None:
    source = tmp_path / "a.png"
    source.write_bytes(_bomb(*size))
    limit, filters = Image.MAX_IMAGE_PIXELS, list(warnings.filters)
    assert "million pixels" in _refused(source, tmp_path / "kept")
    assert (Image.MAX_IMAGE_PIXELS, list(warnings.filters)) == (limit, filters)


def test_a_picture_that_may_not_be_opened_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def denied(_: Path) -> bytes:
        raise PermissionError(errno.EACCES, "denied")

    monkeypatch.setattr(Path, "read_bytes", denied)
    assert "cannot be read" in _refused(saved(tmp_path / "a.jpg"), tmp_path / "kept")


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_full_disk_is_said_and_leaves_no_half_picture(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    source = saved(tmp_path / "a.jpg")
    monkeypatch.setattr(os, step, full)
    assert "disk is full" in _refused(source, tmp_path / "kept")


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path) -> None:
    (tmp_path / "kept").write_text("a file stands where the folder should be")
    with pytest.raises(PhotoError, match="written to"):
        take_in(saved(tmp_path / "a.jpg"), tmp_path / "kept", name="p1")


def test_without_its_reader_a_heic_picture_says_what_to_install(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "pi_heif", None)
    assert "pip install pi-heif" in _refused(HERE / "leaf.heic", tmp_path / "kept")


def test_a_file_name_is_shown_without_control_characters(tmp_path: Path) -> None:
    sentence = _refused(tmp_path / "a\x1b[31m\u202eb.jpg", tmp_path / "kept")
    assert "\x1b" not in sentence and "\u202e" not in sentence


def test_a_copy_of_a_missing_picture_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PhotoError, match="no picture"):
        stripped_copy(tmp_path / "gone.jpg", tmp_path / "copy.jpg")


def test_a_heic_picture_that_crashes_its_reader_is_a_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    crash = tmp_path / "crash.py"
    crash.write_text("import os, signal\nos.kill(os.getpid(), signal.SIGABRT)\n")
    monkeypatch.setattr(heic, "_CHILD", crash)
    assert "damaged" in _refused(HERE / "leaf.heic", tmp_path / "kept")


def test_a_heic_picture_with_too_many_pixels_is_refused() -> None:
    with pytest.raises(PhotoError, match="too many pixels"):
        heic.as_png((HERE / "leaf.heic").read_bytes(), "leaf.heic", 64 * 48 - 1)


@pytest.mark.parametrize("seed", range(4))
def test_a_damaged_heic_picture_is_kept_or_refused(tmp_path: Path, seed: int) -> None:
    random = Random(seed)
    content = bytearray((HERE / "leaf.heic").read_bytes())
    for _ in range(5):
        content[random.randrange(12, len(content))] = random.randrange(256)
    (tmp_path / "a.heic").write_bytes(content)
    try:
        take_in(tmp_path / "a.heic", tmp_path, name="p1")
    except PhotoError:
        assert not (tmp_path / "p1.jpg").exists()
    else:
        assert (tmp_path / "p1.jpg").exists()


_WHOLE = {kind: encoded(quartered(48, 32), kind) for kind in ("JPEG", "PNG", "WEBP")}


@given(
    st.sampled_from(sorted(_WHOLE)), st.lists(st.tuples(st.floats(0, 1), st.integers(0, 255)), min_size=1, max_size=6)
)
def test_damaged_bytes_give_a_picture_or_a_sentence_and_nothing_else(
    tmp_path_factory: pytest.TempPathFactory, kind: str, hits: list[tuple[float, int]]
) -> None:
    content = bytearray(_WHOLE[kind])
    for at, value in hits:
        content[min(len(content) - 1, int(at * len(content)))] = value
    folder = tmp_path_factory.mktemp("damaged")
    (folder / "a.jpg").write_bytes(content)
    try:
        taken = take_in(folder / "a.jpg", folder, name="p1")
    except PhotoError:
        assert not (folder / "p1.jpg").exists()
    else:
        assert look(folder / taken.file).size == (taken.width, taken.height)
