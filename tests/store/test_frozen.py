"""Gardens of every released version, with rows in every table, open in today's program."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from scout.store import beds, findings, weather
from scout.store.database import ensure_schema, open_engine, reading
from scout.store.tables import NOUNS
from scout.store.tables_garden import Bed
from scout.store.undo import undo_last
from scout.store.version import KNOWN_VERSIONS, SCHEMA_VERSION

from .conftest import Farm, Ids, stamp

FROZEN = Path(__file__).parent / "frozen"
NEW_IN = {"0002": {"counted"}}
"""Tables by the version that brought them: empty in a garden that is older."""


def _shape(path: Path) -> list[tuple[str, str]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name").fetchall()


def test_there_is_a_frozen_garden_for_every_version() -> None:
    """A new revision comes with one: python tests/store/make_frozen.py."""
    assert sorted(file.stem for file in FROZEN.glob("*.db")) == list(KNOWN_VERSIONS)


@pytest.mark.parametrize("version", KNOWN_VERSIONS)
def test_an_old_garden_opens_and_keeps_every_row(version: str, tmp_path: Path) -> None:
    """No table it had is empty, before or after; the file is whole and nothing in it belongs to nothing."""
    new = {entity for made, entities in NEW_IN.items() if made > version for entity in entities}
    path = Path(shutil.copy(FROZEN / f"{version}.db", tmp_path / "garden.db"))
    assert ensure_schema(path) == ("current" if version == SCHEMA_VERSION else "migrated")
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        for entity in (*NOUNS, "weather_hour", "change"):
            rows_n = connection.execute(f"SELECT count(*) FROM {entity}").fetchone()[0]
            assert (rows_n == 0) if entity in new else (rows_n > 0), entity


@pytest.mark.parametrize("version", KNOWN_VERSIONS)
def test_an_old_garden_can_be_asked_and_written_and_undone(version: str, tmp_path: Path) -> None:
    """Its words, times and numbers are those that were put in (samples.py), its history goes on."""
    path = Path(shutil.copy(FROZEN / f"{version}.db", tmp_path / "garden.db"))
    ensure_schema(path)
    engine = open_engine(path)
    farm = Farm(engine, stamp(Ids(900_000)), path)
    garden = farm.stamp.garden_id
    with reading(engine) as session:
        first, second = beds.beds_in_order(session=session, garden_id=garden)
        note = next(iter(findings.last_findings(session=session, garden_id=garden, since="2026-07-01").values()))
        day = weather.days(session=session, garden_id=garden, since="2026-07-19", until="2026-07-19")[0]
    assert (first.name, second.note) == ("Long bed", "half\nshade")
    assert (note.note, note.observed_at, note.observed_offset_min) == ("rings 🍅", "2026-07-20T07:20", 120)
    assert (day.tmax_c, day.wet_morning) == (33.5, True)
    undo_last(engine, farm.stamp)
    assert farm.rows("bed")[0]["name"] == "Bed 1"
    assert farm.change(Bed, first.id, name="Bed 1 again")
    engine.dispose()


def test_the_frozen_garden_of_today_has_the_tables_that_are_made_today(garden_file: Path) -> None:
    """A released revision that is edited afterwards no longer fits its frozen file."""
    assert _shape(FROZEN / f"{SCHEMA_VERSION}.db") == _shape(garden_file)
