"""Bee hours at the edges of their limits (common practice, no source)."""

import pytest

from scout.science.bee_weather import bee_hours_h, fit_for_bees


@pytest.mark.parametrize(
    ("t_c", "rain_mm", "wind_ms", "fit"),
    [
        (20.0, 0.0, 2.0, True),
        (13.0, 0.0, None, True),
        (12.9, 0.0, 2.0, False),
        (38.1, 0.0, 2.0, False),
        (20.0, 0.1, 2.0, False),
        (20.0, 0.0, 6.7, False),
        (20.0, None, 2.0, None),
        (12.0, None, 2.0, False),
        (20.0, None, 9.0, False),
    ],
)
def test_hours_fit_for_bees(t_c, rain_mm, wind_ms, fit) -> None:
    assert fit_for_bees(t_c, rain_mm, wind_ms) is fit


def test_unmeasured_rain_leaves_the_morning_unknown_unless_no_bee_would_fly_anyway() -> None:
    assert bee_hours_h([20.0, 21.0], [0.0, 0.0], [None, 1.0]) == 2
    assert bee_hours_h([20.0, 21.0], [0.0, None], [None, 1.0]) is None
    assert bee_hours_h([9.0, 10.0], [None, None], [None, None]) == 0


def test_what_is_not_a_number_is_refused() -> None:
    with pytest.raises(ValueError, match="t_c"):
        fit_for_bees(float("nan"), 0.0, 0.0)
