"""Backup, restore, export, selfcheck; and a disk, a file or another program that stands in the way."""

import csv
import functools
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from scout.knowledge import check
from scout.services.export import safe_cell
from scout.store import database as door
from scout.store import engines


def names_of_beds(bedwalk) -> list[str]:
    return [bed["name"] for bed in bedwalk("garden", "show", "--json").json["beds"]]


def test_a_backup_brings_back_what_was_there_and_keeps_what_it_replaces(bedwalk, tmp_path: Path) -> None:
    copy = tmp_path / "kept" / "garden.db"
    assert str(copy) in bedwalk("backup", str(copy)).out
    bedwalk("garden", "add-bed", "New bed")
    back = bedwalk("restore", str(copy))
    assert "Restored: Test plot" in back.out and "before-restore-2026-07-22.db" in back.out
    assert "New bed" not in names_of_beds(bedwalk)
    kept = back.out.split("kept in ")[1].strip().removesuffix(".")
    bedwalk("restore", kept)
    assert "New bed" in names_of_beds(bedwalk)


def test_backups_without_a_name_get_a_dated_one_each(bedwalk, home: Path) -> None:
    bedwalk("backup")
    bedwalk("backup")
    assert [file.name for file in sorted((home / "backups").iterdir())] == [
        "garden-2026-07-22-2.db",
        "garden-2026-07-22.db",
    ]


def test_a_backup_never_writes_over_another_file(bedwalk, database: Path, tmp_path: Path) -> None:
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear aunt, " * 200)
    assert "letter.txt" in bedwalk("backup", str(letter)).complaint
    assert letter.read_text().startswith("Dear aunt")
    assert "the garden itself" in bedwalk("backup", str(database)).complaint
    assert "the garden itself" in bedwalk("restore", str(database)).complaint


