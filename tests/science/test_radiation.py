"""Sun and radiation against the worked examples of FAO-56."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from scout.science import radiation

Row = dict[str, str]


@pytest.mark.table("fao56_sun")
def test_radiation_and_day_length_over_the_globe(row: Row, printed: Callable[[str], object]) -> None:
    latitude, day = float(row["latitude"]), int(row["day_of_year"])
    assert radiation.extraterrestrial_radiation_mj(latitude, day) == printed(row["radiation_mj"])
    assert radiation.day_length_h(latitude, day) == printed(row["day_h"])


def test_fao56_examples_8_and_9_on_3_september_at_20_south() -> None:
    assert radiation.extraterrestrial_radiation_mj(-20.0, 246) == pytest.approx(32.2, abs=0.05)
    assert radiation.day_length_h(-20.0, 246) == pytest.approx(11.7, abs=0.05)


def test_fao56_example_10_from_hours_of_sunshine() -> None:
    above = radiation.extraterrestrial_radiation_mj(-22.9, 135)
    light = radiation.day_length_h(-22.9, 135)
    assert (above, light) == (pytest.approx(25.1, abs=0.05), pytest.approx(10.9, abs=0.05))
    assert radiation.radiation_from_sunshine_mj(above, 7.1, light) == pytest.approx(14.5, abs=0.05)


def test_fao56_example_11_loss_of_long_waves() -> None:
    assert radiation.net_longwave_mj(25.1, 19.1, 2.1, 14.5, 18.8) == pytest.approx(3.5, abs=0.05)


def test_fao56_example_15_from_temperatures() -> None:
    assert radiation.radiation_from_temperatures_mj(40.6, 26.6, 14.8) == pytest.approx(22.3, abs=0.05)


@given(st.floats(-90.0, 90.0), st.integers(1, 366))
def test_no_day_is_longer_than_a_day_and_no_radiation_negative(latitude: float, day: int) -> None:
    assert 0.0 <= radiation.day_length_h(latitude, day) <= 24.0
    assert radiation.extraterrestrial_radiation_mj(latitude, day) >= 0.0


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="latitude_deg"):
        radiation.day_length_h(91.0, 1)
    with pytest.raises(ValueError, match="sunshine_h"):
        radiation.radiation_from_sunshine_mj(30.0, 13.0, 12.0)


def test_fao56_examples_12_and_16_what_is_kept() -> None:
    """Example 12 is printed 7.6, as it rounds 11.165 to 11.1 on the way."""
    assert radiation.net_radiation_mj(14.5, 3.5) == pytest.approx(7.6, abs=0.1)
    assert radiation.net_radiation_mj(16.9 / 0.77, 3.0) == pytest.approx(13.9, abs=0.05)


@given(st.floats(-89.0, 89.0), st.integers(1, 365))
def test_the_closed_form_is_the_sum_over_the_day(latitude: float, day: int) -> None:
    """FAO-56 eq. 21 is the integral of the solar constant times the sine of the sun's height over the day (scipy)."""
    turn = 2.0 * math.pi * day / 365.0
    tilt, place = 0.409 * math.sin(turn - 1.39), math.radians(latitude)
    peak = 0.0820 * (1.0 + 0.033 * math.cos(turn))

    def at(hour_angle: float) -> float:
        height = math.sin(place) * math.sin(tilt) + math.cos(place) * math.cos(tilt) * math.cos(hour_angle)
        return peak * max(0.0, height) * 24.0 * 60.0 / (2.0 * math.pi)

    half = radiation.day_length_h(latitude, day) * math.pi / 24.0
    total, _ = quad(at, -half, half) if half > 0.0 else (0.0, 0.0)
    assert radiation.extraterrestrial_radiation_mj(latitude, day) == pytest.approx(total, abs=1e-6)
