"""Local time: days of 23 and 25 hours, the hour that comes twice, clocks of other zones.

Dates of the changes: EU directive 2000/84/EC (last Sundays of March and October, at 01:00 UTC), so 29 March and 25
October 2026; US Energy Policy Act of 2005 (second Sunday of March, first of November, at 02:00 local), so 8 March and
1 November 2026.
"""

from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.errors import BadInput
from scout.intake.sheet import Hints, Intake
from scout.intake.wall_clock import read_zone, wall_times
from scout.intake.weather_hours_csv import HourRow, read_hours

ROME, NEW_YORK = ZoneInfo("Europe/Rome"), ZoneInfo("America/New_York")


def read(tmp_path: Path, times: list[str], head: str = "time", **hints: object) -> Intake[HourRow]:
    file = tmp_path / "hours.csv"
    file.write_text(
        f"{head},temp_c\n" + "".join(f"{time},{10 + n}\n" for n, time in enumerate(times)), encoding="utf-8"
    )
    return read_hours(file, Hints(**({"garden": ROME} | hints)))  # type: ignore[arg-type]


def stamps(intake: Intake[HourRow]) -> list[tuple[str, int]]:
    return [(row.at[5:], row.offset_min) for row in intake.rows]


def hours(day: str, *skipped: int) -> list[str]:
    return [f"{day} {hour:02d}:00" for hour in range(24) if hour not in skipped]


def test_a_day_of_23_hours_has_23_and_the_offset_moves_with_the_clock(tmp_path: Path) -> None:
    intake = read(tmp_path, hours("2026-03-29", 2))
    assert len(intake.rows) == 23 and intake.refused == ()
    assert stamps(intake)[1:3] == [("03-29T01:00", 60), ("03-29T03:00", 120)]


def test_a_time_the_clock_skipped_is_refused_with_the_mend(tmp_path: Path) -> None:
    intake = read(tmp_path, hours("2026-03-29"))
    (refused,) = intake.refused
    assert refused.row == 4 and "02:00 was skipped when the clock went forward" in refused.reason
    assert "standard" in refused.reason and len(intake.rows) == 23


def test_a_day_of_25_hours_keeps_both_of_the_hour_that_came_twice(tmp_path: Path) -> None:
    times = hours("2026-10-25")
    intake = read(tmp_path, [*times[:3], times[2], *times[3:]])
    assert len(intake.rows) == 25 and intake.refused == ()
    assert stamps(intake)[2:5] == [("10-25T02:00", 120), ("10-25T02:00", 60), ("10-25T03:00", 60)]
    assert [row.temp_c for row in intake.rows[2:4]] == [12.0, 13.0]
    assert any("the first is summer time" in line for line in intake.understood)


def test_a_file_that_runs_backwards_has_the_later_of_the_two_first(tmp_path: Path) -> None:
    times = hours("2026-10-25")
    intake = read(tmp_path, [*times[:3], times[2], *times[3:]][::-1])
    assert stamps(intake)[::-1][2:4] == [("10-25T02:00", 120), ("10-25T02:00", 60)]


def test_the_third_of_an_hour_that_came_twice_is_refused(tmp_path: Path) -> None:
    intake = read(tmp_path, ["2026-10-25 01:00", *["2026-10-25 02:00"] * 3, "2026-10-25 03:00"])
    (refused,) = intake.refused
    assert refused.row == 5 and "already in row 4" in refused.reason


def test_an_hour_that_should_have_come_twice_and_came_once_is_said(tmp_path: Path) -> None:
    intake = read(tmp_path, hours("2026-10-25"))
    assert len(intake.rows) == 24 and stamps(intake)[2] == ("10-25T02:00", 120)
    assert any("in the file once" in line for line in intake.understood)


@pytest.mark.parametrize(
    ("head", "hints"),
    [("time (UTC)", {}), ("time_utc", {}), ("UTC", {}), ("Timestamp (GMT)", {}), ("time", {"zone": UTC})],
)
def test_times_in_utc_become_the_gardens_wall_clock(tmp_path: Path, head: str, hints: dict[str, object]) -> None:
    intake = read(tmp_path, ["2026-10-25 00:00", "2026-10-25 01:00", "2026-07-01 12:00"], head, **hints)
    assert stamps(intake) == [("10-25T02:00", 120), ("10-25T02:00", 60), ("07-01T14:00", 120)]
    assert any("garden's clock" in line for line in intake.understood)


