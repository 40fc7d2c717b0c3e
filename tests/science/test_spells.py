"""Tests on the days of a window: unknown exactly when the missing days could change the answer.

Each evaluator is compared with trying every filling of the missing days. All series are constructed.
"""

from collections.abc import Callable
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.spells import (
    days_at_least,
    days_at_most,
    dry_then_wet,
    run_at_least,
    sum_at_least,
    sum_at_most,
    swings,
)

Days = list[float | None]
GRID = (0.0, 0.5, 1.0, 2.0, 5.0, 1000.0)
"""Fillings that tell apart everything the limits below can tell apart."""
some_days = st.lists(st.none() | st.sampled_from(GRID[:-1]), max_size=7).filter(lambda days: days.count(None) <= 3)
needed = st.integers(1, 4)
limits = st.sampled_from([0.5, 1.0, 2.0, 5.0])


def by_filling(days: Days, answer: Callable[[list[float]], bool]) -> bool | None:
    """Return the answer over every filling of the missing days; None where they disagree."""
    fillings = product(*(GRID if day is None else (day,) for day in days))
    answers = {answer(list(filled)) for filled in fillings}
    return answers.pop() if len(answers) == 1 else None


def has_run(days: list[float], limit: float, need: int) -> bool:
    starts = range(len(days) - need + 1)
    return any(all(day >= limit for day in days[start : start + need]) for start in starts)


def has_soaking(days: list[float], wet: float, need: int) -> bool:
    return any(
        all(day < 1.0 for day in days[first : first + need]) and sum(days[first + need : first + need + 2]) >= wet
        for first in range(len(days) - need)
    )


@given(some_days, limits, needed)
def test_counting_days_knows_exactly_what_the_missing_ones_allow(days: Days, limit: float, need: int) -> None:
    hot = by_filling(days, lambda filled: sum(day >= limit for day in filled) >= need)
    assert days_at_least(days, limit, need) is hot
    cool = by_filling(days, lambda filled: sum(day <= limit for day in filled) >= need)
    assert days_at_most(days, limit, need) is cool


@given(some_days, limits, needed)
def test_runs_know_exactly_what_the_missing_days_allow(days: Days, limit: float, need: int) -> None:
    expected = by_filling(days, lambda filled: has_run(filled, limit, need))
    assert run_at_least(days, limit, need) is expected


@given(some_days, st.sampled_from([1.0, 4.0, 10.0]))
def test_sums_know_exactly_what_the_missing_days_allow(days: Days, limit: float) -> None:
    assert sum_at_least(days, limit) is by_filling(days, lambda filled: sum(filled) >= limit)
    assert sum_at_most(days, limit) is by_filling(days, lambda filled: sum(filled) <= limit)


@given(some_days, st.sampled_from([1.5, 2.0, 3.0, 5.0]), needed)
def test_a_soaking_after_drought_knows_exactly_what_the_missing_days_allow(days: Days, wet: float, need: int) -> None:
    expected = by_filling(days, lambda filled: has_soaking(filled, wet, need))
    assert dry_then_wet(days, wet, need) is expected


def test_enough_hot_days_decide_though_others_are_missing() -> None:
    assert days_at_least([34.0, None, 33.0, None], 33.0, 2) is True


def test_too_few_days_decide_even_if_all_missing_were_hot() -> None:
    assert days_at_least([20.0, None, 21.0, 22.0], 33.0, 2) is False


def test_one_missing_day_that_could_decide_leaves_it_unknown() -> None:
    assert days_at_least([34.0, None, 21.0, 22.0], 33.0, 2) is None
    assert days_at_most([12.0, 9.0, None], 10.0, 2) is None


def test_an_empty_window_has_no_such_day() -> None:
    assert days_at_least([], 33.0) is False
    assert run_at_least([], 33.0, 1) is False
    assert dry_then_wet([], 20.0, 6) is False
    assert sum_at_most([], 5.0) is True


