"""Copies of the garden, the way back, and bringing an older garden up to date; nothing is ever lost."""

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import text

from scout.errors import BedwalkError, NotFound, Refused, StoreError
from scout.store import schema
from scout.store.database import back_up, ensure_schema, open_engine, restore
from scout.store.engines import sqlite_engine
from scout.store.tables_garden import Bed
from scout.store.version import KNOWN_VERSIONS, SCHEMA_VERSION

from .conftest import Farm


def _said(refused: pytest.ExceptionInfo[BedwalkError]) -> str:
    said = str(refused.value)
    assert said.endswith(".") and "\n" not in said and "Traceback" not in said
    return said


def _set_version(path: Path, version: str) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = ?", (version,))


def _counts(path: Path) -> dict[str, int]:
    with closing(sqlite3.connect(path)) as connection:
        names = [row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {name: connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0] for name in names}


def test_a_newer_backup_is_not_restored(file_farm: Farm, tmp_path: Path) -> None:
    """The garden stays as it is."""
    copy = tmp_path / "copy.db"
    back_up(Path(str(file_farm.target)), copy)
    _set_version(copy, "0999")
    with pytest.raises(StoreError, match="newer Bedwalk"):
        restore(copy, Path(str(file_farm.target)))
    assert len(file_farm.rows("bed")) == 1


def test_a_copy_holds_rows_that_are_still_in_the_log_file(file_farm: Farm, tmp_path: Path) -> None:
    """Copying the .db file alone would lose them."""
    path = Path(str(file_farm.target))
    for number in range(2, 52):
        file_farm.write(Bed, name=f"Bed {number}", position=number)
    assert path.with_name("garden.db-wal").stat().st_size > 0
    alone = Path(shutil.copy(path, tmp_path / "alone.db"))
    assert _counts(alone).get("bed", 0) < 51
    copy = tmp_path / "far" / "copy.db"
    back_up(path, copy)
    assert _counts(copy)["bed"] == 51
    assert [item.name for item in copy.parent.iterdir()] == ["copy.db"]


