import gc
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from scout.errors import BadInput
from scout.intake.sheet import Hints, Intake
from scout.intake.weather_hours_csv import HourRow, read_hours


def _hours(tmp_path: Path, text: str, **options: object) -> Intake[HourRow]:
    file = tmp_path / "hours.csv"
    file.write_text(text, encoding="utf-8")
    return read_hours(file, Hints(**options))  # type: ignore[arg-type]


HOURS = "time,temp_c,rh_pct,rain_mm,wind_ms,wet\n2026-07-01T13:00,30.5,60,0,1.5,0\n2026-07-01T14:00,31,,0.2,,1\n"


def test_hours_are_read(tmp_path: Path) -> None:
    assert _hours(tmp_path, HOURS).rows == (
        HourRow("2026-07-01T13:00", 0, 30.5, 60.0, 0.0, 1.5, False),
        HourRow("2026-07-01T14:00", 0, 31.0, None, 0.2, None, True),
    )


@pytest.mark.parametrize(
    ("heading", "first"),
    [
        ("Date,Time", "13/07/2026,2:00 PM"),
        ("Date,Hour", "2026-07-13,14"),
        ("Timestamp", "13.07.2026 14:00:00"),
        ("Date time", "07/13/2026 2:00 pm"),
        ("Time", "2026-07-13 14:00"),
        ("Time", "13 Jul 2026 1400"),
        ("Date,Time", "2026-07-13,14:00:00"),
    ],
)
def test_times_are_read_in_the_forms_in_common_use(tmp_path: Path, heading: str, first: str) -> None:
    (row,) = _hours(tmp_path, f"{heading},Temp (°C)\n{first},20\n").rows
    assert row.at == "2026-07-13T14:00"


def test_midnight_as_24_is_the_next_day_and_as_12_am_the_same(tmp_path: Path) -> None:
    rows = _hours(tmp_path, "time,temp_c\n2026-07-01 24:00,20\n2026-07-01 12:00 AM,20\n2026-07-01 12:30 pm,20\n").rows
    assert [row.at for row in rows] == ["2026-07-02T00:00", "2026-07-01T00:00", "2026-07-01T12:30"]


def test_an_offset_is_kept_and_mixing_is_refused(tmp_path: Path) -> None:
    (row,) = _hours(tmp_path, "time,temp_c\n2026-07-01T14:00+02:00,20\n").rows
    assert (row.at, row.offset_min) == ("2026-07-01T12:00", 0)  # the garden lies in UTC
    with pytest.raises(BadInput, match="with and without an offset"):
        _hours(tmp_path, "time,temp_c\n2026-07-01T14:00+02:00,20\n2026-07-01T15:00,20\n")


def test_wind_in_other_units_becomes_metres_a_second(tmp_path: Path) -> None:
    """36 km/h = 10 m/s; 1 mile = 1609.344 m; 1 knot = 1852 m/h (definitions)."""
    for unit, figure, expected in (("km/h", 36, 10.0), ("mph", 10, 4.470), ("kn", 10, 5.144)):
        (row,) = _hours(tmp_path, f"time,wind ({unit})\n2026-07-01 14:00,{figure}\n").rows
        assert row.wind_ms == pytest.approx(expected, abs=0.001)


def test_a_sensors_own_wetness_scale_is_not_taken_for_wet(tmp_path: Path) -> None:
    intake = _hours(tmp_path, "time,temp_c,leaf wetness\n2026-07-01 14:00,20,15\n2026-07-01 15:00,20,0\n")
    assert [row.wet for row in intake.rows] == [None, None] and intake.refused == ()
    assert any("not used" in line for line in intake.understood)


def test_wet_minutes_of_an_hour_become_wet_or_dry(tmp_path: Path) -> None:
    rows = _hours(tmp_path, "time,wet (min)\n2026-07-01 14:00,45\n2026-07-01 15:00,10\n2026-07-01 16:00,\n").rows
    assert [row.wet for row in rows[:2]] == [True, False] and len(rows) == 2


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("2026-07-01T13:00,20,50,0,1,0", "already in row 2"),
        ("2026-07-01T25:00,20,50,0,1,0", "not a time of day"),
        ("yesterday,20,50,0,1,0", "not a date with a time"),
        ("2026-07-01 16:00,20,101,0,1,0", "cannot be"),
        ("2026-07-01 16:00,20,50,0,200,0", "cannot be"),
        ("2026-07-01 16:00,20,50,0,1,moist", "neither wet nor dry"),
        ("0001-07-01 16:00,20,50,0,1,0", "century"),
    ],
)
def test_an_hour_that_cannot_be_is_refused_with_row_and_reason(tmp_path: Path, row: str, said: str) -> None:
    intake = _hours(tmp_path, HOURS + row + "\n")
    assert len(intake.rows) == 2
    (refused,) = intake.refused
    assert refused.row == 4 and said in refused.reason


def test_a_file_of_hours_without_a_time_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match=r"no column for the hour; found: “date”, “temp”"):
        _hours(tmp_path, "date,temp\n2026-07-01,20\n")


def test_ten_years_of_hours_all_come_back(tmp_path: Path) -> None:
    start = datetime(2016, 1, 1)
    lines = [f"{start + timedelta(hours=hour):%d.%m.%Y %H:%M};{hour % 40},{hour % 10}" for hour in range(87_600)]
    intake = _hours(tmp_path, "Zeit;Temperatur (°C)\n" + "\n".join(lines))
    assert len(intake.rows) == 87_600 and intake.refused == ()
    assert intake.rows[-1].at == (start + timedelta(hours=87_599)).isoformat("T", "minutes")


def test_the_garbage_collector_runs_again_after_a_file_was_read_or_refused(tmp_path: Path) -> None:
    assert gc.isenabled()
    _hours(tmp_path, HOURS)
    assert gc.isenabled()
    with pytest.raises(BadInput):
        _hours(tmp_path, "date,temp\n2026-07-01,20\n")
    assert gc.isenabled()
