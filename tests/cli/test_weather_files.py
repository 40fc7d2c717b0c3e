"""Weather files through the front door: shown, taken in, taken in again, corrected, forecast, from several stations."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

DAYS = "date,tmax_c,tmin_c,rain_mm\n2026-07-19,33,21,0\n2026-07-20,34.5,22,1.5\n"


@pytest.fixture
def days(tmp_path: Path):
    """Write a weather file."""

    def written(text: str = DAYS, name: str = "days.csv") -> str:
        file = tmp_path / name
        file.write_text(text, encoding="utf-8")
        return str(file)

    return written


def stored(database: Path, sql: str) -> list[tuple]:
    with closing(sqlite3.connect(database)) as connection:
        return connection.execute(sql).fetchall()


def test_taking_a_file_in_twice_changes_nothing(bedwalk, database: Path, days) -> None:
    assert "2 days new, 0 unchanged, 0 corrected." in bedwalk("weather", "import", days(), "--yes").out
    before = [stored(database, f"SELECT * FROM {table} ORDER BY id") for table in ("weather_day", "change")]
    assert "0 days new, 2 unchanged, 0 corrected." in bedwalk("weather", "import", days(), "--yes").out
    assert [stored(database, f"SELECT * FROM {table} ORDER BY id") for table in ("weather_day", "change")] == before


def test_a_changed_figure_is_reported_and_what_stood_there_stays_in_the_history(bedwalk, days) -> None:
    bedwalk("weather", "import", days(), "--yes")
    changed = bedwalk("weather", "import", days(DAYS.replace("34.5", "36")), "--yes", "--json").json
    assert (changed["added"], changed["unchanged"], changed["corrected"]) == (0, 1, 1)
    assert changed["corrections"] == ["2026-07-20 high: 34.5 °C, now 36 °C"]
    kept = bedwalk("weather", "corrections").out
    assert kept.startswith("2026-07-20 high: 34.5 °C, now 36 °C (here, corrected 20") and kept.count("\n") == 1


def test_a_typed_correction_is_in_the_history_too(bedwalk) -> None:
    assert bedwalk("weather", "corrections").out == "No figure of the weather was corrected.\n"
    bedwalk("weather", "add", "34 22 0 dry")
    bedwalk("weather", "add", "35 22")
    (told,) = bedwalk("weather", "corrections", "--json").json
    assert told.startswith("2026-07-22 high: 34 °C, now 35 °C (here, corrected 20")


def test_corrected_hours_are_told_by_hour(bedwalk, days) -> None:
    hours = "time,temp_c,rh_pct\n2026-07-21 14:00,34,60\n2026-07-21 15:00,33,62\n"
    bedwalk("weather", "import", days(hours), "--yes")
    out = bedwalk("weather", "import", days(hours.replace("33,62", "33,64")), "--yes").out
    assert "0 hours new, 1 unchanged, 1 corrected." in out
    assert "2026-07-21 15:00 humidity: 62 %, now 64 %" in out
    assert "2026-07-21 15:00 humidity" in bedwalk("weather", "corrections").out


def test_hours_and_days_are_told_apart_by_the_file(bedwalk, days) -> None:
    for station, (text, what) in enumerate(
        (
            (DAYS, "days"),
            ("time,tmax,tmin\n2026-07-19,33,21\n", "days"),
            ("time,temp_c\n2026-07-19 01:00,20\n2026-07-19 02:00,21\n", "hours"),
            ("date,hour,temp_c\n2026-07-19,1,20\n", "hours"),
            ("date,temp\n2026-07-19 01:00,20\n2026-07-19 02:00,21\n", "hours"),
            ("date,rain\n2026-07-19 00:00,20\n2026-07-20 00:00,21\n", "days"),
        )
    ):
        ran = bedwalk("weather", "import", days(text), "--yes", "--station", f"station {station}")
        assert f" {what} new" in ran.out.splitlines()[-1], text


def test_what_is_still_to_come_is_no_record(bedwalk, days) -> None:
    ran = bedwalk("weather", "import", days(DAYS + "2026-07-23,35,22,0\n"), "--yes")
    assert "Row 4: 2026-07-23 is still to come; a forecast is taken in with its time of issue." in ran.out
    assert "2 days new, 0 unchanged, 0 corrected, 1 refused." in ran.out


def test_a_forecast_file_never_serves_as_a_record(bedwalk, database: Path, days) -> None:
    ahead = "date,tmax_c,tmin_c\n2026-07-20,30,20\n2026-07-22,38,24\n2026-07-23,39,25\n"
    ran = bedwalk("weather", "import", days(ahead), "--yes", "--issued", "2026-07-22 06:00")
    assert "a forecast issued 2026-07-22 06:00, kept apart" in ran.out
    assert "Row 2: 2026-07-20 lies before the day on which the forecast was issued" in ran.out
    assert stored(database, "SELECT DISTINCT kind, issued_at FROM weather_day") == [("forecast", "2026-07-22T06:00")]
    assert "no record yet" in bedwalk("weather", "show", "--days", "1").out
    assert "forecast" in bedwalk("weather", "stations").out
    again = bedwalk("weather", "import", days(ahead), "--yes", "--issued", "2026-07-22T06:00")
    assert "0 days new, 2 unchanged" in again.out
    newer = bedwalk("weather", "import", days(ahead), "--yes", "--issued", "2026-07-22 12:00")
    assert "2 days new" in newer.out  # a later issue is another record, not a correction


def test_each_figure_is_shown_with_its_source(bedwalk, home: Path, days) -> None:
    far = days("date,tmax_c,tmin_c,rain_mm\n2026-07-20,30,20,7\n2026-07-21,29,19,0\n", "far.csv")
    bedwalk("weather", "import", far, "--yes", "--station", "Airport")
    bedwalk("weather", "import", days("date,tmax_c\n2026-07-20,33\n"), "--yes")
    bedwalk("weather", "add", "2026-07-21 31 20 - wet")
    shown = bedwalk("weather", "show", "--days", "3").out.splitlines()
    assert "2026-07-21: high, low, rain station Airport; morning leaves typed" in shown
    assert "2026-07-20: high measured here; low, rain station Airport" in shown
    sources = bedwalk("weather", "show", "--days", "3", "--json").json[2]["sources"]
    assert sources == {"tmax_c": "measured here", "tmin_c": "station Airport", "rain_mm": "station Airport"}
    assert bedwalk("weather", "stations").out.splitlines() == [
        "Airport: 2 days, station, 2026-07-20 to 2026-07-21",
        "here: 1 days, measured, 2026-07-20 to 2026-07-20",
        "here: 1 days, typed, 2026-07-21 to 2026-07-21",
    ]
    (home / "settings.toml").write_text('stations = "here"\n', encoding="utf-8")
    assert "Airport" not in bedwalk("weather", "show", "--days", "3").out
    assert bedwalk("weather", "show", "--days", "3", "--json").json[1]["rain_mm"] is None
    assert "not asked about this garden" in bedwalk("weather", "stations").out


def test_of_two_that_measured_the_gardens_own_holds(bedwalk, days) -> None:
    """A greenhouse stands before "here" in the alphabet, and must not speak for the beds."""
    bedwalk(
        "weather", "import", days(DAYS.replace("33,", "45,")), "--yes", "--station", "glass", "--source", "measured"
    )
    bedwalk("weather", "import", days(), "--yes")
    assert bedwalk("weather", "show", "--days", "4", "--json").json[3]["tmax_c"] == 33.0


WRONG = {
    "no day": ("tmax_c,tmin_c\n33,21\n", "no column for the day"),
    "no weather": ("date,moon\n2026-07-19,full\n", "no column for any weather; found: “date”, “moon”"),
    "fahrenheit without a unit": ("date,high,low\n2026-07-19,95,70\n", "goes up to 95 and names no unit"),
    "temperature in mm": ("date,high (mm),low\n2026-07-19,30,20\n", "cannot be in mm"),
    "only impossible figures": (
        "date,tmax (°C),tmin (°C)\n2026-07-19,95,70\n2026-07-20,99,71\n",
        "No row can be taken in",
    ),
    "two date orders": ("date,tmax\n13/07/2026,30\n07/14/2026,31\n", "mix day/month and month/day"),
    "a zone that is none": ("time,temp\n2026-07-19 01:00,20\n", "is no time zone"),
}


@pytest.mark.parametrize(("text", "says"), WRONG.values(), ids=WRONG.keys())
def test_a_file_that_cannot_be_right_is_refused_and_nothing_written(bedwalk, database: Path, days, text, says) -> None:
    assert (
        says
        in bedwalk("weather", "import", days(text), "--yes", *(["--zone", "Mars"] if "zone" in says else [])).complaint
    )
    assert stored(database, "SELECT count(*) FROM weather_day") == [(0,)]


def test_bad_rows_are_refused_with_number_and_reason_and_the_good_ones_kept(bedwalk, database: Path, days) -> None:
    rows = [
        "2026-07-19,33,21,0",
        "2026-07-19,33,21,0",
        "2026-07-20,99,21,0",
        "2026-07-21,20,25,0",
        "2026-07-22,30,20,-5",
    ]
    ran = bedwalk("weather", "import", days("date,tmax (°C),tmin (°C),rain (mm)\n" + "\n".join(rows)), "--yes")
    for row, reason in (
        (3, "already in row 2"),
        (4, "99 °C cannot be"),
        (5, "is above the highest"),
        (6, "-5 mm cannot be"),
    ):
        (line,) = [line for line in ran.out.splitlines() if line.startswith(f"Row {row}: ")]
        assert reason in line
    assert stored(database, 'SELECT "on" FROM weather_day') == [("2026-07-19",)]


def test_a_unit_that_may_be_wrong_is_pointed_at_before_anything_is_written(bedwalk, days) -> None:
    """58 °F taken for °C is hotter than any garden on record; 12 mm taken for inches is 305 mm."""
    ran = bedwalk("weather", "import", days("date,tmax (°C),rain (in)\n2026-07-19,58,12.4\n"))
    assert "Look twice: “tmax (°C)” goes up to 58 °C" in ran.out
    assert "Look twice: “rain (in)” goes up to 315 mm" in ran.out
    assert "Highest temperature 58 to 58 °C; rain 12.4 to 12.4 inches." in ran.out


def test_a_stopped_import_leaves_nothing(bedwalk, database: Path, days, monkeypatch) -> None:
    from scout.store import weather_import

    def stopped(*about: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(weather_import, "_note_hours", stopped)
    ran = bedwalk("weather", "import", days("time,temp_c\n2026-07-19 01:00,20\n2026-07-19 02:00,21\n"), "--yes")
    assert (ran.code, ran.err) == (130, "bedwalk: Stopped; nothing was written.\n")
    assert stored(database, "SELECT count(*) FROM weather_hour") == [(0,)]
    assert stored(database, "SELECT count(*) FROM weather_series") == [(0,)]