def test_a_zone_in_the_cells_is_read_and_one_with_two_meanings_refused(tmp_path: Path) -> None:
    times = ["2026-07-01 12:00 UTC", "2026-07-01 13:00 +0000", "2026-07-01 16:00:00 +02:00", "2026-07-01 09:00 CST"]
    intake = read(tmp_path, times)
    assert stamps(intake) == [("07-01T14:00", 120), ("07-01T15:00", 120), ("07-01T16:00", 120)]
    assert intake.refused[0].row == 5 and "several time zones" in intake.refused[0].reason


@pytest.mark.parametrize("head", ["time (local standard time)", "Time LST"])
def test_a_logger_without_summer_time_is_read_by_standard_time(tmp_path: Path, head: str) -> None:
    """02:30 on the day of the change exists for such a logger; in July it is an hour behind the wall clock."""
    for intake in (
        read(tmp_path, ["2026-03-29 02:30", "2026-07-01 12:00"], head),
        read(tmp_path, ["2026-03-29 02:30", "2026-07-01 12:00"], zone=read_zone("standard", ROME)),
    ):
        assert stamps(intake) == [("03-29T03:30", 120), ("07-01T13:00", 120)] and intake.refused == ()


def test_a_file_from_another_zone_is_turned_to_the_gardens(tmp_path: Path) -> None:
    """Between 8 and 29 March New York is on summer time and Rome is not: five hours apart instead of six."""
    intake = read(tmp_path, ["2026-03-01 12:00", "2026-03-20 12:00", "2026-07-01 20:00"], zone=NEW_YORK)
    assert stamps(intake) == [("03-01T18:00", 60), ("03-20T17:00", 60), ("07-02T02:00", 120)]


@pytest.mark.parametrize(
    ("text", "minutes"), [("UTC", 0), ("+02:00", 120), ("-0530", -330), ("UTC+1", 60), ("standard", 60), ("z", 0)]
)
def test_zones_are_read_in_the_forms_in_common_use(text: str, minutes: int) -> None:
    assert read_zone(text, ROME).utcoffset(datetime(2026, 7, 1)) == timedelta(minutes=minutes)


def test_standard_time_is_found_south_of_the_equator() -> None:
    """Sydney is on +10 in winter, its standard time, and on +11 in January."""
    assert read_zone("standard", ZoneInfo("Australia/Sydney")).utcoffset(None) == timedelta(hours=10)


@pytest.mark.parametrize("text", ["Mars/Base", "", "+99:00", "../etc", "EST5EDT9x", "x" * 5000])
def test_a_zone_that_is_none_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(BadInput, match="is no time zone"):
        read_zone(text, ROME)


@given(
    st.lists(st.datetimes(datetime(2020, 1, 1), datetime(2030, 1, 1)), min_size=1, max_size=20),
    st.sampled_from(["Europe/Rome", "America/New_York", "Asia/Kolkata", "Australia/Lord_Howe", "Africa/Casablanca"]),
    st.sampled_from(["UTC", "+05:45", "America/St_Johns", "Pacific/Apia"]),
)
def test_every_instant_is_where_the_standard_library_puts_it(instants: list[datetime], garden: str, file: str) -> None:
    """Oracle: datetime.astimezone, instant by instant."""
    whole = [instant.replace(second=0, microsecond=0, tzinfo=UTC) for instant in instants]
    zone, other = ZoneInfo(garden), read_zone(file, ZoneInfo(garden))
    found = wall_times([instant.astimezone(other) for instant in whole], UTC, zone)
    local = [instant.astimezone(zone) for instant in whole]
    assert found.at == [one.strftime("%Y-%m-%dT%H:%M") for one in local]
    assert [timedelta(minutes=minutes) for minutes in found.offset_min] == [one.utcoffset() for one in local]


@given(st.integers(0, 24 * 366 * 2), st.sampled_from(["Europe/Rome", "America/New_York", "Australia/Lord_Howe"]))
def test_no_hour_of_a_stretch_is_lost_or_doubled(start_h: int, garden: str) -> None:
    """Three days written by the wall clock, as a station writes them, are the same instants again."""
    zone = ZoneInfo(garden)
    first = datetime(2025, 1, 1, tzinfo=UTC) + timedelta(hours=start_h)
    instants = [first + timedelta(minutes=30 * n) for n in range(144)]
    written = [instant.astimezone(zone).replace(tzinfo=None, fold=0) for instant in instants]
    doubtful = written[0].replace(fold=1, tzinfo=zone).utcoffset() != written[0].replace(tzinfo=zone).utcoffset()
    found = wall_times(written, zone, zone)
    back = [
        datetime.fromisoformat(at).replace(tzinfo=timezone(timedelta(minutes=minutes)))
        for at, minutes in zip(found.at, found.offset_min, strict=True)
    ]
    if not doubtful:  # a file that begins within the hour that came twice cannot tell which of the two it is
        assert back == instants
    assert found.problems == {}
