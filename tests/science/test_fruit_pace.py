"""How fast fruit grows at a temperature, and when it flowered."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.fruit_pace import flowering_by_pace, pace_per_d, picking_by_pace
from scout.science.windows import Window, flowering_window, picking_window

# Flower to ripe tomato at four steady temperatures: Adams, Cockshull & Cave 2001, Annals of Botany 88:869-877.
ADAMS = ((14.0, 95.0), (18.0, 65.0), (22.0, 46.0), (26.0, 42.0))
ON = date(2026, 8, 20)
ages = st.tuples(st.integers(0, 90), st.integers(0, 90)).map(lambda pair: (min(pair), max(pair)))


@pytest.mark.parametrize(("mean_c", "days_d"), ADAMS)
def test_a_tomato_ripens_in_the_days_that_were_measured(mean_c: float, days_d: float) -> None:
    pace = pace_per_d(mean_c, 22.0, 6.5, ADAMS)
    assert 46.0 / pace == pytest.approx(days_d)


def test_between_two_measurements_the_rate_lies_between_and_above_the_last_it_stays() -> None:
    assert 46.0 / 42.0 > pace_per_d(24.0, 22.0, 6.5, ADAMS) > 1.0
    assert pace_per_d(35.0, 22.0, 6.5, ADAMS) == pace_per_d(26.0, 22.0, 6.5, ADAMS)
    assert pace_per_d(6.5, 22.0, 6.5, ADAMS) == 0.0


def test_degree_days_are_the_straight_line_without_measurements() -> None:
    # Definition of a degree day: corn above 50 °F and no faster above 86 °F (10 and 30 °C).
    assert pace_per_d(27.0, 24.0, 10.0, [(30.0, 1.0)]) == pytest.approx((27 - 10) / (24 - 10))
    assert pace_per_d(38.0, 24.0, 10.0, [(30.0, 1.0)]) == pytest.approx((30 - 10) / (24 - 10))


@given(ages)
def test_at_a_pace_of_one_it_is_plain_counting(age_d: tuple[int, int]) -> None:
    assert flowering_by_pace(ON, age_d, {}, 1.0) == flowering_window(ON, age_d)
    assert picking_by_pace(ON, age_d, {}, 1.0) == picking_window(Window(ON, ON), age_d)


@given(ages, st.lists(st.floats(0.2, 2.0), min_size=150, max_size=150))
def test_fruit_of_every_day_of_the_window_is_of_that_age_and_of_no_day_before_or_after(
    age_d: tuple[int, int], speeds: list[float]
) -> None:
    pace = {ON - timedelta(days=back): speed for back, speed in enumerate(speeds)}
    window = flowering_by_pace(ON, age_d, pace, 1.0)

    def age(flower: date) -> float:
        return sum(pace.get(flower + timedelta(days=n), 1.0) for n in range((ON - flower).days))

    least, most = age_d
    assert age(window.first) >= most - 1e-6 and (most == 0 or age(window.first + timedelta(days=1)) < most)
    assert age(window.last) <= least + 1e-6
    assert window.last == ON or age(window.last - timedelta(days=1)) > least


def test_days_of_double_pace_halve_the_way_back() -> None:
    pace = {ON - timedelta(days=back): 2.0 for back in range(1, 40)}
    assert flowering_by_pace(ON, (8, 20), pace, 1.0) == (ON - timedelta(days=10), ON - timedelta(days=4))


@pytest.mark.parametrize(
    ("age_d", "usual", "named"), [((5, 3), 1.0, "least age_d"), ((0, 500), 1.0, "most age_d"), ((1, 2), 0.0, "usual")]
)
def test_what_cannot_be_is_refused(age_d: tuple[float, float], usual: float, named: str) -> None:
    with pytest.raises(ValueError, match=named):
        flowering_by_pace(ON, age_d, {}, usual)


def test_pairs_out_of_order_and_a_standstill_at_the_reference_are_refused() -> None:
    with pytest.raises(ValueError, match="must rise"):
        pace_per_d(30.0, 21.0, 6.5, [(22.0, 46.0), (18.0, 65.0)])
    with pytest.raises(ValueError, match="nothing grows"):
        pace_per_d(20.0, 5.0, 6.5, ADAMS)
