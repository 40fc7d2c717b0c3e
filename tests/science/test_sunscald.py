"""Fruit in the sun at the edges of the printed skin limits."""

import pytest

from scout.science.sunscald import sunscald_risk


@pytest.mark.parametrize(
    ("crop", "tmax_c", "used", "bared"),
    # Skin limits: cucumber 100-104 °F, pepper 105-108 °F (University of Delaware weekly crop update 18732), tomato
    # about 40 °C (second-hand); the sun adds 5 to 15 K (from memory)
    [
        ("cucumber", 33.0, "likely", "likely"),
        ("cucumber", 32.9, "possible", "likely"),
        ("cucumber", 23.0, "possible", "likely"),
        ("cucumber", 22.9, "none", "possible"),
        ("sweet_pepper", 35.9, "possible", "likely"),
        ("sweet_pepper", 36.0, "likely", "likely"),
        ("tomato", 24.9, "none", "possible"),
        ("tomato", 19.9, "none", "none"),
    ],
)
def test_the_sun_and_new_bareness_make_it_worse(crop, tmax_c, used, bared) -> None:
    assert sunscald_risk(crop, tmax_c, newly_bared=False) == used
    assert sunscald_risk(crop, tmax_c, newly_bared=True) == bared


def test_a_crop_without_a_known_limit_is_unknown() -> None:
    assert sunscald_risk("carrot", 45.0, newly_bared=True) is None


def test_what_is_not_a_number_is_refused() -> None:
    with pytest.raises(ValueError, match="tmax_c"):
        sunscald_risk("tomato", float("nan"), newly_bared=False)
