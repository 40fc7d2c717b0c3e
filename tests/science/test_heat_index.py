"""Heat index against printed values, branch by branch, and against MetPy."""

import math
from collections.abc import Callable
from itertools import pairwise
from types import ModuleType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.heat_index import (
    FULL_SUN_ADDITION_K,
    heat_class,
    heat_index_c,
    heat_index_f,
    in_full_sun_c,
)
from scout.science.units import c_from_f, f_from_c

Row = dict[str, str]


@pytest.mark.table("heat_index_printed")
def test_printed_values_to_their_digits(row: Row, printed: Callable[[str], object]) -> None:
    assert heat_index_f(float(row["t_f"]), float(row["rh_pct"])) == printed(row["printed_f"])


@pytest.mark.table("heat_index_branches")
def test_every_branch_of_the_procedure(row: Row, printed: Callable[[str], object]) -> None:
    t_f, rh_pct = float(row["t_f"]), float(row["rh_pct"])
    assert heat_index_f(t_f, rh_pct) == printed(row["index_f"])
    assert heat_index_c(c_from_f(t_f), rh_pct) == printed(row["index_c"])


@pytest.mark.table("heat_index_chart")
def test_the_chart_within_its_own_degree(row: Row) -> None:
    # The chart differs from its formula by up to 0.92 °F, so it is checked to ±1 °F only.
    index_f = heat_index_f(float(row["t_f"]), float(row["rh_pct"]))
    assert index_f == pytest.approx(float(row["printed_f"]), abs=1.0)


def test_celsius_examples_printed_by_metpy() -> None:
    # MetPy tests and documentation: 35 °C, 70 % → 50.3405 °C (cut after four digits, not rounded: MetPy itself
    # computes 50.34058); 30 °C, 90 % → 40.774647 °C.
    assert heat_index_c(35.0, 70.0) == pytest.approx(50.3405, abs=1e-4)
    assert heat_index_c(30.0, 90.0) == pytest.approx(40.774647, abs=5e-7)


def test_below_the_regression_the_mean_of_simple_value_and_air_is_given() -> None:
    # Our choice where the source is silent: simple value 38.35 at 40 °F and 99 %; the NWS web calculator
    # gives 40 (recorded in MetPy's tests), we give their mean.
    assert heat_index_f(40.0, 99.0) == pytest.approx(39.175, abs=0.005)


@pytest.mark.parametrize(
    ("index_f", "expected"),
    # NOAA heat index table: caution 80-90, extreme caution 90-103, danger 103-124, extreme danger 125 up.
    # That a lower bound belongs to its class, and 124.5 to danger, is our choice.
    [
        (79.9, "none"),
        (80.0, "caution"),
        (89.9, "caution"),
        (90.0, "extreme_caution"),
        (102.9, "extreme_caution"),
        (103.0, "danger"),
        (124.5, "danger"),
        (125.0, "extreme_danger"),
        (150.0, "extreme_danger"),
    ],
)
def test_classes_begin_at_their_lower_bound(index_f: float, expected: str) -> None:
    assert heat_class(c_from_f(index_f)) == expected


def test_full_sun_adds_fifteen_fahrenheit_degrees() -> None:
    # National Weather Service: full sun adds up to 15 °F, 8.33 K.
    assert pytest.approx(8.33, abs=0.005) == FULL_SUN_ADDITION_K
    assert f_from_c(in_full_sun_c(c_from_f(90.0))) == pytest.approx(105.0, abs=1e-9)
    assert heat_class(in_full_sun_c(c_from_f(90.0))) == "danger"


@given(st.floats(80.0, 112.0), st.floats(40.0, 99.0), st.floats(0.1, 1.0))
def test_more_humid_air_never_feels_cooler_in_the_range_of_the_chart(t_f: float, rh_pct: float, step: float) -> None:
    assert heat_index_f(t_f, rh_pct + step) >= heat_index_f(t_f, rh_pct)


@pytest.mark.parametrize("rh_pct", [5.0, 60.0, 100.0])
def test_the_adjustments_fade_in_and_out_without_a_jump(rh_pct: float) -> None:
    # From 82 °F the regression rules; both adjustments end at a temperature where they are nothing.
    steps = [heat_index_f(82.0 + step / 100.0, rh_pct) for step in range(3300)]
    assert max(abs(later - now) for now, later in pairwise(steps)) < 0.15


@pytest.mark.parametrize(
    ("t_f", "rh_pct"), [(141.0, 50.0), (-59.0, 50.0), (90.0, -1.0), (90.0, 101.0), (math.nan, 50.0)]
)
def test_impossible_air_is_refused(t_f: float, rh_pct: float) -> None:
    with pytest.raises(ValueError, match="possible is"):
        heat_index_f(t_f, rh_pct)


def test_a_humidity_given_as_a_share_of_a_hundred_is_not_mistaken() -> None:
    with pytest.raises(ValueError, match="rh_pct"):
        heat_index_c(30.0, 7000.0)
    with pytest.raises(ValueError, match="t_c"):
        heat_index_c(95.0, 60.0)
    with pytest.raises(ValueError, match="index_c"):
        heat_class(math.nan)


@pytest.mark.oracle
def test_metpy_agrees_where_both_use_the_regression(
    require_or_skip: Callable[[str, str], ModuleType],
) -> None:
    # MetPy switches to the regression a little earlier than the published procedure; from 82 °F both use it.
    calc = require_or_skip("oracle", "metpy.calc")
    units = require_or_skip("oracle", "metpy.units").units
    for t_f in range(82, 116, 3):
        for rh_pct in (5, 12, 13, 20, 40, 60, 80, 86, 95, 100):
            theirs = calc.heat_index(units.Quantity(float(t_f), "degF"), rh_pct * units.percent, mask_undefined=False)
            assert heat_index_f(t_f, rh_pct) == pytest.approx(theirs.m_as("degF").item(), abs=0.01)
