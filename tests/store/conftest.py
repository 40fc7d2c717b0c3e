"""A fresh garden for each test: a copy of one made file, or a schema of its own on the server named by the test."""

import hashlib
import os
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine, text

from scout.store.database import ensure_schema, open_engine
from scout.store.engines import server_engine
from scout.store.history import Stamp, Transaction, transaction
from scout.store.ids import new_id
from scout.store.tables_garden import Bed, Device, Garden, Planting, PlantingBed
from scout.store.tables_walk import Stop, Walk

SERVER = os.environ.get("BEDWALK_TEST_POSTGRES", "")
REQUIRED = os.environ.get("BEDWALK_REQUIRE", "").split(",")


class Ids:
    """Ids that rise by one and never depend on the day."""

    def __init__(self, start: int = 0) -> None:
        self.count = start

    def __call__(self) -> str:
        self.count += 1
        return new_id(1_780_000_000_000 + self.count, hashlib.sha256(b"%d" % self.count).digest()[:10])


def stamp(ids: Callable[[], str] | None = None, device: str = "1") -> Stamp:
    """Return a stamp of device `device` on a fixed day."""
    garden = "0198b2f0-0000-7000-8000-0000000000aa"
    phone = f"0198b2f0-0000-7000-8000-00000000000{device}"
    return Stamp(garden, phone, "Ada", "2026-07-20T16:22:05Z", ids or Ids())


@dataclass
class Farm:
    """A garden with one bed, one planting in it and one stop of one walk."""

    engine: Engine
    stamp: Stamp
    target: Path | str
    bed: str = ""
    planting: str = ""
    walk: str = ""
    stop: str = ""

    def write(self, noun: type[Any], *, row_id: str | None = None, **values: Any) -> str:
        """Add one row in a transaction of its own."""
        with transaction(self.engine, self.stamp) as tx:
            return tx.add(noun, row_id=row_id, **values)

    def change(self, noun: type[Any], row_id: str, **values: Any) -> bool:
        """Change one row in a transaction of its own."""
        with transaction(self.engine, self.stamp) as tx:
            return tx.update(noun, row_id, **values)

    def rows(self, entity: str) -> list[dict[str, Any]]:
        """Return every row of a table as the database holds it."""
        with self.engine.connect() as connection:
            return [dict(row) for row in connection.execute(text(f"SELECT * FROM {entity}")).mappings()]

    def other_device(self) -> "Farm":
        """Return the same garden as another device sees it."""
        return replace(self, stamp=stamp(Ids(500_000), "2"))


def furnish(tx: Transaction, farm: Farm) -> None:
    """Add what most rows must belong to."""
    garden = tx.stamp.garden_id
    tx.add(Garden, row_id=garden, name="Slope")
    tx.add(Device, row_id=tx.stamp.device_id, name="phone")
    farm.bed = tx.add(Bed, name="Bed 1", position=1)
    farm.planting = tx.add(Planting, crop="tomato", sown_on="2026-03-01", set_out_on="2026-05-15")
    tx.add(PlantingBed, planting_id=farm.planting, bed_id=farm.bed, from_on="2026-05-15")
    farm.walk = tx.add(Walk, started_at="2026-07-20T07:10", started_offset_min=120, mode="full")
    farm.stop = tx.add(
        Stop, walk_id=farm.walk, planting_id=farm.planting, bed_id=farm.bed, position=1, why="open problem"
    )


@pytest.fixture(scope="session")
def made_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a new garden file, made once a session."""
    path = tmp_path_factory.mktemp("made") / "garden.db"
    ensure_schema(path)
    return path


@pytest.fixture
def garden_file(made_file: Path, tmp_path: Path) -> Path:
    """Return a fresh copy of a new garden file."""
    return Path(shutil.copy(made_file, tmp_path / "garden.db"))


def server_or_skip() -> str:
    """Return the URL of the server for tests, or skip; where the server is required, fail."""
    if not SERVER:
        if "postgres" in REQUIRED:
            pytest.fail("BEDWALK_REQUIRE names postgres, but BEDWALK_TEST_POSTGRES holds no URL")
        pytest.skip("no PostgreSQL: set BEDWALK_TEST_POSTGRES to a URL of an empty database")
    return SERVER


@pytest.fixture(scope="session")
def server_schema(worker_id: str) -> Iterator[str]:
    """Return the URL of a schema of this worker's own, with the tables in it."""
    base = server_or_skip()
    name = f"bedwalk_{worker_id}"
    admin = server_engine(base)
    with admin.begin() as connection:
        connection.execute(text(f"DROP SCHEMA IF EXISTS {name} CASCADE"))
        connection.execute(text(f"CREATE SCHEMA {name}"))
    joint = "&" if "?" in base else "?"
    url = f"{base}{joint}options=-csearch_path%3D{name}"
    ensure_schema(url)
    yield url
    with admin.begin() as connection:
        connection.execute(text(f"DROP SCHEMA {name} CASCADE"))
    admin.dispose()


def emptied(url: str) -> str:
    """Return the URL after taking every row out of its tables."""
    from scout.store.tables import NOUNS

    engine = server_engine(url)
    with engine.begin() as connection:
        connection.execute(text(f"TRUNCATE {', '.join((*NOUNS, 'weather_hour', 'change'))} RESTART IDENTITY"))
    engine.dispose()
    return url


@pytest.fixture(params=["sqlite", "postgres"])
def farm(request: pytest.FixtureRequest) -> Iterator[Farm]:
    """Return a furnished garden on each engine."""
    target: Path | str
    if request.param == "sqlite":
        target = request.getfixturevalue("garden_file")
    else:
        target = emptied(request.getfixturevalue("server_schema"))
    yield from opened(target)


@pytest.fixture
def file_farm(garden_file: Path) -> Iterator[Farm]:
    """Return a furnished garden in a file, for what only a file does."""
    yield from opened(garden_file)


def opened(target: Path | str) -> Iterator[Farm]:
    """Open and furnish, and close again."""
    engine = open_engine(target)
    made = Farm(engine, stamp(), target)
    with transaction(engine, made.stamp) as tx:
        furnish(tx, made)
    yield made
    engine.dispose()
