"""Degree days over a season with gaps: what is sure is never more than what came."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.units import c_from_f
from scout.science.warmth_sum import Limits, cold_days_n, day_cd, days_to_go_n, reached_after_n, warmth_sum

# Days of Zalom et al. 1983 (UC leaflet 21373), °F.
DAYS_F = [(60.0, 80.0), (75.0, 88.0), (50.0, 82.0), (45.0, 70.0), (60.0, 100.0), (75.0, 95.0), (50.0, 101.0)]


@pytest.mark.parametrize(
    ("method", "lower_f", "upper_f", "day_f", "sum_f"),
    [
        # (max + min) / 2 - 50, as the page on squash vine borer prints it
        ("average", 50.0, None, (60.0, 80.0), 20.0),
        ("average", 50.0, None, (30.0, 60.0), 0.0),
        # seed corn maggot, University of Minnesota: highs above 84 °F set to it: (84 + 60) / 2 - 39
        ("high_capped", 39.0, 84.0, (60.0, 95.0), 33.0),
        ("high_capped", 39.0, 84.0, (20.0, 50.0), 0.0),
        # modified base 50 and 86 °F: (86 + 60) / 2 - 50; (70 + 50) / 2 - 50
        ("both_capped", 50.0, 86.0, (60.0, 95.0), 23.0),
        ("both_capped", 50.0, 86.0, (40.0, 70.0), 10.0),
        # single sine, horizontal, 50 and 86 °F: 25.5086, integrated numerically with 4 million points
        ("sine", 50.0, 86.0, (60.0, 95.0), 25.5086),
    ],
)
def test_a_day_by_the_method_of_its_source(method, lower_f, upper_f, day_f, sum_f) -> None:
    limits = Limits(c_from_f(lower_f), None if upper_f is None else c_from_f(upper_f), method)
    low, high = (c_from_f(t_f) for t_f in day_f)
    assert day_cd(low, high, limits) == pytest.approx(sum_f / 1.8, abs=1e-4)


def test_a_sum_without_a_gap_is_sure() -> None:
    found = warmth_sum([5.0, 7.0, 9.0])
    assert (found.sure_cd, found.estimate_cd, found.missing_n, found.days_n) == (21.0, 21.0, 0, 3)


def test_a_short_gap_is_bridged_and_called_an_estimate() -> None:
    days = [10.0] * 10 + [None, None] + [20.0] * 10
    found = warmth_sum(days)
    assert (found.sure_cd, found.estimate_cd, found.missing_n) == (300.0, 330.0, 2)


@pytest.mark.parametrize(
    "days",
    [
        [None, *[10.0] * 50],
        [*[10.0] * 50, None],
        [*[10.0] * 50, *[None] * 6, *[10.0] * 50],
        [10.0, None, 10.0, None, 10.0, None, 10.0],
        [None, None],
    ],
)
def test_where_too_much_is_missing_nothing_is_estimated(days) -> None:
    assert warmth_sum(days).estimate_cd is None


@given(st.lists(st.floats(0.0, 30.0), min_size=1, max_size=60), st.data())
def test_what_is_sure_is_never_more_than_what_came(days, data) -> None:
    hidden = [None if data.draw(st.booleans()) else day for day in days]
    found = warmth_sum(hidden)
    assert found.sure_cd <= sum(days) + 1e-9
    reached, true = reached_after_n(hidden, 50.0), reached_after_n(days, 50.0)
    assert reached is None or (true is not None and true <= reached)


def test_the_day_on_which_a_sum_was_reached() -> None:
    assert reached_after_n([10.0, None, 10.0, 10.0], 20.0) == 3
    assert reached_after_n([10.0], 20.0) is None


def test_days_to_go_at_the_pace_of_late() -> None:
    assert days_to_go_n(45.0, [10.0, None, 10.0, 10.0]) == 5
    assert days_to_go_n(40.0, [10.0, 10.0, 10.0]) == 4
    assert days_to_go_n(45.0, [10.0, 10.0]) is None
    assert days_to_go_n(45.0, [0.0, 0.0, 0.0]) is None


def test_cold_days_are_counted_and_missing_ones_named() -> None:
    assert cold_days_n([3.0, 7.2, 7.3, None], 7.2) == (2, 1)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="daily_cd"):
        warmth_sum([float("nan")])
    with pytest.raises(ValueError, match="upper"):
        day_cd(10.0, 20.0, Limits(10.0, None, "both_capped"))
