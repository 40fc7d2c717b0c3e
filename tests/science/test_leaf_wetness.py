"""Wet hours at the edges of their limits; the limits are in common use (from memory)."""

import pytest

from scout.science.humidity import dew_point_c
from scout.science.leaf_wetness import humid_hours_h, wet_hour


def test_rain_wets_leaves_in_dry_air_and_90_per_cent_without_rain() -> None:
    assert wet_hour(25.0, 40.0, 0.2)
    assert wet_hour(25.0, 90.0, 0.0) and wet_hour(25.0, 90.0, None)
    assert not wet_hour(25.0, 80.0, 0.0)


def test_the_dew_point_limit_is_about_88_per_cent_at_20_degrees() -> None:
    """Two degrees under 20 °C is about 88 % (FAO-56, annex 3, eq. 3-11)."""
    assert 20.0 - dew_point_c(20.0, 88.4) <= 2.0
    assert wet_hour(20.0, 88.4, None) and not wet_hour(20.0, 87.0, None)


def test_humid_hours_begin_at_90_per_cent() -> None:
    assert humid_hours_h([18.0, 16.0, 24.0], [90.0, 97.0, 89.9]) == (2, 17.0)
    assert humid_hours_h([24.0], [60.0]) == (0, None)


def test_humidity_that_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="rh_pct"):
        wet_hour(20.0, 101.0, None)
    with pytest.raises(ValueError, match="t_c"):
        wet_hour(float("nan"), 95.0, None)
