"""Days from infection to the first spot, summed over the temperatures of the days."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.incubation import development_frac, spots_by_d

# Septoria on tomato shows after 6 days at 15-27 °C (INRAE, biology page); the limits are from memory.
TOLD, LIMITS, USUAL = (15.0, 27.0), (5.0, 33.0), 6.0


@pytest.mark.parametrize("mean_c", [15.0, 21.0, 27.0])
def test_within_the_published_range_the_published_time_holds(mean_c: float) -> None:
    assert spots_by_d([mean_c] * 30, USUAL, TOLD, LIMITS) == pytest.approx(6.0)


def test_half_way_to_the_limit_takes_twice_as_long() -> None:
    # 10 °C is half way from 15 to 5, 30 °C half way from 27 to 33: rate 1/2 (arithmetic).
    assert development_frac(10.0, TOLD, LIMITS) == development_frac(30.0, TOLD, LIMITS) == 0.5
    assert spots_by_d([10.0] * 30, USUAL, TOLD, LIMITS) == pytest.approx(12.0)


def test_three_cool_days_put_it_off_by_a_day_and_a_half() -> None:
    assert spots_by_d([10.0, 10.0, 10.0, *[20.0] * 30], USUAL, TOLD, LIMITS) == pytest.approx(7.5)


def test_days_without_a_temperature_and_days_to_come_count_as_usual() -> None:
    assert spots_by_d([None, None], USUAL, TOLD, LIMITS) == 6.0
    assert spots_by_d([], USUAL, TOLD, LIMITS) == 6.0
    assert spots_by_d([0.0, 0.0], USUAL, TOLD, LIMITS) == 8.0


def test_limits_inside_the_range_and_times_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="around"):
        development_frac(20.0, TOLD, (16.0, 33.0))
    with pytest.raises(ValueError, match="usual_d"):
        spots_by_d([], 61.0, TOLD, LIMITS)


@given(st.lists(st.one_of(st.none(), st.floats(-20, 45)), max_size=40), st.floats(0.0, 30.0))
def test_weather_never_makes_it_shorter_than_told(days: list[float | None], usual: float) -> None:
    assert spots_by_d(days, usual, TOLD, LIMITS) >= usual - 1e-9
