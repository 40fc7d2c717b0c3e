"""A day's hours from its high and low."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.day_curve import COOLEST_H, WARMEST_H, humidity_at_pct, temperature_at_c

LOWS, SPANS = st.floats(-10.0, 30.0), st.floats(0.0, 25.0)


@given(st.floats(0.0, 24.0), LOWS, SPANS)
def test_the_curve_stays_between_low_and_high(clock_h: float, tmin_c: float, span_c: float) -> None:
    temp = temperature_at_c(clock_h, tmin_c, tmin_c + span_c)
    assert tmin_c - 1e-9 <= temp <= tmin_c + span_c + 1e-9


@given(LOWS, SPANS)
def test_the_curve_meets_low_and_high_at_their_hours_and_itself_at_midnight(tmin_c: float, span_c: float) -> None:
    high = tmin_c + span_c
    assert temperature_at_c(COOLEST_H, tmin_c, high) == pytest.approx(tmin_c)
    assert temperature_at_c(WARMEST_H, tmin_c, high) == pytest.approx(high)
    assert temperature_at_c(0.0, tmin_c, high) == pytest.approx(temperature_at_c(24.0, tmin_c, high))


def test_half_way_up_and_half_way_down_stand_at_the_mean() -> None:
    # By the definition of a half wave: 10.5 h lies midway between 6 and 15 h, 22.5 h midway between 15 and 30 h.
    assert temperature_at_c(10.5, 20.0, 30.0) == pytest.approx(25.0)
    assert temperature_at_c(22.5, 20.0, 30.0) == pytest.approx(25.0)


@pytest.mark.parametrize(("t_c", "dew_c", "rh_pct"), [(25.0, 16.7, 60.0), (30.0, 18.4, 50.0), (35.0, 26.1, 60.0)])
def test_humidity_comes_back_from_the_dew_point(t_c: float, dew_c: float, rh_pct: float) -> None:
    # Dew points by FAO-56 equations 11 and 14 for these temperatures and humidities, to 0.1 °C.
    assert humidity_at_pct(t_c, dew_c) == pytest.approx(rh_pct, abs=0.5)


def test_air_below_its_dew_point_is_full() -> None:
    assert humidity_at_pct(15.0, 20.0) == 100.0


def test_a_low_above_the_high_is_refused() -> None:
    with pytest.raises(ValueError, match="tmin_c"):
        temperature_at_c(12.0, 30.0, 20.0)
