"""`bedwalk weather feed`: off until the settings name an address; then shown, agreed to, and kept apart."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from scout import paths

from ..feed_server import feed_server
from .test_weather_files import stored


@pytest.fixture
def served() -> Iterator[str]:
    with feed_server() as (base, _):
        yield base


def set_feed(database: Path, address: str) -> None:
    paths.settings_file(database.parent).write_text(f'feed = "{address}"\n', encoding="utf-8")


def test_without_a_feed_none_is_asked(bedwalk) -> None:
    ran = bedwalk("weather", "feed", "--yes")
    assert ran.code == 1 and "No feed is set" in ran.complaint


def test_nothing_is_written_until_agreed(bedwalk, database: Path, served: str) -> None:
    set_feed(database, f"{served}/days.csv")
    before = stored(database, "SELECT * FROM weather_day ORDER BY id")
    assert "take the rows in with --yes" in bedwalk("weather", "feed").complaint
    assert stored(database, "SELECT * FROM weather_day ORDER BY id") == before


def test_days_of_a_feed_are_a_stations(bedwalk, database: Path, served: str) -> None:
    set_feed(database, f"{served}/days.csv")
    assert "2 days new" in bedwalk("weather", "feed", "--yes").out
    assert "0 days new, 2 unchanged" in bedwalk("weather", "feed", "--yes").out
    kept = stored(database, "SELECT DISTINCT kind, basis FROM weather_day WHERE station = 'feed'")
    assert kept == [("observed", "station")]


def test_hours_to_come_are_a_forecast(bedwalk, database: Path, served: str) -> None:
    set_feed(database, f"{served}/coming.json")
    assert "2 hours new" in bedwalk("weather", "feed", "--yes").out
    kept = stored(database, "SELECT kind, issued_at FROM weather_series WHERE station = 'feed'")
    assert [kind for kind, _ in kept] == ["forecast"] and str(kept[0][1]).startswith("2026-07-22")


@pytest.mark.parametrize(("path", "said"), [("/page", ""), ("/failing", "503"), ("/broken.json", "broken JSON")])
def test_a_bad_feed_is_one_sentence_and_writes_nothing(bedwalk, database: Path, served: str, path, said) -> None:
    set_feed(database, served + path)
    before = stored(database, "SELECT * FROM weather_day ORDER BY id")
    ran = bedwalk("weather", "feed", "--yes")
    assert ran.code == 1 and said in ran.complaint
    assert stored(database, "SELECT * FROM weather_day ORDER BY id") == before
