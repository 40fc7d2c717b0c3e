"""The person's heat by the hour, against the chart of the US National Weather Service."""

import pytest

from scout.diagnosis.heat_day import LAST_H, AirAt, dangerous_from_until, heat_by_hour, worst
from scout.science.day_curve import humidity_at_pct
from scout.science.units import c_from_f, f_from_c


def at(t_f: float, rh_pct: float) -> AirAt:
    return AirAt(c_from_f(t_f), rh_pct, "measured")


@pytest.mark.parametrize(
    ("t_f", "rh_pct", "index_f", "level"),
    [  # NWS procedure (Rothfusz 1990); classes of the NOAA table: 80, 90, 103, 125 °F
        (80.0, 40.0, 79.8, "none"),
        (80.0, 75.0, 83.6, "caution"),
        (90.0, 60.0, 99.7, "extreme_caution"),
        (92.0, 60.0, 104.7, "danger"),
        (104.0, 55.0, 137.4, "extreme_danger"),
    ],
)
def test_a_measured_hour_has_the_class_of_the_chart(t_f: float, rh_pct: float, index_f: float, level: str) -> None:
    (hour,) = heat_by_hour({11: at(t_f, rh_pct)}, None, None)
    assert f_from_c(hour.index_c) == pytest.approx(index_f, abs=0.15)
    assert (hour.clock_h, hour.level, hour.basis) == (11, level, "measured")


def test_full_sun_adds_fifteen_fahrenheit_and_its_own_class() -> None:
    # National Weather Service: exposure to full sun can add up to 15 °F.
    (hour,) = heat_by_hour({11: at(90.0, 60.0)}, None, None)
    assert f_from_c(hour.sun_c) - f_from_c(hour.index_c) == pytest.approx(15.0)
    assert (hour.level, hour.sun_level) == ("extreme_caution", "danger")


def test_hours_nobody_knows_are_left_out_without_a_high_and_a_low() -> None:
    assert [hour.clock_h for hour in heat_by_hour({7: at(80.0, 75.0)}, None, None)] == [7]
    assert heat_by_hour({}, 20.0, None) == ()


def test_hours_nobody_knows_are_estimated_and_say_so() -> None:
    hours = heat_by_hour({}, 24.0, 35.5)
    assert {hour.basis for hour in hours} == {"estimated"} and len(hours) == 17
    top = worst(hours)
    assert top is not None and top.clock_h == 15


def test_the_hours_after_a_measured_one_go_on_from_it_by_halves() -> None:
    # Hotter than reckoned, with the moisture that is reckoned: only the warmth goes on, half of it each hour.
    known = {11: AirAt(36.0, humidity_at_pct(36.0, 22.0), "measured")}
    reckoned = {hour.clock_h: hour.index_c for hour in heat_by_hour({}, 22.0, 34.0)}
    lift = {hour.clock_h: hour.index_c - reckoned[hour.clock_h] for hour in heat_by_hour(known, 22.0, 34.0)}
    assert lift[10] == 0.0 and lift[11] > lift[12] > lift[13] > lift[14] > 0.0
    assert lift[13] == pytest.approx(lift[12] / 2.0, rel=0.35) and lift[20] < 0.05


def test_danger_runs_from_the_first_dangerous_hour_to_the_end_of_the_last() -> None:
    known = {10: at(85.0, 60.0), 11: at(92.0, 60.0), 12: at(88.0, 60.0), 13: at(94.0, 60.0), 18: at(85.0, 60.0)}
    assert dangerous_from_until(heat_by_hour(known, None, None)) == (11, 14)


def test_an_evening_nobody_knows_of_counts_as_hot() -> None:
    assert dangerous_from_until(heat_by_hour({11: at(92.0, 60.0)}, None, None)) == (11, LAST_H + 1)


def test_a_cool_day_has_no_danger() -> None:
    assert dangerous_from_until(heat_by_hour({}, 12.0, 24.0)) is None
