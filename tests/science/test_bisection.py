"""Finding where a function passes a level."""

import math

import pytest

from scout.science.bisection import crossing


def test_rising_and_falling_functions_are_solved_to_the_last_bits() -> None:
    assert crossing(lambda x: x * x, 2.0, 0.0, 2.0) == pytest.approx(math.sqrt(2.0), rel=1e-15)
    assert crossing(lambda x: math.exp(-x), 0.05, 0.0, 10.0) == pytest.approx(-math.log(0.05), rel=1e-15)


def test_a_level_that_is_never_passed_is_refused() -> None:
    with pytest.raises(ValueError, match="not passed between 0 and 1"):
        crossing(lambda x: x, 5.0, 0.0, 1.0)
