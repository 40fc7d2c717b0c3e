"""Rank tests for a rise or fall against printed examples, full listing and scipy."""

from collections.abc import Callable
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from scout.science.trend import kendall_tail, mann_kendall, sen_slope

Row = dict[str, str]
Printed = Callable[[str], object]


@pytest.mark.table("mann_kendall")
def test_sum_variance_and_slope_of_a_series(row: Row, printed: Printed) -> None:
    series = [float(item) for item in row["series"].split()]
    result = mann_kendall(series)
    assert result.s == int(row["s"])
    assert result.variance == printed(row["variance"])
    assert sen_slope([float(day) for day in range(len(series))], series) == printed(row["sen_slope"])
    if not result.exact:
        assert result.p_two_sided == printed(row["p_normal"])


def test_short_series_without_ties_are_exact_and_others_are_not() -> None:
    assert mann_kendall([5.0, 6.0, 11.0, 8.0, 10.0]).exact
    assert not mann_kendall([100.0, 50.0, 85.0, 75.0, 50.0]).exact
    assert not mann_kendall([float(value) for value in range(9)]).exact


@pytest.mark.parametrize(
    ("count_n", "s", "chance"),
    # By listing all orders; printed in tables of the test (Kendall; that they are printed: from memory).
    [
        (4, 4, 0.1667),
        (4, 6, 0.0417),
        (5, 6, 0.1167),
        (5, 8, 0.0417),
        (5, 10, 0.0083),
        (6, 9, 0.0681),
        (7, 13, 0.0345),
        (8, 16, 0.0305),
    ],
)
def test_exact_chances_of_short_series(count_n: int, s: int, chance: float) -> None:
    assert kendall_tail(s, count_n) == pytest.approx(chance, abs=5e-5)


@pytest.mark.parametrize("count_n", [2, 3, 4, 5, 6])
def test_exact_chances_equal_listing_every_order(count_n: int) -> None:
    sums = [mann_kendall(order).s for order in permutations(range(count_n))]
    for s in range(-15, 16):
        assert kendall_tail(s, count_n) == pytest.approx(sum(one >= s for one in sums) / len(sums), abs=1e-12)


@pytest.mark.parametrize(("count_n", "critical_95"), [(4, 6), (5, 8), (6, 11), (7, 13), (8, 16), (9, 18), (10, 20)])
def test_critical_sums_of_a_software_help_page(count_n: int, critical_95: int) -> None:
    # One-sided 95 %: the printed sum is reached by chance in 5 % or less, the next smaller possible one is not.
    assert kendall_tail(critical_95, count_n) <= 0.05 < kendall_tail(critical_95 - 2, count_n)


def test_three_looks_can_never_show_a_trend() -> None:
    assert mann_kendall([1.0, 2.0, 3.0]).p_two_sided == pytest.approx(1 / 3, abs=1e-12)


def test_no_change_at_all_is_no_trend() -> None:
    result = mann_kendall([3.0, 3.0, 3.0, 3.0, 3.0])
    assert (result.s, result.variance, result.p_two_sided) == (0, 0.0, 1.0)


def test_great_lakes_rain_1900_to_1986(table: Callable[[str], list[Row]]) -> None:
    # R package Kendall prints S 989, variance 74398.33, two-sided p 0.00029.
    result = mann_kendall([float(row["rain_inch"]) for row in table("great_lakes_rain")])
    assert result.s == 989
    assert result.variance == pytest.approx(74398.33, abs=0.005)
    assert result.p_two_sided == pytest.approx(0.00029, abs=5e-6)


@given(st.permutations(range(8)).flatmap(lambda order: st.integers(2, 8).map(lambda n: order[:n])))
def test_exact_p_equals_scipys_kendall(order: list[int]) -> None:
    theirs = stats.kendalltau(range(len(order)), order, method="exact").pvalue
    assert mann_kendall(order).p_two_sided == pytest.approx(theirs, rel=1e-9)


@given(st.lists(st.integers(0, 20), min_size=2, max_size=15))
def test_turning_the_series_round_turns_the_sign(values: list[int]) -> None:
    there, back = mann_kendall(values), mann_kendall(values[::-1])
    assert there.s == -back.s
    assert there.p_two_sided == pytest.approx(back.p_two_sided, rel=1e-12)


def test_sens_own_example() -> None:
    # Sen 1968, J. Am. Statist. Assoc. 63:1379: slope 4 (also in scipy's tests).
    assert sen_slope([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78]) == 4.0


@given(st.lists(st.tuples(st.integers(0, 60), st.integers(-50, 50)), min_size=2, unique_by=lambda pair: pair[0]))
def test_sen_slope_equals_scipys(looks: list[tuple[int, int]]) -> None:
    days, values = zip(*looks, strict=True)
    assert sen_slope(days, values) == pytest.approx(stats.theilslopes(values, days)[0], abs=1e-9)


def test_series_that_say_nothing_are_refused() -> None:
    with pytest.raises(ValueError, match="number of values is 1"):
        mann_kendall([1.0])
    with pytest.raises(ValueError, match="not a number"):
        mann_kendall([1.0, float("nan")])
    with pytest.raises(ValueError, match="not a number"):
        sen_slope([1.0, 2.0], [1.0, float("nan")])
    with pytest.raises(ValueError, match="number of days is 1"):
        sen_slope([1.0], [1.0])
    with pytest.raises(ValueError, match="stands twice"):
        sen_slope([1.0, 1.0], [1.0, 2.0])
    with pytest.raises(ValueError, match="zip"):
        sen_slope([1.0, 2.0], [1.0, 2.0, 3.0])
    with pytest.raises(ValueError, match="count_n"):
        kendall_tail(1, 1)
