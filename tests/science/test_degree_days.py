"""Degree days against published tables and against integrating the day itself."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from scout.science.degree_days import (
    CutOff,
    capped_average_cd,
    simple_average_cd,
    single_sine_cd,
)
from scout.science.units import c_from_f

Row = dict[str, str]
Printed = Callable[[str], object]
CUTOFFS: tuple[CutOff, ...] = ("horizontal", "vertical", "intermediate")
temperature = st.floats(-20.0, 50.0)
day = st.tuples(temperature, temperature).map(sorted)


def in_fahrenheit(row: Row, lower_f: float, upper_f: float, cutoff: CutOff) -> float:
    """Return °F-days through the metric function."""
    degrees = (float(row["min_f"]), float(row["max_f"]), lower_f, upper_f)
    return single_sine_cd(*map(c_from_f, degrees), cutoff=cutoff) * 1.8


@pytest.mark.table("degree_days_zalom")
def test_table_7_of_zalom_and_others_1983(row: Row, printed: Printed) -> None:
    assert in_fahrenheit(row, 55.0, 90.0, "horizontal") == printed(row["sine_fd"])


@pytest.mark.table("degree_days_cutoffs")
def test_the_same_days_under_other_cutoffs(row: Row, printed: Printed) -> None:
    low_c, high_c, lower_c, upper_c = map(c_from_f, (float(row["min_f"]), float(row["max_f"]), 55.0, 90.0))
    for cutoff in ("vertical", "intermediate"):
        assert in_fahrenheit(row, 55.0, 90.0, cutoff) == printed(row[f"sine_{cutoff}"])
    assert single_sine_cd(low_c, high_c, lower_c) * 1.8 == printed(row["sine_none"])
    assert simple_average_cd(low_c, high_c, lower_c) * 1.8 == printed(row["average"])
    assert capped_average_cd(low_c, high_c, lower_c) * 1.8 == printed(row["capped_from_below"])
    assert capped_average_cd(low_c, high_c, lower_c, upper_c) * 1.8 == printed(row["capped"])


@pytest.mark.table("degree_days_celsius")
def test_celsius_days_in_every_way(row: Row, printed: Printed) -> None:
    low_c, high_c, lower_c, upper_c = (float(row[key]) for key in ("min_c", "max_c", "lower_c", "upper_c"))
    assert single_sine_cd(low_c, high_c, lower_c) == printed(row["sine_none"])
    for cutoff in CUTOFFS:
        assert single_sine_cd(low_c, high_c, lower_c, upper_c, cutoff) == printed(row[f"sine_{cutoff}"])
    assert simple_average_cd(low_c, high_c, lower_c) == printed(row["average"])
    assert capped_average_cd(low_c, high_c, lower_c) == printed(row["capped_from_below"])
    assert capped_average_cd(low_c, high_c, lower_c, upper_c) == printed(row["capped"])


@pytest.mark.table("degree_days_integrated")
def test_days_integrated_point_by_point(row: Row, printed: Printed) -> None:
    fahrenheit = row["unit"] == "f"
    degrees = [float(row[key]) for key in ("min", "max", "lower", "upper")]
    low_c, high_c, lower_c, upper_c = map(c_from_f, degrees) if fahrenheit else degrees
    scale = 1.8 if fahrenheit else 1.0
    for cutoff in CUTOFFS:
        assert single_sine_cd(low_c, high_c, lower_c, upper_c, cutoff) * scale == printed(row[f"sine_{cutoff}"])
    assert simple_average_cd(low_c, high_c, lower_c) * scale == printed(row["average"])


@pytest.mark.table("mcmaster_wilhelm")
def test_the_two_averages_of_mcmaster_and_wilhelm_1997(row: Row, printed: Printed) -> None:
    low_c, high_c = float(row["min_c"]), float(row["max_c"])
    assert simple_average_cd(low_c, high_c, 0.0) == printed(row["method_1"])
    assert capped_average_cd(low_c, high_c, 0.0) == printed(row["method_2"])


def test_five_days_add_up() -> None:
    # Numerical integration, base 50, upper 86 °F, horizontal: running sums in °F-days.
    days_f = [(48, 70), (52, 78), (60, 85), (63, 92), (58, 88)]
    sums_f = [9.2583, 24.2583, 46.7583, 73.0743, 95.8536]
    total = 0.0
    for (low_f, high_f), expected in zip(days_f, sums_f, strict=True):
        degrees = (low_f, high_f, 50, 86)
        total += single_sine_cd(*map(c_from_f, degrees), cutoff="horizontal") * 1.8
        assert total == pytest.approx(expected, abs=2e-4)


def test_egg_to_adult_bases_without_an_upper_limit() -> None:
    # Numerical integration: base 6 °C, day 2 to 16 °C → sine 3.9361, average 3.0.
    assert single_sine_cd(2.0, 16.0, 6.0) == pytest.approx(3.9361, abs=5e-5)
    assert simple_average_cd(2.0, 16.0, 6.0) == 3.0


@pytest.mark.parametrize(("low_c", "high_c"), [(5.0, 38.0), (12.0, 33.0), (-3.0, 11.0), (29.0, 41.0)])
def test_scipy_integrates_the_sine_to_the_same_sum(low_c: float, high_c: float) -> None:
    lower_c, upper_c = 10.0, 30.0

    def development(share_of_day: float) -> float:
        at_c = (low_c + high_c) / 2 + (high_c - low_c) / 2 * math.sin(2 * math.pi * share_of_day)
        return min(max(at_c, lower_c), upper_c) - lower_c

    area, error = integrate.quad(development, 0.0, 1.0, limit=500, epsabs=1e-9)
    assert error < 1e-6
    assert single_sine_cd(low_c, high_c, lower_c, upper_c, "horizontal") == pytest.approx(area, abs=1e-6)


@given(day, st.floats(0.0, 5.0))
def test_a_warmer_day_never_has_fewer_degree_days(day: list[float], warmer: float) -> None:
    low_c, high_c = day
    before = single_sine_cd(low_c, high_c, 10.0, 30.0, "horizontal")
    assert single_sine_cd(low_c + warmer, high_c + warmer, 10.0, 30.0, "horizontal") >= before - 1e-9


@given(day)
def test_harder_cutoffs_never_give_more(day: list[float]) -> None:
    uncut = single_sine_cd(*day, 10.0)
    horizontal, vertical, intermediate = (single_sine_cd(*day, 10.0, 30.0, cutoff) for cutoff in CUTOFFS)
    assert uncut + 1e-9 >= horizontal >= intermediate - 1e-9
    assert horizontal + 1e-9 >= vertical >= 0.0
    assert intermediate >= 0.0


@given(st.floats(10.0, 30.0), st.floats(10.0, 30.0))
def test_inside_the_limits_all_ways_are_one(one: float, other: float) -> None:
    low_c, high_c = sorted((one, other))
    expected = pytest.approx((low_c + high_c) / 2 - 10.0, abs=1e-9)
    assert simple_average_cd(low_c, high_c, 10.0) == expected
    assert capped_average_cd(low_c, high_c, 10.0, 30.0) == expected
    assert all(single_sine_cd(low_c, high_c, 10.0, 30.0, cutoff) == expected for cutoff in CUTOFFS)


def test_impossible_days_and_limits_are_refused() -> None:
    with pytest.raises(ValueError, match="tmin_c 25 is above tmax_c 15"):
        single_sine_cd(25.0, 15.0, 10.0)
    with pytest.raises(ValueError, match="lower_c 30 is not below upper_c 10"):
        single_sine_cd(5.0, 15.0, 30.0, 10.0, "horizontal")
    with pytest.raises(ValueError, match="upper_c together"):
        single_sine_cd(5.0, 15.0, 10.0, cutoff="horizontal")
    with pytest.raises(ValueError, match="upper_c together"):
        single_sine_cd(5.0, 15.0, 10.0, 30.0)
    with pytest.raises(ValueError, match="tmax_c"):
        single_sine_cd(5.0, math.nan, 10.0)


def test_a_flat_day_at_the_upper_limit_still_counts_in_full() -> None:
    # Development stops only while it is hotter than the limit; at the limit itself it is at its fastest.
    assert [single_sine_cd(30.0, 30.0, 10.0, 30.0, cutoff) for cutoff in CUTOFFS] == [20.0, 20.0, 20.0]
    assert [single_sine_cd(10.0, 10.0, 10.0, 30.0, cutoff) for cutoff in CUTOFFS] == [0.0, 0.0, 0.0]


def test_a_day_in_fahrenheit_is_refused() -> None:
    with pytest.raises(ValueError, match="tmax_c is 95"):
        simple_average_cd(70.0, 95.0, 50.0)
