"""The door of every calculation."""

import math

import pytest

from scout.science.limits import require_confidence, require_count, require_within


@pytest.mark.parametrize("value", [-0.001, 100.001, math.nan, math.inf, -math.inf])
def test_what_lies_outside_is_refused_by_name_and_range(value: float) -> None:
    with pytest.raises(ValueError, match=r"rh_pct is .*, possible is 0 to 100"):
        require_within("rh_pct", value, 0.0, 100.0)


@pytest.mark.parametrize("value", [0.0, 100.0, 50])
def test_both_ends_belong_to_the_range(value: float) -> None:
    require_within("rh_pct", value, 0.0, 100.0)


def test_a_count_below_the_least_is_refused() -> None:
    require_count("looked_n", 0)
    with pytest.raises(ValueError, match="looked_n is 0, the least that makes sense is 1"):
        require_count("looked_n", 0, 1)


@pytest.mark.parametrize("confidence", [0.0, 1.0, 95.0, -0.5, math.nan])
def test_certainty_and_per_cent_are_no_confidence_levels(confidence: float) -> None:
    with pytest.raises(ValueError, match="confidence_frac"):
        require_confidence(confidence)
