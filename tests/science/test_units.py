"""Conversions, and the list of unit endings."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science import units


@pytest.mark.parametrize(
    ("t_f", "t_c"),
    # 32 and 212 °F are the fixed points of the scale; -40 is where both scales meet.
    [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0), (98.6, 37.0)],
)
def test_fahrenheit_fixed_points(t_f: float, t_c: float) -> None:
    assert units.c_from_f(t_f) == pytest.approx(t_c, abs=1e-12)
    assert units.f_from_c(t_c) == pytest.approx(t_f, abs=1e-12)


def test_exact_definitions_of_inch_and_mile() -> None:
    # International yard and pound agreement, 1959: 1 inch = 25.4 mm, 1 mile = 1609.344 m.
    assert units.mm_from_inch(1.0) == 25.4
    assert units.kmh_from_mph(10.0) == pytest.approx(16.09344, abs=1e-12)
    assert units.mph_from_kmh(16.09344) == pytest.approx(10.0, abs=1e-12)
    # FAO-56 example 18 turns 10 km/h into 2.78 m/s.
    assert units.ms_from_kmh(10.0) == pytest.approx(2.78, abs=0.005)


@given(st.floats(-1e6, 1e6))
def test_there_and_back(value: float) -> None:
    assert units.c_from_f(units.f_from_c(value)) == pytest.approx(value, abs=1e-9)
    assert units.inch_from_mm(units.mm_from_inch(value)) == pytest.approx(value, abs=1e-9)
    assert units.ms_from_kmh(units.kmh_from_ms(value)) == pytest.approx(value, abs=1e-9)


def test_the_unit_list_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        units.SUFFIXES["furlong"] = "length"  # type: ignore[index]
