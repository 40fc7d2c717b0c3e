"""Exact comparison of small counts against printed results and scipy."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from scout.science.counts import (
    compare_poisson_counts,
    fisher_exact_two_sided,
    poisson_interval,
)

Row = dict[str, str]
Printed = Callable[[str], object]
small = st.integers(0, 40)
days = st.sampled_from([3.0, 7.0, 14.0])


@pytest.mark.table("poisson_comparisons")
def test_two_counts_compared(row: Row, printed: Printed) -> None:
    result = compare_poisson_counts(
        int(row["first_n"]), float(row["first_d"]), int(row["second_n"]), float(row["second_d"])
    )
    assert result is not None
    for name in ("ratio", "low", "high", "p_least_likely", "p_double_tail"):
        if row[name]:
            assert getattr(result, name) == printed(row[name]), name


def test_two_new_leaves_against_five_is_no_difference() -> None:
    # Equal weeks, 2 against 5: two-sided p 0.453; six against none is the first clear fall.
    unclear = compare_poisson_counts(2, 7.0, 5, 7.0)
    clear = compare_poisson_counts(0, 7.0, 6, 7.0)
    assert unclear is not None and unclear.low < 1.0 and unclear.high is not None and unclear.high > 1.0
    assert clear is not None and clear.high is not None and clear.high < 1.0


def test_none_against_none_says_nothing() -> None:
    assert compare_poisson_counts(0, 7.0, 0, 7.0) is None


def test_something_after_nothing_has_no_upper_limit() -> None:
    result = compare_poisson_counts(4, 7.0, 0, 7.0)
    assert result is not None
    assert (result.ratio, result.high) == (None, None)
    # Mirror of 0 against 4, whose upper limit is 1.514867.
    assert result.low == pytest.approx(1 / 1.514867, abs=5e-7)


@given(small, days, small.filter(bool), days)
def test_swapping_the_two_turns_the_ratio_over(first_n: int, first_d: float, second_n: int, second_d: float) -> None:
    there = compare_poisson_counts(first_n, first_d, second_n, second_d)
    back = compare_poisson_counts(second_n, second_d, first_n, first_d)
    assert there is not None and back is not None
    assert there.p_double_tail == pytest.approx(back.p_double_tail, rel=1e-9)
    if first_n:
        assert there.low == pytest.approx(1 / back.high, rel=1e-9)
        assert there.ratio == pytest.approx(1 / back.ratio, rel=1e-9)


@given(small, days, small, days)
def test_both_p_values_equal_scipys_binomial(first_n: int, first_d: float, second_n: int, second_d: float) -> None:
    result = compare_poisson_counts(first_n, first_d, second_n, second_d)
    total_n = first_n + second_n
    if total_n == 0:
        assert result is None
        return
    share = first_d / (first_d + second_d)
    assert result is not None
    assert result.p_least_likely == pytest.approx(stats.binomtest(first_n, total_n, share).pvalue, rel=1e-7)
    tails = (stats.binom.cdf(first_n, total_n, share), stats.binom.sf(first_n - 1, total_n, share))
    assert result.p_double_tail == pytest.approx(min(1.0, 2 * min(tails)), rel=1e-9)


@pytest.mark.parametrize(
    ("first_n", "first_d", "second_n", "second_d"),
    # Found by search: here another outcome is likelier than the one seen by under 1 %, and must not be counted.
    [(8, 5.0, 4, 7.0), (6, 5.0, 11, 7.0), (12, 7.0, 12, 14.0), (18, 7.0, 6, 3.0)],
)
def test_an_outcome_hardly_likelier_than_the_one_seen_is_not_counted(
    first_n: int, first_d: float, second_n: int, second_d: float
) -> None:
    result = compare_poisson_counts(first_n, first_d, second_n, second_d)
    theirs = stats.binomtest(first_n, first_n + second_n, first_d / (first_d + second_d)).pvalue
    assert result is not None
    assert result.p_least_likely == pytest.approx(theirs, rel=1e-9)


@given(small, days, small, days)
def test_interval_and_its_p_value_agree(first_n: int, first_d: float, second_n: int, second_d: float) -> None:
    result = compare_poisson_counts(first_n, first_d, second_n, second_d)
    if result is not None and abs(result.p_double_tail - 0.05) > 1e-9:
        covers_one = result.low <= 1.0 and (result.high is None or result.high >= 1.0)
        assert covers_one == (result.p_double_tail > 0.05)


@pytest.mark.parametrize(
    "bad", [(-1, 7.0, 2, 7.0), (1, 0.0, 2, 7.0), (1, 7.0, 2, float("nan")), (1, 7.0, 2, float("inf"))]
)
def test_impossible_counts_and_times_are_refused(bad: tuple[int, float, int, float]) -> None:
    with pytest.raises(ValueError, match=r"first_n|first_d|second_d"):
        compare_poisson_counts(*bad)


@pytest.mark.table("poisson_limits")
def test_limits_of_one_count(row: Row, printed: Printed) -> None:
    low, high = poisson_interval(int(row["count_n"]))
    assert (low, high) == (printed(row["low"]), printed(row["high"]))


@given(st.integers(0, 150), st.sampled_from([0.5, 0.9, 0.999]))
def test_limits_of_one_count_equal_scipys_chi_square(count_n: int, confidence: float) -> None:
    tail = (1 - confidence) / 2
    low, high = poisson_interval(count_n, confidence)
    assert high == pytest.approx(stats.chi2.ppf(1 - tail, 2 * count_n + 2) / 2, rel=1e-9)
    assert low == pytest.approx(stats.chi2.ppf(tail, 2 * count_n) / 2 if count_n else 0.0, rel=1e-9)


def test_upper_limit_of_one_count() -> None:
    # Exact one-sided 95 %, the upper end of the 90 % interval: 0 → 2.9957 (the rule of three), 3 → 7.7537; computed.
    assert poisson_interval(0, 0.9)[1] == pytest.approx(2.9957, abs=5e-5)
    assert poisson_interval(3, 0.9)[1] == pytest.approx(7.7537, abs=5e-5)
    with pytest.raises(ValueError, match="count_n"):
        poisson_interval(-1)


def test_seven_of_nineteen_against_one_of_seventeen() -> None:
    # Two-sided p about 0.04: a difference, though the counts are small.
    p = fisher_exact_two_sided(7, 12, 1, 16)
    assert p == pytest.approx(0.04, abs=0.005)
    assert p == pytest.approx(stats.fisher_exact([[7, 12], [1, 16]]).pvalue, rel=1e-9)


def test_fishers_tea_cups() -> None:
    # R. A. Fisher 1935, The Design of Experiments: 3 of 4 cups right → two-sided p 34/70 = 0.4857 (the example
    # and its margins from memory; 34/70 by counting).
    assert fisher_exact_two_sided(3, 1, 1, 3) == pytest.approx(34 / 70, rel=1e-12)


@given(st.tuples(small, small, small, small))
def test_fisher_equals_scipy(cells: tuple[int, int, int, int]) -> None:
    a, b, c, d = cells
    theirs = stats.fisher_exact([[a, b], [c, d]]).pvalue
    assert fisher_exact_two_sided(a, b, c, d) == pytest.approx(theirs, rel=1e-9)


def test_equal_places_are_no_difference_and_negative_counts_are_refused() -> None:
    assert fisher_exact_two_sided(3, 7, 3, 7) == 1.0
    assert fisher_exact_two_sided(0, 0, 4, 4) == 1.0
    with pytest.raises(ValueError, match="a count is -1"):
        fisher_exact_two_sided(-1, 2, 3, 4)
