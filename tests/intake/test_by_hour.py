"""Readings a few minutes apart, put together by hour."""

from pathlib import Path

from scout.intake.sheet import Intake
from scout.intake.weather_hours_csv import HourRow, read_hours


def read(tmp_path: Path, rows: list[str], head: str = "time,temp_c,rh_pct,rain_mm,wind_ms,wet") -> Intake[HourRow]:
    file = tmp_path / "hours.csv"
    file.write_text("\n".join([head, *rows]) + "\n", encoding="utf-8")
    return read_hours(file)


def quarter_hours(*rain: float) -> list[str]:
    return [
        f"2026-07-01 {n // 4:02d}:{n % 4 * 15:02d},{20 + n % 4},{60 + n},{one},1,{n % 2}" for n, one in enumerate(rain)
    ]


def test_four_readings_an_hour_are_a_mean_and_their_rain_is_added_up(tmp_path: Path) -> None:
    """By hand: temperatures 20-23 have the mean 21.5, rain 0.2 + 0.4 + 0 + 0.2 = 0.8."""
    intake = read(tmp_path, quarter_hours(0.2, 0.4, 0, 0.2, 0, 0, 0, 0))
    assert intake.rows == (
        HourRow("2026-07-01T00:00", 0, 21.5, 61.5, 0.8, 1.0, True),
        HourRow("2026-07-01T01:00", 0, 21.5, 65.5, 0.0, 1.0, True),
    )
    assert "4 readings an hour put together: rain added up" in " ".join(intake.understood)


def test_a_reading_between_the_hours_tells_no_rain_of_its_hour(tmp_path: Path) -> None:
    """The extra one may repeat the rain of the hour so far."""
    rows = [f"2026-07-01 {h:02d}:00,20,60,{0.4 if h == 5 else 0.0},1,0" for h in range(12)]
    rows.insert(6, "2026-07-01 05:30,22,60,0.4,1,0")
    intake = read(tmp_path, rows)
    assert len(intake.rows) == 12
    assert (intake.rows[5].temp_c, intake.rows[5].rain_mm, intake.rows[4].rain_mm) == (21.0, None, 0.0)


def test_one_reading_an_hour_stays_at_its_minute(tmp_path: Path) -> None:
    rows = [f"2026-07-01 {h:02d}:53,20,60,0.1,1,0" for h in range(3)]
    assert [row.at[11:] for row in read(tmp_path, rows).rows] == ["00:53", "01:53", "02:53"]


def test_rain_that_only_grows_through_the_day_is_a_running_total_and_not_used(tmp_path: Path) -> None:
    intake = read(tmp_path, [f"2026-07-01 {h:02d}:00,20,60,{h * 0.5},1,0" for h in range(6)])
    assert [row.rain_mm for row in intake.rows] == [0.0, None, None, None, None, None]
    assert "running total" in " ".join(intake.understood)
    falls = read(tmp_path, [f"2026-07-01 {h:02d}:00,20,60,{(0, 1, 2, 3, 0.5, 0)[h]},1,0" for h in range(6)])
    assert falls.rows[3].rain_mm == 3.0


def test_what_is_missing_in_part_of_an_hour_comes_from_the_rest(tmp_path: Path) -> None:
    rows = [
        "2026-07-01 00:00,20,,0.2,,",
        "2026-07-01 00:30,,,0.2,,",
        "2026-07-01 01:00,,70,,,",
        "2026-07-01 01:30,,80,,,",
    ]
    assert read(tmp_path, rows).rows == (
        HourRow("2026-07-01T00:00", 0, 20.0, None, 0.4, None, None),
        HourRow("2026-07-01T01:00", 0, None, 75.0, None, None, None),
    )
