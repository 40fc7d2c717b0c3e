import os
from pathlib import Path

from scout.photos.inbox import inbox_files


def _put(folder: Path, name: str, age: int, content: bytes = b"x") -> None:
    (folder / name).write_bytes(content)
    os.utime(folder / name, (1_000_000 - age, 1_000_000 - age))


def test_new_pictures_come_oldest_first(tmp_path: Path) -> None:
    _put(tmp_path, "b.jpg", 10)
    _put(tmp_path, "a.HEIC", 5)
    _put(tmp_path, "c.webp", 20)
    _put(tmp_path, "d.png", 20)
    assert [path.name for path in inbox_files(tmp_path)] == ["c.webp", "d.png", "b.jpg", "a.HEIC"]


def test_half_written_hidden_and_other_files_are_left_alone(tmp_path: Path) -> None:
    for name in (".a.jpg", "~b.jpg", "c.jpg.part", "d.tmp", "e.txt", "f.mov", "jpg", "g.jpg.crdownload"):
        _put(tmp_path, name, 1)
    _put(tmp_path, "empty.jpg", 1, b"")
    (tmp_path / "folder.jpg").mkdir()
    (tmp_path / "nowhere.jpg").symlink_to(tmp_path / "gone.jpg")
    _put(tmp_path, "good.jpeg", 1)
    assert [path.name for path in inbox_files(tmp_path)] == ["good.jpeg"]


def test_a_missing_folder_holds_no_pictures(tmp_path: Path) -> None:
    assert inbox_files(tmp_path / "gone") == ()
