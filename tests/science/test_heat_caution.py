"""The hour's heat for the person: classes of the NWS, the sun's addition, and getting used to heat."""

import pytest

from scout.science.heat_caution import caution_by_hour, share_of_full_day_frac
from scout.science.units import c_from_f

# NWS table: 90 °F at 70 % is 105.9 °F (danger); 84 °F at 60 % about 88 °F (caution), 15 °F more in full sun: danger
T_C, RH_PCT = [c_from_f(90.0), c_from_f(84.0), 15.0, None], [70.0, 60.0, 60.0, 50.0]


def test_somebody_used_to_the_heat_hears_the_printed_classes() -> None:
    hours = caution_by_hour(T_C, RH_PCT, days_in_heat_n=7)
    assert [hour.in_shade for hour in hours] == ["danger", "caution", "none", None]
    assert [hour.in_sun for hour in hours] == ["danger", "extreme_caution", "none", None]
    assert hours[3].index_c is None


@pytest.mark.parametrize("days_n", [0, 6, None])
def test_somebody_new_or_unknown_is_told_one_class_worse(days_n) -> None:
    hours = caution_by_hour(T_C, RH_PCT, days_in_heat_n=days_n)
    assert [hour.in_shade for hour in hours] == ["extreme_danger", "extreme_caution", "none", None]
    assert [hour.in_sun for hour in hours] == ["extreme_danger", "danger", "none", None]


def test_the_worst_class_stays_the_worst() -> None:
    (hour,) = caution_by_hour([c_from_f(110.0)], [60.0], days_in_heat_n=None)
    assert hour.in_shade == hour.in_sun == "extreme_danger"


def test_working_in_to_the_heat_day_by_day() -> None:
    """NIOSH poster of 2014: 20 % more a day when new; 50, 60, 80, 100 % when back."""
    assert [share_of_full_day_frac(day, "new") for day in range(1, 7)] == pytest.approx([0.2, 0.4, 0.6, 0.8, 1.0, 1.0])
    assert [share_of_full_day_frac(day, "back") for day in range(1, 6)] == [0.5, 0.6, 0.8, 1.0, 1.0]


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="day_n is 0"):
        share_of_full_day_frac(0, "new")
    with pytest.raises(ValueError, match="days_in_heat_n"):
        caution_by_hour([], [], days_in_heat_n=-1)