def test_a_copy_replaces_an_older_copy_only_as_a_whole(
    file_farm: Farm, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A copy that fails leaves the last good one."""
    path, copy = Path(str(file_farm.target)), tmp_path / "copy.db"
    back_up(path, copy)
    good = copy.read_bytes()

    def fail(*_: object) -> None:
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr("scout.store.backups._refuse_damaged", fail)
    with pytest.raises(StoreError, match="disk is full"):
        back_up(path, copy)
    assert copy.read_bytes() == good
    assert not [item for item in tmp_path.iterdir() if item.name.endswith(".new")]


def test_a_copy_onto_itself_or_of_nothing_is_refused(file_farm: Farm, tmp_path: Path) -> None:
    """Two slips of the hand."""
    path = Path(str(file_farm.target))
    with pytest.raises(Refused, match="is the garden itself"):
        back_up(path, path)
    with pytest.raises(NotFound, match="no garden at"):
        back_up(tmp_path / "none.db", tmp_path / "copy.db")
    with pytest.raises(NotFound, match="no backup at"):
        restore(tmp_path / "none.db", path)


def test_a_restored_garden_is_as_the_copy_was_and_open_readers_see_it(file_farm: Farm, tmp_path: Path) -> None:
    """Through the database, not by swapping files under a program that has them open."""
    path, copy = Path(str(file_farm.target)), tmp_path / "copy.db"
    back_up(path, copy)
    file_farm.change(Bed, file_farm.bed, name="spoiled")
    restore(copy, path)
    assert file_farm.rows("bed")[0]["name"] == "Bed 1"
    assert file_farm.rows("pragma_quick_check")[0]["quick_check"] == "ok"


@pytest.mark.parametrize("wreck", ["missing", "empty", "text"])
def test_a_garden_that_is_lost_comes_back_from_its_copy(file_farm: Farm, tmp_path: Path, wreck: str) -> None:
    """Gone, emptied by a full disk, or overwritten by something else."""
    path, copy = Path(str(file_farm.target)), tmp_path / "copy.db"
    back_up(path, copy)
    file_farm.engine.dispose()
    if wreck == "missing":
        path.unlink()
    else:
        path.write_bytes(b"" if wreck == "empty" else b"not a database at all " * 99)
    restore(copy, path)
    engine = open_engine(path)
    with engine.connect() as connection:
        assert connection.execute(text("SELECT name FROM bed")).scalar() == "Bed 1"
    engine.dispose()


def test_a_damaged_copy_is_not_restored(file_farm: Farm, tmp_path: Path) -> None:
    """The garden is worth more than the wish."""
    path, copy = Path(str(file_farm.target)), tmp_path / "copy.db"
    back_up(path, copy)
    copy.write_bytes(copy.read_bytes()[:9000])
    with pytest.raises(StoreError) as refused:
        restore(copy, path)
    assert "damaged" in _said(refused) or "not a Bedwalk garden" in _said(refused)
    assert len(file_farm.rows("bed")) == 1


def _pretend_old(path: Path, monkeypatch: pytest.MonkeyPatch, upgrade: Callable[..., None]) -> None:
    """Let the file be of an older version, and `upgrade` stand in the place of alembic."""
    _set_version(path, "0000")
    monkeypatch.setattr("scout.store.engines.KNOWN_VERSIONS", ("0000", *KNOWN_VERSIONS))
    monkeypatch.setattr(schema, "_upgrade", upgrade)


def test_an_older_garden_is_copied_before_it_is_brought_up_to_date(
    file_farm: Farm, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The copy is the garden as it was, in the backups folder, under a name of its own each time."""
    path = Path(str(file_farm.target))
    file_farm.engine.dispose()

    def upgrade(connection: object) -> None:
        connection.exec_driver_sql("UPDATE bed SET name = 'moved'")  # type: ignore[attr-defined]
        connection.exec_driver_sql(f"UPDATE alembic_version SET version_num = '{SCHEMA_VERSION}'")  # type: ignore[attr-defined]

    _pretend_old(path, monkeypatch, upgrade)
    assert ensure_schema(path) == "migrated"
    _set_version(path, "0000")
    assert ensure_schema(path) == "migrated"
    copies = sorted(item.name for item in (path.parent / "backups").iterdir())
    assert copies == [f"garden-0000-before-{SCHEMA_VERSION}-2.db", f"garden-0000-before-{SCHEMA_VERSION}.db"]
    with closing(sqlite3.connect(path.parent / "backups" / copies[1])) as kept:
        assert kept.execute("SELECT name FROM bed").fetchone() == ("Bed 1",)


@pytest.mark.parametrize("harm", ["raises", "orphans"])
def test_a_failed_upgrade_leaves_the_garden_as_it_was(
    file_farm: Farm, monkeypatch: pytest.MonkeyPatch, harm: str
) -> None:
    """An error half-way, or rows that belong to nothing afterwards: all of it is taken back, no table is left over."""
    path = Path(str(file_farm.target))
    before = {entity: file_farm.rows(entity) for entity in ("bed", "planting_bed", "stop", "change")}
    tables = set(_counts(path))
    file_farm.engine.dispose()

    def upgrade(connection: object) -> None:
        connection.exec_driver_sql("CREATE TABLE _alembic_tmp_bed (id TEXT)")  # type: ignore[attr-defined]
        connection.exec_driver_sql("DELETE FROM bed")  # type: ignore[attr-defined]
        if harm == "raises":
            raise ValueError("half-way")

    _pretend_old(path, monkeypatch, upgrade)
    with pytest.raises(StoreError) as refused:
        ensure_schema(path)
    assert "as it was" in _said(refused)
    assert set(_counts(path)) == tables
    for entity, rows in before.items():
        assert file_farm.rows(entity) == rows


def test_rows_of_children_survive_a_parent_that_is_made_anew(file_farm: Farm) -> None:
    """A batch change drops and remakes the parent; with foreign keys on, that would take the children along."""
    file_farm.engine.dispose()
    engine = sqlite_engine(Path(str(file_farm.target)), foreign_keys=False)
    with engine.begin() as connection:
        from alembic.migration import MigrationContext
        from alembic.operations import Operations

        steps = Operations(MigrationContext.configure(connection))
        with steps.batch_alter_table("bed", recreate="always"):
            pass
        assert connection.execute(text("PRAGMA foreign_key_check")).first() is None
    engine.dispose()
    assert len(file_farm.rows("planting_bed")) == 1 and len(file_farm.rows("stop")) == 1
