"""What a day of weather can be at all."""

import pytest

from scout.science.weather_day import LIMITS, check_day


def test_an_ordinary_and_an_empty_day_pass() -> None:
    check_day(tmax_c=31.0, tmin_c=22.5, rain_mm=0.0, wet_h=9.5, rh_mean_pct=78.0)
    check_day()
    check_day(tmax_c=20.0, tmin_c=20.0)


@pytest.mark.parametrize("name", sorted(LIMITS))
def test_every_limit_belongs_to_what_is_possible_and_beyond_it_is_refused(name: str) -> None:
    low, high = LIMITS[name]
    check_day(**{name: low})
    check_day(**{name: high})
    for beyond in (low - 0.1, high + 0.1, float("nan")):
        with pytest.raises(ValueError, match=f"{name} is"):
            check_day(**{name: beyond})


def test_a_day_has_24_hours_and_air_holds_at_most_100_per_cent() -> None:
    assert LIMITS["wet_h"] == (0.0, 24.0)
    assert LIMITS["rh_mean_pct"] == (0.0, 100.0)


def test_extremes_on_record_are_possible() -> None:
    # World weather body, extremes archive, from memory: 56.7 °C at the hottest, 1825 mm in 24 hours at the wettest.
    check_day(tmax_c=56.7, rain_mm=1825.0)


def test_a_hot_day_in_fahrenheit_is_caught() -> None:
    with pytest.raises(ValueError, match="tmax_c is 92, possible is -60 to 60"):
        check_day(tmax_c=92.0, tmin_c=71.0)


def test_a_night_warmer_than_its_day_is_refused() -> None:
    with pytest.raises(ValueError, match="tmin_c 25 is above tmax_c 19"):
        check_day(tmax_c=19.0, tmin_c=25.0)


def test_the_limits_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        LIMITS["tmax_c"] = (0.0, 100.0)  # type: ignore[index]
