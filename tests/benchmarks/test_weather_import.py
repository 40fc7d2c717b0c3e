"""Ten years of hours: taken in as a grower's file, against the same file through csv and executemany into sqlite3."""

import csv
import gc
import math
import sqlite3
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from scout.services import site
from scout.services.context import Context
from scout.services.weather_files import look_into, take_in

from .conftest import Times

ROUNDS = 7
MOST = 3.0
HOURS = 87_648
FIRST = datetime(2016, 1, 1)


@pytest.fixture(scope="module")
def ten_years(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Made up and the same each time: time by the wall clock of UTC, four figures, a decimal point, commas."""
    file = tmp_path_factory.mktemp("hours") / "hours.csv"
    with file.open("w", encoding="utf-8") as opened:
        opened.write("time,temp_c,rh_pct,rain_mm,wind_ms\n")
        for hour in range(HOURS):
            warm = 15 + 10 * math.sin(hour / 8766 * 2 * math.pi) + 5 * math.sin(hour / 24 * 2 * math.pi)
            at = f"{FIRST + timedelta(hours=hour):%Y-%m-%d %H:%M}"
            opened.write(f"{at},{warm:.1f},{hour % 60 + 40},{hour % 17 / 10},{hour % 50 / 10}\n")
    return file


def plainly(file: Path, database: Path) -> None:
    """What nobody can do without: read, turn to numbers, insert, commit; as durable as the garden's own file."""
    connection = sqlite3.connect(database)
    connection.execute("PRAGMA journal_mode=WAL")
    connection.execute("PRAGMA synchronous=FULL")
    connection.execute("CREATE TABLE hour (at TEXT PRIMARY KEY, temp REAL, rh REAL, rain REAL, wind REAL)")
    with file.open(newline="", encoding="utf-8") as opened:
        rows = csv.reader(opened)
        next(rows)
        typed = ((row[0], float(row[1]), float(row[2]), float(row[3]), float(row[4])) for row in rows)
        connection.executemany("INSERT INTO hour VALUES (?, ?, ?, ?, ?)", typed)
    connection.commit()
    assert connection.execute("SELECT count(*) FROM hour").fetchone() == (HOURS,)
    connection.close()


def seconds(act: Callable[[], object]) -> float:
    """Return the processor time of one act: the wall clock would tell of the other programs on the machine."""
    gc.collect()
    begun = time.process_time()
    act()
    return time.process_time() - begun


def measured(file: Path, folder: Path) -> dict[str, Times]:
    """Take turns, so that a busy moment meets all of them."""
    taken: dict[str, list[float]] = {"plain": [], "first": [], "again": []}
    for turn in range(ROUNDS):
        context = Context(folder / f"home{turn}", clock=lambda: datetime(2026, 7, 22, 8, tzinfo=UTC))
        site.create_garden(context, "Ten years", zone="UTC")
        taken["plain"].append(seconds(lambda turn=turn: plainly(file, folder / f"plain{turn}.db")))
        taken["first"].append(seconds(lambda context=context: take_in(context, look_into(context, file))))
        taken["again"].append(seconds(lambda context=context: take_in(context, look_into(context, file))))
        context.engine.dispose()
    return {name: Times(column) for name, column in taken.items()}


def test_ten_years_of_hours(benchmark, tell, ten_years: Path, tmp_path: Path) -> None:
    times = benchmark.pedantic(measured, args=(ten_years, tmp_path))
    plain, first, again = (times[name].median_ms for name in ("plain", "first", "again"))
    tell(plain_ms=plain, import_ms=first, ratio=first / plain, again_ms=again, again_ratio=again / plain)
    assert first <= MOST * plain