def test_a_backup_below_a_file_is_refused(bedwalk, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    assert "file" in bedwalk("backup", str(tmp_path / "file" / "garden.db")).complaint
    assert "nothing was exported" in bedwalk("export", str(tmp_path / "file" / "out")).complaint


def test_a_broken_backup_leaves_the_garden_alone(bedwalk, database: Path, tmp_path: Path) -> None:
    bad = tmp_path / "bad.db"
    bad.write_bytes(b"SQLite format 3\x00" + b"\xff" * 4096)
    assert "bad.db" in bedwalk("restore", str(bad)).complaint
    assert names_of_beds(bedwalk)[0] == "Long bed"


def test_a_garden_of_a_newer_program_is_named_and_left_alone(bedwalk, database: Path) -> None:
    with closing(sqlite3.connect(database)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
    before = database.read_bytes()
    for words in (("garden", "show"), ("walk", "start"), ("export", "x"), ("weather", "add", "34 22")):
        assert "newer Bedwalk" in bedwalk(*words).complaint
    assert "WRONG  garden file" in bedwalk("selfcheck").out
    assert database.read_bytes() == before


def test_a_damaged_garden_can_be_restored_over(bedwalk, database: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.db"
    bedwalk("backup", str(copy))
    database.write_bytes(b"no database at all, only text " * 100)
    assert "not a Bedwalk garden" in bedwalk("garden", "show").complaint
    assert "before-restore" in bedwalk("restore", str(copy)).out
    assert names_of_beds(bedwalk)[0] == "Long bed"


def test_two_programs_at_once_the_second_says_who_is_in_the_way(bedwalk, database: Path, monkeypatch) -> None:
    impatient = functools.partial(door.open_engine.__wrapped__, busy_ms=50)  # the wait of 5 s is not tested here
    monkeypatch.setattr(door, "open_engine", impatient)
    with closing(sqlite3.connect(database, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert "in use by another program" in bedwalk("weather", "add", "34 22").complaint
        assert names_of_beds(bedwalk)[0] == "Long bed"  # reading goes on
        other.execute("ROLLBACK")
    assert bedwalk("weather", "add", "34 22").code == 0


def limited(monkeypatch: pytest.MonkeyPatch, *pragmas: str) -> None:
    """Let SQLite itself meet the limit: a rights test means nothing to the superuser, and no disk is filled."""
    from sqlalchemy import event

    plain = engines.sqlite_engine

    def engine(path: Path, **given: object) -> object:
        made = plain(path, **given)  # type: ignore[arg-type]

        @event.listens_for(made, "connect")
        def _limit(connection: sqlite3.Connection, _: object) -> None:
            for pragma in pragmas:
                connection.execute(pragma)

        return made

    monkeypatch.setattr(door, "sqlite_engine", engine)


def test_a_full_disk_is_named_and_nothing_is_half_kept(bedwalk, monkeypatch) -> None:
    bedwalk("walk", "start")
    with monkeypatch.context() as full:
        limited(full, "PRAGMA max_page_count = 1")
        assert "disk is full" in bedwalk("walk", "note", "x" * 10_000).complaint
    assert bedwalk("walk", "next", "--json").json["state"] == "open"


def test_a_read_only_file_is_named(bedwalk, monkeypatch) -> None:
    limited(monkeypatch, "PRAGMA query_only = ON")
    assert "read-only" in bedwalk("weather", "add", "34 22").complaint


def test_a_data_folder_that_cannot_be_made_is_named(bare, monkeypatch, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    monkeypatch.setenv("BEDWALK_HOME", str(tmp_path / "file" / "home"))
    assert "home" in bare("garden", "new", "--name", "Plot", "--zone", "UTC").complaint
    assert "home" in bare("photo", "inbox").complaint


def test_a_mistake_in_the_settings_is_named(bedwalk, home: Path) -> None:
    (home / "settings.toml").write_text("theme = 'pink'\n")
    assert "settings.toml: theme" in bedwalk("garden", "show").complaint


def rows_in(folder: Path, table: str) -> list[dict[str, str]]:
    with (folder / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_an_export_holds_everything_but_the_place_and_no_formula(bedwalk, tmp_path: Path, picture: Path) -> None:
    bedwalk("garden", "add-bed", "=SUM(A1:A9)")
    bedwalk("garden", "add-bed", "@ gate ü")
    bedwalk("weather", "add", "-3 -11 0")
    bedwalk("photo", "add", str(picture), "--bed", "Long bed", "--note", "-2+3")
    folder = tmp_path / "out"
    assert "1 pictures" in bedwalk("export", str(folder)).out
    names = [row["name"] for row in rows_in(folder, "bed")]
    assert names == ["Long bed", "Mixed bed", "Black tub", "'=SUM(A1:A9)", "'@ gate ü"]
    assert rows_in(folder, "weather_day")[0]["tmin_c"] == "-11.0"
    assert rows_in(folder, "photo")[0]["note"] == "'-2+3"
    everything = b"".join(file.read_bytes() for file in folder.rglob("*") if file.is_file())
    for place in (b"12.25", b"34.75", b"latitude,", b"GPS"):
        assert place not in everything
    assert (folder / "README.txt").read_text(encoding="utf-8").count("\n") == 1
    assert not (folder / "change.csv").exists()  # the history repeats the site with its place

    from PIL import Image

    copies = list((folder / "photos").iterdir())
    with Image.open(copies[0]) as copy:
        assert not copy.getexif().get_ifd(0x8825)
    assert "not empty" in bedwalk("export", str(folder)).complaint


def test_the_place_is_exported_only_when_asked_for(bedwalk, tmp_path: Path) -> None:
    bedwalk("export", str(tmp_path / "out"), "--with-place")
    site = rows_in(tmp_path / "out", "site")[0]
    assert (site["latitude"], site["longitude"]) == ("12.25", "34.75")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "\tx", "\rx"])
def test_cells_that_a_spreadsheet_would_run_begin_with_an_apostrophe(text: str) -> None:
    assert safe_cell(text) == f"'{text}"


@pytest.mark.parametrize("value", [-1.5, 0, None, "a=1", "ü", ""])
def test_other_cells_stay_as_they_are(value: object) -> None:
    assert safe_cell(value) == value


def test_a_picture_that_is_gone_is_counted_and_the_rest_exported(bedwalk, tmp_path: Path, picture: Path, home) -> None:
    bedwalk("photo", "add", str(picture), "--bed", "Long bed")
    for file in (home / "photos").iterdir():
        file.unlink()
    assert "1 pictures are gone" in bedwalk("export", str(tmp_path / "out")).out


@pytest.fixture
def known_in_order(monkeypatch) -> None:
    """What the check of the knowledge says depends on the day and has its own tests."""
    monkeypatch.setattr(check, "check_knowledge", lambda known, today: ())


@pytest.mark.usefixtures("known_in_order")
def test_selfcheck_says_what_is_there(bedwalk, home: Path) -> None:
    found = {one["what"]: one for one in bedwalk("selfcheck", "--json").json}
    assert all(one["ok"] for one in found.values())
    assert str(home) in found["data folder"]["text"] and "3 beds, 4 plantings" in found["counts"]["text"]


@pytest.mark.usefixtures("known_in_order")
def test_selfcheck_works_before_there_is_a_garden_and_makes_none(bare, home: Path) -> None:
    assert bare("selfcheck").code == 0
    assert not home.exists()


def test_selfcheck_says_when_the_knowledge_is_not_in_order(bare, monkeypatch) -> None:
    monkeypatch.setattr(check, "check_knowledge", lambda known, today: ("one", "two"))
    assert "WRONG  knowledge: 2 problems" in bare("selfcheck").out


@pytest.mark.usefixtures("known_in_order")
def test_selfcheck_names_a_damaged_file_and_ends_with_1(bedwalk, database: Path) -> None:
    database.write_bytes(b"no database at all, only text " * 100)
    ran = bedwalk("selfcheck")
    assert ran.complaint == "bedwalk: Not in order: garden file, counts.\n"