def test_a_missing_day_inside_a_run_leaves_it_unknown() -> None:
    assert run_at_least([33.0, None, 34.0], 33.0, 3) is None
    assert run_at_least([33.0, None, 20.0], 33.0, 3) is False
    assert run_at_least([33.0, 33.0, 33.0, None], 33.0, 3) is True


def test_hours_of_wetness_have_a_most_a_missing_day_can_add() -> None:
    assert sum_at_least([10.0, None], 40.0) is None
    assert sum_at_least([10.0, None], 40.0, highest_same=24.0) is False
    assert sum_at_most([10.0, None], 40.0, highest_same=24.0) is True
    assert sum_at_most([30.0, None, 20.0], 40.0, highest_same=24.0) is False


def test_a_sum_exactly_at_its_limit_counts_for_both_tests() -> None:
    assert sum_at_least([2.0, 3.0], 5.0) is sum_at_most([2.0, 3.0], 5.0) is True
    assert sum_at_least([16.0, None], 40.0, highest_same=24.0) is None
    assert sum_at_most([16.0, None], 40.0, highest_same=24.0) is True
    assert sum_at_most([5.0, None], 5.0) is None
    assert sum_at_least([5.0, None], 5.0) is True


def test_a_soaking_counts_only_right_after_the_dry_spell() -> None:
    dry = [0.0] * 6
    assert dry_then_wet([*dry, 12.0, 9.0], 20.0, 6) is True
    assert dry_then_wet([*dry, 2.0, 2.0, 25.0], 20.0, 6) is False
    assert dry_then_wet([*dry, 0.5, 19.5], 20.0, 6) is True
    assert dry_then_wet([25.0, *dry], 20.0, 6) is False
    assert dry_then_wet([*dry[:5], 25.0], 20.0, 6) is False
    assert dry_then_wet([*dry[:5], None, 25.0], 20.0, 6) is None
    assert dry_then_wet([*dry, 12.0, None], 20.0, 6) is None


def test_either_guess_can_be_enough() -> None:
    # The missing day is dry (then the 25 mm of the last day follow eight dry days) or it is not (then it ends
    # the spell of seven and the next day's 25 mm are still within two days): a soaking either way.
    assert dry_then_wet([0.0] * 7 + [None, 25.0], 20.0, 6) is True


def test_a_long_window_with_many_gaps_is_still_quick_and_right() -> None:
    assert dry_then_wet([None] * 200, 20.0, 6) is None
    assert dry_then_wet([1.0, None] * 100, 20.0, 6) is False


@pytest.mark.parametrize("evaluator", [days_at_least, days_at_most, run_at_least])
def test_needing_no_day_and_not_a_number_are_refused(evaluator: Callable[..., object]) -> None:
    with pytest.raises(ValueError, match="need_n is 0"):
        evaluator([1.0], 33.0, 0)
    with pytest.raises(ValueError, match="not a number"):
        evaluator([float("nan")], 33.0, 1)
    with pytest.raises(ValueError, match="not a number"):
        evaluator([1.0], float("nan"), 1)


def test_rain_below_zero_and_limits_that_cannot_be_are_refused() -> None:
    for evaluator in (sum_at_least, sum_at_most):
        with pytest.raises(ValueError, match="a day's value is -1"):
            evaluator([-1.0], 5.0)
    with pytest.raises(ValueError, match="a day's value"):
        dry_then_wet([float("nan")], 20.0, 6)
    with pytest.raises(ValueError, match="dry_need_n"):
        dry_then_wet([0.0], 20.0, 0)
    with pytest.raises(ValueError, match="wet_mm"):
        dry_then_wet([0.0], 0.5, 6)


def test_a_swing_is_told_as_soon_as_it_is_seen_and_denied_only_by_every_day() -> None:
    assert swings([0.9, None, 0.3], 0.5) is True
    assert swings([0.9, 0.6, 0.5], 0.5) is False
    assert swings([0.9, None, 0.5], 0.5) is None
    assert swings([None, None], 0.5) is None
