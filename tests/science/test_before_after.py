"""What compares before with after: exact odds ratios, shuffled plants, differences of shares, how many to look at."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from scipy.stats.contingency import odds_ratio

from scout.science.counts import compare_poisson_counts, fisher_exact_two_sided
from scout.science.efficacy import henderson_tilton_pct
from scout.science.how_many import numbers_for_a_halving, shares_for_a_halving
from scout.science.odds_ratio import conditional_odds_ratio
from scout.science.share_difference import share_difference_interval
from scout.science.shuffled import shuffled_p_two_sided

cell = st.integers(0, 25)


def test_the_worked_examples_of_fishers_exact_test() -> None:
    # R's fisher.test help page: convicts' twins (Fisher 1962), the tea taster (Agresti 1990, one-sided 95 %: our 90 %).
    # Its limits are good to some parts in a thousand (uniroot's usual tolerance); scipy's are compared below.
    twins = conditional_odds_ratio(2, 15, 10, 3)
    assert twins is not None and twins.high is not None
    assert (twins.low, twins.high) == (pytest.approx(0.003325764, rel=3e-3), pytest.approx(0.363182271, rel=3e-3))
    tea = conditional_odds_ratio(3, 1, 1, 3, confidence_frac=0.90)
    assert tea is not None and tea.low == pytest.approx(0.3135693, rel=3e-3)
    assert fisher_exact_two_sided(2, 15, 10, 3) == pytest.approx(0.0005367, abs=5e-8)
    assert fisher_exact_two_sided(3, 1, 1, 3) == pytest.approx(0.4857, abs=5e-5)


@settings(max_examples=40)
@given(cell, cell, cell, cell)
def test_the_limits_equal_scipys(a: int, b: int, c: int, d: int) -> None:
    found = conditional_odds_ratio(a, b, c, d)
    if found is None:
        assert min(a + b, c + d, a + c, b + d) == 0
        return
    limits = odds_ratio([[a, b], [c, d]], kind="conditional").confidence_interval(0.95)
    assert found.low == pytest.approx(limits.low, rel=1e-6, abs=1e-12)
    assert (found.high is None and limits.high == np.inf) or found.high == pytest.approx(limits.high, rel=1e-6)


@given(st.integers(1, 25), cell, st.integers(1, 25), st.integers(1, 25))
def test_one_minus_henderson_tilton_lies_within_the_limits_or_at_their_edge(tb: int, ta: int, cb: int, ca: int) -> None:
    found = conditional_odds_ratio(ta, tb, ca, cb)
    assert found is not None
    ratio = 1.0 - henderson_tilton_pct((tb, 1), (ta, 1), (cb, 1), (ca, 1)) / 100.0
    assert found.low - 1e-9 <= ratio and (found.high is None or ratio <= found.high + 1e-9)


@given(cell, st.integers(1, 25), st.sampled_from([3.0, 7.0]), st.sampled_from([5.0, 8.0]))
def test_against_a_control_that_never_changes_it_is_the_plain_comparison(
    after: int, before: int, t1: float, t2: float
) -> None:
    # With a control counted without end, the odds of the second row are known: the test is binomial.
    found = conditional_odds_ratio(after, before, round(1e6 * t1), round(1e6 * t2), 1.0)
    plain = compare_poisson_counts(after, t1, before, t2)
    assert found is not None and plain is not None
    assert found.p_double_tail == pytest.approx(plain.p_double_tail, rel=1e-3)


def test_another_number_looked_at_moves_what_no_effect_would_be() -> None:
    # Twice as many plants looked at after, here alone: a doubling here is no change.
    found = conditional_odds_ratio(20, 10, 10, 10, null_ratio=2.0)
    assert found is not None and found.p_double_tail > 0.9


@pytest.mark.parametrize(
    ("first", "second", "low", "high"),
    [
        # Newcombe 1998, Statistics in Medicine 17:873-890, method 10 (from memory; computed alike).
        ((56, 70), (48, 80), 0.0524, 0.3339),
        ((9, 10), (3, 10), 0.1705, 0.8090),
        ((6, 7), (2, 7), 0.0582, 0.8062),
        ((5, 56), (0, 29), -0.0381, 0.1926),
        ((0, 10), (0, 20), -0.1611, 0.2775),
        ((0, 10), (0, 10), -0.2775, 0.2775),
        ((10, 10), (0, 20), 0.6791, 1.0000),
        ((10, 10), (0, 10), 0.6075, 1.0000),
    ],
)
def test_the_printed_differences_of_shares(
    first: tuple[int, int], second: tuple[int, int], low: float, high: float
) -> None:
    assert share_difference_interval(*first, *second) == (pytest.approx(low, abs=5e-5), pytest.approx(high, abs=5e-5))


@given(st.lists(st.integers(0, 9), min_size=1, max_size=5), st.lists(st.integers(0, 9), min_size=1, max_size=5))
def test_shuffling_equals_trying_every_split(first: list[int], second: list[int]) -> None:
    # Brute force.
    values, of_n = [*first, *second], len(first)
    mean = sum(values) * of_n / len(values)
    sums = [sum(chosen) for chosen in combinations(values, of_n)]
    far = sum(abs(one - mean) >= abs(sum(first) - mean) - 1e-9 for one in sums)
    assert shuffled_p_two_sided(first, second) == pytest.approx(far / len(sums))


def test_one_plant_full_of_insects_is_no_fall() -> None:
    # 30 on one plant of five, then none: five against five plants can be parted like this in every second shuffle,
    # where a count of single finds would call it certain.
    assert shuffled_p_two_sided([30, 0, 0, 0, 0], [0, 0, 0, 0, 0]) == 1.0
    plain = compare_poisson_counts(0, 5, 30, 5)
    assert plain is not None and plain.p_double_tail < 1e-6
    assert shuffled_p_two_sided([6, 7, 5, 6, 6], [0, 1, 0, 0, 1]) == pytest.approx(2 / 252)


@pytest.mark.parametrize("mean", [0.5, 1.0, 2.0, 4.0])
def test_so_many_plants_show_a_halving_of_numbers_about_four_times_in_five(mean: float) -> None:
    # Power of the exact test by summing over all outcomes (scipy); the exact test is a little shy of the rule's 80 %.
    n = numbers_for_a_halving(mean)
    power = 0.0
    for total in range(int(6 * n * mean) + 20):
        weight = stats.poisson.pmf(total, 1.5 * n * mean)
        if weight > 1e-9 and total:
            after = np.arange(total + 1)
            p = np.minimum(
                1.0, 2 * np.minimum(stats.binom.cdf(after, total, 0.5), stats.binom.sf(after - 1, total, 0.5))
            )
            power += weight * stats.binom.pmf(after, total, 1 / 3)[p <= 0.05].sum()
    assert 0.70 <= power <= 0.88


@pytest.mark.parametrize("share", [0.3, 0.5, 0.8])
def test_so_many_looks_show_a_halving_of_shares_about_four_times_in_five(share: float) -> None:
    n = shares_for_a_halving(share)
    k = np.arange(n + 1)
    before, after = stats.binom.pmf(k, n, share), stats.binom.pmf(k, n, share / 2)
    power = sum(
        before[i] * after[j]
        for i in k
        for j in k
        if before[i] * after[j] > 1e-7 and fisher_exact_two_sided(int(i), int(n - i), int(j), int(n - j)) <= 0.05
    )
    assert 0.65 <= power <= 0.88


def test_what_cannot_be_compared_is_refused() -> None:
    with pytest.raises(ValueError, match="null_ratio"):
        conditional_odds_ratio(1, 2, 3, 4, null_ratio=0.0)
    with pytest.raises(ValueError, match="plants on a side"):
        shuffled_p_two_sided([], [1])
    with pytest.raises(ValueError, match="change_ratio is 1"):
        numbers_for_a_halving(2.0, 1.0)
