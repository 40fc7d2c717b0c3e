"""Intervals of a label by the wall clock: across midnight and where the clock is changed."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.label_times import ends_by_the_clock

BERLIN, NEW_YORK, CAIRO = ZoneInfo("Europe/Berlin"), ZoneInfo("America/New_York"), ZoneInfo("Africa/Cairo")


@pytest.mark.parametrize(
    ("applied", "hours", "ends"),
    [
        # 24 hours a day from the end of the application (university pesticide pages): 3 July 18:30 + 7 days.
        ("2026-07-03T18:30", 7 * 24, "2026-07-10T18:30"),
        # 12 hours over midnight.
        ("2026-07-03T18:30", 12, "2026-07-04T06:30"),
        # The year's end.
        ("2026-12-31T20:00", 12, "2027-01-01T08:00"),
        # The clock is put back on 25 October 2026: twelve hours end at 5, not at 6.
        ("2026-10-24T18:00", 12, "2026-10-25T05:00"),
        # And forward on 29 March 2026: twelve hours end at 7.
        ("2026-03-28T18:00", 12, "2026-03-29T07:00"),
        # Seven days of 24 hours over the change.
        ("2026-10-20T18:30", 7 * 24, "2026-10-27T17:30"),
        ("2026-03-25T18:30", 7 * 24, "2026-04-01T19:30"),
        # An end within the hour that comes twice waits until it is over.
        ("2026-10-24T14:30", 12, "2026-10-25T03:00"),
        ("2026-10-24T15:30", 12, "2026-10-25T03:00"),
        # A beginning within that hour is taken for its second time: 12 hours from 2:30 winter time.
        ("2026-10-25T02:30", 12, "2026-10-25T14:30"),
        # A beginning that the clock skipped: an hour later by the sun than it says.
        ("2026-03-29T02:30", 1, "2026-03-29T04:30"),
        ("2026-07-03T18:30", 0, "2026-07-03T18:30"),
        # A minute begun is a minute to wait.
        ("2026-07-03T18:30:01", 12, "2026-07-04T06:31"),
    ],
)
def test_an_interval_ends_when_its_hours_have_passed(applied: str, hours: int, ends: str) -> None:
    # Dates of the change in the European Union: last Sundays of March and October, at 01:00 UTC.
    assert ends_by_the_clock(datetime.fromisoformat(applied), hours, BERLIN) == datetime.fromisoformat(ends)


def test_the_change_of_another_country() -> None:
    # USA 2026: 8 March and 1 November, at 2 by the local clock.
    assert ends_by_the_clock(datetime(2026, 10, 31, 20), 24, NEW_YORK) == datetime(2026, 11, 1, 19)
    assert ends_by_the_clock(datetime(2026, 3, 7, 20), 24, NEW_YORK) == datetime(2026, 3, 8, 21)


@given(st.integers(0, 525_599), st.integers(0, 400), st.sampled_from([BERLIN, NEW_YORK, CAIRO, ZoneInfo("Etc/UTC")]))
def test_no_interval_ends_early_and_none_more_than_two_clock_changes_late(
    minute: int, hours: int, zone: ZoneInfo
) -> None:
    applied = datetime(2026, 1, 1) + timedelta(minutes=minute)
    end = ends_by_the_clock(applied, hours, zone)
    # Whichever instants the two wall times mean, the hours have passed: the earliest end against the latest start.
    earliest_end = min(end.replace(tzinfo=zone, fold=fold).astimezone(UTC) for fold in (0, 1))
    start = max(applied.replace(tzinfo=zone, fold=fold).astimezone(UTC) for fold in (0, 1))
    assert timedelta(hours=hours) <= earliest_end - start <= timedelta(hours=hours + 2)


def test_negative_hours_are_refused() -> None:
    with pytest.raises(ValueError, match="hours_n is -1"):
        ends_by_the_clock(datetime(2026, 7, 3), -1, BERLIN)
