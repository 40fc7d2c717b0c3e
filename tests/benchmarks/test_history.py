"""Questions about a million findings, against the same SQL asked of sqlite3 by hand."""

import sqlite3
import statistics
import time
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from scout import paths
from scout.services import garden, site
from scout.services.context import Context
from scout.store import findings

FINDINGS_N, BEDS_N, ASKED_N = 1_000_000, 40, 15
SIGNS = ("leaf.white_powder", "leaf.mosaic", "insect.aphids", "fruit.pinched_blossom_end")
AGGREGATE_MOST, ROWS_MOST = 1.5, 6.0


@pytest.fixture(scope="module")
def million(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Context, Path, str]]:
    """A garden of forty beds with a million findings over ten seasons; the context, its file and a bed."""
    context = Context(tmp_path_factory.mktemp("million") / "home")
    site.create_garden(context, "A million", zone="UTC")
    beds = [garden.add_bed(context, f"Bed {n}") for n in range(BEDS_N)]
    plants = [garden.add_planting(context, (bed,), "cucumber") for bed in beds]
    context.engine.dispose()
    file = paths.database(context.root)
    with sqlite3.connect(file) as connection:
        connection.executemany(
            "INSERT INTO finding (id, garden_id, device_id, author, entered_at, observed_at, observed_offset_min,"
            " planting_id, bed_id, symptom, state, looked_n, affected_n, note, manner)"
            " VALUES (?, ?, ?, 'me', ?, ?, 0, ?, ?, ?, 'seen', 8, ?, '', 'look')",
            _rows(context, beds, plants),
        )
    yield context, file, beds[7]
    context.engine.dispose()


def _rows(context: Context, beds: list[str], plants: list[str]) -> Iterator[tuple[Any, ...]]:
    first = datetime(2017, 5, 1, 8, 0)
    for n in range(FINDINGS_N):
        at = (first + timedelta(minutes=4 * n)).isoformat(timespec="minutes")
        bed = n % BEDS_N
        row_id = f"00000000-0000-7000-9000-{n:012x}"
        yield (
            row_id, context.garden_id, context.device_id, f"{at}:00Z", at, plants[bed], beds[bed], SIGNS[n % 4], n % 9,
        )  # fmt: skip


def _median_s(asked: Callable[[], object]) -> float:
    took = []
    for _ in range(ASKED_N):
        since = time.perf_counter()
        asked()
        took.append(time.perf_counter() - since)
    return statistics.median(took)


def test_when_a_sign_was_first_seen_is_asked_as_fast_as_by_hand(benchmark, million, tell) -> None:
    context, file, _ = million
    span = {"symptom": SIGNS[2], "since": "2019-01-01", "until": "2022-12-31"}
    sql = """
        SELECT min(observed_at) FROM finding WHERE garden_id = ? AND symptom = ? AND state = 'seen'
        AND observed_at >= ? AND observed_at < ?
    """
    with context.read() as session, sqlite3.connect(file) as raw:
        asked = findings.first_seen(session=session, garden_id=str(context.garden_id), **span)
        by_hand = raw.execute(sql, (context.garden_id, span["symptom"], span["since"], "2023-01-01")).fetchone()
        assert asked == by_hand[0]
        ours = _median_s(lambda: findings.first_seen(session=session, garden_id=str(context.garden_id), **span))
        theirs = _median_s(
            lambda: raw.execute(sql, (context.garden_id, span["symptom"], span["since"], "2023-01-01")).fetchone()
        )
    benchmark.pedantic(lambda: None, rounds=1)
    tell(ours_ms=1000 * ours, by_hand_ms=1000 * theirs, ratio=ours / theirs)
    assert ours / theirs <= AGGREGATE_MOST


def test_the_last_two_hundred_of_a_bed_are_found_by_an_index(benchmark, million, tell) -> None:
    context, file, bed = million
    sql = findings.LAST_OF_BED.replace(":bed", "?").replace(":most", "?")
    with context.read() as session, sqlite3.connect(file) as raw:
        assert list(findings.last_of_bed(session=session, bed_id=bed)) == raw.execute(sql, (bed, 200)).fetchall()
        plan = " ".join(str(row) for row in raw.execute(f"EXPLAIN QUERY PLAN {sql}", (bed, 200)))
        assert "SEARCH finding USING INDEX" in plan and "TEMP B-TREE" not in plan
        ours = _median_s(lambda: findings.last_of_bed(session=session, bed_id=bed))
        theirs = _median_s(lambda: raw.execute(sql, (bed, 200)).fetchall())
    benchmark.pedantic(lambda: None, rounds=1)
    tell(ours_ms=1000 * ours, by_hand_ms=1000 * theirs, ratio=ours / theirs)
    assert ours / theirs <= ROWS_MOST
