"""How long a stop takes: the stated default, then the garden's own median."""

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.diagnosis.due import Pass
from scout.diagnosis.minutes import ENOUGH_STOPS, LONGEST_MIN, SHORTEST_MIN, default_minutes, measured_minutes


def test_a_quiet_bed_takes_the_seconds_of_its_plants() -> None:
    # Our stated choice: a minute, six seconds a plant, and nine more where it is picked over.
    assert default_minutes("clean", picked=False, plants_n=10) == 2.0
    assert default_minutes("clean", picked=True, plants_n=10) == 3.5
    assert default_minutes("spotted", picked=True, plants_n=6) == 5.5


@given(st.sampled_from(get_args(Pass)), st.booleans(), st.one_of(st.none(), st.integers(0, 500)))
def test_defaults_are_whole_half_minutes_and_long_rows_are_sampled(group, picked: bool, plants_n) -> None:
    minutes = default_minutes(group, picked=picked, plants_n=plants_n)
    assert (2.0 * minutes).is_integer()
    assert minutes <= default_minutes(group, picked=picked, plants_n=30)


def test_the_garden_s_own_median_needs_enough_stops() -> None:
    assert measured_minutes([3.0] * (ENOUGH_STOPS - 1)) is None
    assert measured_minutes([3.0] * ENOUGH_STOPS) == 3.0


def test_a_rest_between_two_stops_is_not_timed() -> None:
    assert measured_minutes([2.0] * ENOUGH_STOPS + [LONGEST_MIN + 1.0] * 50) == 2.0


def test_walks_typed_in_afterwards_tell_no_minutes() -> None:
    assert measured_minutes([0.0] * 50 + [1.0]) is None


def test_quick_beds_on_a_clock_of_whole_minutes_take_their_shortest_time() -> None:
    assert measured_minutes([0.0, 0.0, 1.0] * 10) == SHORTEST_MIN


@pytest.mark.parametrize(("gaps", "median"), [([1.0] * 6 + [4.0] * 6, 2.5), ([1.2] * 12, 1.5)])
def test_medians_are_rounded_up_to_the_half_minute(gaps: list[float], median: float) -> None:
    assert measured_minutes(gaps) == median
