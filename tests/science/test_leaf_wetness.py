"""Wet hours at the edges of their limits; the limits are in common use (from memory)."""

import pytest

from scout.science.humidity import dew_point_c
from scout.science.leaf_wetness import fit_for_bees, wet_hour, wet_hours_h


def test_rain_wets_leaves_in_dry_air_and_90_per_cent_without_rain() -> None:
    assert wet_hour(25.0, 40.0, 0.2)
    assert wet_hour(25.0, 90.0, 0.0) and wet_hour(25.0, 90.0, None)
    assert not wet_hour(25.0, 80.0, 0.0)


def test_the_dew_point_limit_is_about_88_per_cent_at_20_degrees() -> None:
    """Two degrees under 20 °C is about 88 % (FAO-56, annex 3, eq. 3-11)."""
    assert 20.0 - dew_point_c(20.0, 88.4) <= 2.0
    assert wet_hour(20.0, 88.4, None) and not wet_hour(20.0, 87.0, None)


def test_wet_hours_and_their_mean_temperature() -> None:
    assert wet_hours_h([18.0, 16.0, 24.0], [95.0, 97.0, 60.0], [None, 0.0, 0.0]) == (2, 17.0)
    assert wet_hours_h([24.0], [60.0], [0.0]) == (0, None)


@pytest.mark.parametrize(
    ("t_c", "rain_mm", "wind_ms", "fit"),
    [
        (20.0, 0.0, 2.0, True),
        (12.9, 0.0, 2.0, False),
        (20.0, 0.1, 2.0, False),
        (20.0, 0.0, 7.0, False),
        (20.0, None, None, True),
    ],
)
def test_hours_fit_for_bees(t_c, rain_mm, wind_ms, fit) -> None:
    assert fit_for_bees(t_c, rain_mm, wind_ms) is fit
