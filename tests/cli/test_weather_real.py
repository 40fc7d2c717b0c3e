"""Real records through the front door, twice, against sums that the csv module gives.

The files are the package `vega-datasets` 0.9 (MIT): four years of days and one year of hours, compiled there from the
public records of the US National Oceanic and Atmospheric Administration. Days are in °C and mm, hours in °F.
"""

import csv
import importlib.util
import math
import sqlite3
import statistics
from contextlib import closing
from pathlib import Path

import pytest


@pytest.fixture(scope="module")
def data(require_or_skip) -> Path:
    """The folder of the files; found without loading the package, which loads pandas."""
    spec = importlib.util.find_spec("vega_datasets")
    if spec is None or spec.origin is None:
        require_or_skip("oracle", "vega_datasets")
        raise AssertionError("unreachable")
    return Path(spec.origin).parent / "_data"


def read(file: Path, name: str) -> list[float]:
    with file.open(newline="", encoding="utf-8") as opened:
        return [float(row[name]) for row in csv.DictReader(opened)]


def column(database: Path, sql: str) -> list[float]:
    with closing(sqlite3.connect(database)) as connection:
        return [value for (value,) in connection.execute(sql)]


def test_four_years_of_days_come_in_once_and_whole(bedwalk, data: Path, database: Path) -> None:
    file = data / "seattle-weather.csv"
    take_in = ("weather", "import", str(file), "--yes", "--station", "city")
    first = bedwalk(*take_in).out
    assert "1461 days new, 0 unchanged, 0 corrected." in first
    assert "2012-01-01 to 2015-12-31: 1461 days." in first and "Not used: wind, weather." in first
    for name, heading in (("tmax_c", "temp_max"), ("tmin_c", "temp_min"), ("rain_mm", "precipitation")):
        kept, expected = column(database, f"SELECT {name} FROM weather_day"), read(file, heading)
        assert len(kept) == len(expected) == 1461
        assert math.fsum(kept) == math.fsum(expected) and statistics.fmean(kept) == statistics.fmean(expected)
    changes = column(database, "SELECT count(*) FROM change")
    assert "0 days new, 1461 unchanged, 0 corrected." in bedwalk(*take_in).out
    assert column(database, "SELECT count(*) FROM change") == changes
    assert column(database, "SELECT count(*) FROM weather_day") == [1461]


def test_a_year_of_hours_in_fahrenheit_comes_in_once_and_whole(bedwalk, data: Path, database: Path) -> None:
    file = data / "seattle-temps.csv"
    refused = bedwalk("weather", "import", str(file), "--yes").complaint
    assert "names no unit" in refused
    take_in = ("weather", "import", str(file), "--yes", "--units", "us", "--station", "city")
    assert "8759 hours new, 0 unchanged, 0 corrected." in bedwalk(*take_in).out
    kept, fahrenheit = column(database, "SELECT temp_c FROM weather_hour"), read(file, "temp")
    assert math.fsum(kept) == pytest.approx((math.fsum(fahrenheit) - 32 * len(fahrenheit)) * 5 / 9, abs=0.0005 * 8759)
    assert max(kept) == pytest.approx((max(fahrenheit) - 32) * 5 / 9, abs=0.0005)
    assert "0 hours new, 8759 unchanged, 0 corrected." in bedwalk(*take_in).out


def test_an_hour_that_the_citys_clock_skipped_is_found_in_a_real_file(bedwalk, data: Path) -> None:
    """On 14 March 2010 the clock went from 02:00 to 03:00 there; the file has 02:00 and lacks 03:00."""
    file = str(data / "seattle-temps.csv")
    ran = bedwalk("weather", "import", file, "--yes", "--units", "us", "--zone", "America/Los_Angeles")
    assert "Row 1732: 2010-03-14 02:00 was skipped when the clock went forward" in ran.out
    assert "8758 hours new, 0 unchanged, 0 corrected, 1 refused." in ran.out
    standard = bedwalk("weather", "import", file, "--yes", "--units", "us", "--zone", "-08:00", "--station", "again")
    assert "8759 hours new, 0 unchanged, 0 corrected." in standard.out
