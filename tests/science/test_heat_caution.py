"""Getting used to heat, day by day."""

import pytest

from scout.science.heat_caution import share_of_full_day_frac


def test_working_in_to_the_heat_day_by_day() -> None:
    """NIOSH poster of 2014: 20 % more a day when new; 50, 60, 80, 100 % when back."""
    assert [share_of_full_day_frac(day, "new") for day in range(1, 7)] == pytest.approx([0.2, 0.4, 0.6, 0.8, 1.0, 1.0])
    assert [share_of_full_day_frac(day, "back") for day in range(1, 6)] == [0.5, 0.6, 0.8, 1.0, 1.0]


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="day_n is 0"):
        share_of_full_day_frac(0, "new")
