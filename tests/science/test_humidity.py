"""Vapour pressure and dew point against FAO-56 (Allen, Pereira, Raes & Smith 1998)."""

from collections.abc import Callable
from types import ModuleType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science import humidity

Row = dict[str, str]
air_c = st.floats(-40.0, 55.0)


@pytest.mark.table("fao56_saturation")
def test_saturation_table(row: Row, printed: Callable[[str], object]) -> None:
    assert humidity.saturation_vapour_pressure_kpa(float(row["t_c"])) == printed(row["saturation_kpa"])


@pytest.mark.table("fao56_deficit_dew_point")
def test_deficit_and_dew_point(row: Row, printed: Callable[[str], object]) -> None:
    t_c, rh_pct = float(row["t_c"]), float(row["rh_pct"])
    assert humidity.vapour_pressure_deficit_kpa(t_c, rh_pct) == printed(row["deficit_kpa"])
    assert humidity.dew_point_c(t_c, rh_pct) == printed(row["dew_point_c"])


def test_fao56_example_3_mean_of_the_two_extremes_not_of_the_mean() -> None:
    # Example 3: 24.5 and 15 °C → 3.075, 1.705, mean 2.39 kPa; at the mean temperature it would be 2.30.
    assert humidity.mean_saturation_kpa(24.5, 15.0) == pytest.approx(2.39, abs=0.005)
    assert humidity.saturation_vapour_pressure_kpa(19.75) == pytest.approx(2.30, abs=0.005)


def test_fao56_examples_5_and_6_actual_pressure_and_deficit_of_a_day() -> None:
    # Example 5: 18 °C with 82 %, 25 °C with 54 % → 1.70 kPa. Example 6: deficit 0.91 (number of the example
    # from memory).
    actual = humidity.actual_vapour_pressure_kpa(25.0, 18.0, 82.0, 54.0)
    assert actual == pytest.approx(1.70, abs=0.005)
    assert humidity.mean_saturation_kpa(25.0, 18.0) - actual == pytest.approx(0.91, abs=0.005)


def test_fao56_example_18_day_at_uccle() -> None:
    # Example 18: 21.5/12.3 °C, 84/63 % → es 1.997, ea 1.409 kPa.
    assert humidity.mean_saturation_kpa(21.5, 12.3) == pytest.approx(1.997, abs=0.0006)
    assert humidity.actual_vapour_pressure_kpa(21.5, 12.3, 84.0, 63.0) == pytest.approx(1.409, abs=0.0006)


@given(air_c, st.floats(0.0, 5.0))
def test_warmer_air_holds_more(t_c: float, step: float) -> None:
    higher = humidity.saturation_vapour_pressure_kpa(t_c + step)
    assert higher >= humidity.saturation_vapour_pressure_kpa(t_c)


@given(st.floats(0.0, 50.0), st.floats(1.0, 100.0))
def test_dew_point_is_never_above_the_air_and_gives_its_vapour_back(t_c: float, rh_pct: float) -> None:
    dew_c = humidity.dew_point_c(t_c, rh_pct)
    assert dew_c <= t_c + 0.02  # the rounded constants of eq. 3-11 allow this much
    vapour_kpa = humidity.saturation_vapour_pressure_kpa(t_c) * rh_pct / 100.0
    assert humidity.saturation_vapour_pressure_kpa(dew_c) == pytest.approx(vapour_kpa, rel=0.003)


def test_saturated_air_has_no_deficit() -> None:
    assert humidity.vapour_pressure_deficit_kpa(15.0, 100.0) == 0.0


@pytest.mark.parametrize("rh_pct", [-1.0, 100.1, float("nan")])
def test_impossible_humidity_is_refused(rh_pct: float) -> None:
    with pytest.raises(ValueError, match="rh_pct"):
        humidity.vapour_pressure_deficit_kpa(20.0, rh_pct)
    with pytest.raises(ValueError, match="rh_pct"):
        humidity.dew_point_c(20.0, rh_pct)


def test_air_without_vapour_has_no_dew_point() -> None:
    with pytest.raises(ValueError, match="no dew point"):
        humidity.dew_point_c(20.0, 0.0)


def test_a_night_warmer_than_the_day_is_refused() -> None:
    with pytest.raises(ValueError, match="tmin_c 20 is above tmax_c 10"):
        humidity.mean_saturation_kpa(10.0, 20.0)
    with pytest.raises(ValueError, match="rh_min_pct"):
        humidity.actual_vapour_pressure_kpa(25.0, 18.0, 54.0, 82.0)
    with pytest.raises(ValueError, match="t_c"):
        humidity.saturation_vapour_pressure_kpa(77.0)


@pytest.mark.oracle
def test_metpy_agrees_with_its_other_formula(require_or_skip: Callable[[str, str], ModuleType]) -> None:
    # MetPy 1.7.1 uses other published formulas. Measured over this grid: pressures differ by 0.36 % at most, dew
    # points by 0.13 K where dew forms, 0.23 K where it would be frost (FAO-56 prints its formula for 1-48.5 °C).
    calc = require_or_skip("oracle", "metpy.calc")
    units = require_or_skip("oracle", "metpy.units").units
    for t_c in range(0, 46, 3):
        air = units.Quantity(float(t_c), "degC")
        theirs_kpa = calc.saturation_vapor_pressure(air).m_as("kPa")
        assert humidity.saturation_vapour_pressure_kpa(t_c) == pytest.approx(theirs_kpa, rel=0.004)
        for rh_pct in (5, 20, 50, 90, 100):
            dew_c = calc.dewpoint_from_relative_humidity(air, rh_pct * units.percent).m_as("degC")
            expected = pytest.approx(dew_c, abs=0.15 if dew_c >= 0.0 else 0.25)
            assert humidity.dew_point_c(t_c, rh_pct) == expected
