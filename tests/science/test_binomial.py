"""Exact chances against scipy and against counting."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from scout.science.binomial import binomial_at_least_frac, binomial_at_most_frac, binomial_frac


@given(st.integers(0, 300), st.integers(0, 300), st.floats(0.001, 0.999))
def test_scipy_gives_the_same_chances(one: int, other: int, share: float) -> None:
    count_n, of_n = sorted((one, other))
    assert binomial_frac(count_n, of_n, share) == pytest.approx(
        stats.binom.pmf(count_n, of_n, share), rel=1e-9, abs=1e-300
    )
    assert binomial_at_most_frac(count_n, of_n, share) == pytest.approx(
        stats.binom.cdf(count_n, of_n, share), rel=1e-9, abs=1e-300
    )
    assert binomial_at_least_frac(count_n, of_n, share) == pytest.approx(
        stats.binom.sf(count_n - 1, of_n, share), rel=1e-9, abs=1e-300
    )


@pytest.mark.parametrize(("count_n", "share"), [(9000, 1e-5), (5000, 0.5), (30, 0.003), (9990, 0.999)])
def test_ten_thousand_trials_to_ten_digits(count_n: int, share: float) -> None:
    theirs = stats.binom.cdf(count_n, 10_000, share)
    assert binomial_at_most_frac(count_n, 10_000, share) == pytest.approx(theirs, rel=1e-10)


def test_sampling_example_of_a_statistics_manual() -> None:
    # At most 1 bad in 20 at a share of 0.18 → 0.1018322793 (a statistics vendor's manual).
    assert binomial_at_most_frac(1, 20, 0.18) == pytest.approx(0.1018322793, abs=5e-11)


def test_certain_and_impossible_trials() -> None:
    assert binomial_frac(0, 5, 0.0) == binomial_frac(5, 5, 1.0) == binomial_frac(0, 0, 0.3) == 1.0
    assert binomial_at_least_frac(1, 5, 0.0) == binomial_at_most_frac(4, 5, 1.0) == 0.0
    assert binomial_at_most_frac(4, 5, 0.0) == binomial_at_least_frac(1, 5, 1.0) == 1.0


def test_small_case_counted_by_hand() -> None:
    # Three coins: 1 way of 8 for none, 3 for one, 3 for two, 1 for three.
    assert [binomial_frac(k, 3, 0.5) * 8 for k in range(4)] == pytest.approx([1, 3, 3, 1])


@pytest.mark.parametrize(("count_n", "of_n", "share"), [(4, 3, 0.5), (-1, 3, 0.5), (1, 3, 1.5), (1, 3, math.nan)])
def test_impossible_counts_and_shares_are_refused(count_n: int, of_n: int, share: float) -> None:
    for chance in (binomial_frac, binomial_at_most_frac, binomial_at_least_frac):
        with pytest.raises(ValueError, match="possible"):
            chance(count_n, of_n, share)
