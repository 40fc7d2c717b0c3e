"""Hours beyond what flowers bear, against an integration, and unknown where limits or records are."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from scout.science.degree_days import hours_above_h, hours_below_h
from scout.science.fruit_set import FlowerDay, FlowerLimits, flower_day, tomato_flowers_abort


@given(st.floats(-10.0, 30.0), st.floats(0.5, 20.0), st.floats(-15.0, 50.0))
def test_hours_above_are_the_time_a_sine_spends_there(tmin_c: float, span_c: float, limit_c: float) -> None:
    """Baskerville & Emin 1969: one sine wave a day; the crossing found by bisection, the time by scipy."""
    mean, reach = tmin_c + span_c / 2.0, span_c / 2.0

    def above(angle: float) -> float:
        return 24.0 / (2.0 * math.pi) if mean + reach * math.sin(angle) > limit_c else 0.0

    ratio = max(-1.0, min(1.0, (limit_c - mean) / reach))
    edges = [math.asin(ratio), math.pi - math.asin(ratio)]
    total, _ = quad(above, -math.pi / 2.0, 1.5 * math.pi, points=edges)
    assert hours_above_h(tmin_c, tmin_c + span_c, limit_c) == pytest.approx(total, abs=1e-6)


@given(st.floats(-10.0, 30.0), st.floats(0.0, 20.0), st.floats(-15.0, 50.0))
def test_above_and_below_make_up_the_day(tmin_c: float, span_c: float, limit_c: float) -> None:
    tmax_c = tmin_c + span_c
    both = hours_above_h(tmin_c, tmax_c, limit_c) + hours_below_h(tmin_c, tmax_c, limit_c)
    assert both == pytest.approx(24.0) or (tmin_c == tmax_c == limit_c)


def test_half_a_day_lies_above_its_mean() -> None:
    assert hours_above_h(10.0, 30.0, 20.0) == pytest.approx(12.0)
    assert hours_below_h(10.0, 30.0, 10.0) == 0.0


def test_a_hot_day_and_a_warm_night_against_tomato_s_limits() -> None:
    # University of Delaware weekly crop update 6081: 90 °F by day, 72 °F and 55 °F by night
    limits = FlowerLimits(32.2, 22.2, 12.8)
    found = flower_day(36.0, 24.0, limits)
    assert found.hot_h == pytest.approx(24.0 / math.pi * math.acos(2.2 / 6.0))
    assert (found.warm_night, found.cold_h) == (True, 0.0)
    assert flower_day(28.0, 12.0, limits).warm_night is False


def test_what_is_not_known_stays_unknown() -> None:
    assert flower_day(None, 24.0, FlowerLimits(32.2, 22.2)) == FlowerDay(None, True, None)
    assert flower_day(36.0, 24.0, FlowerLimits()) == FlowerDay(None, None, None)


def test_tomato_flowers_abort_after_three_hours_of_fierce_heat_on_two_days_running() -> None:
    # University of Maryland specialist, in a trade paper: three hours at 103 °F on two days running
    assert tomato_flowers_abort([3.0, 3.5]) is True
    assert tomato_flowers_abort([3.0, 0.0, 3.0]) is False
    assert tomato_flowers_abort([3.0, None, 0.0]) is None
