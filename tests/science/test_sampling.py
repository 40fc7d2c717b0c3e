"""Intervals of shares, and what "none found" leaves open."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from scout.science.sampling import (
    clopper_pearson_interval,
    upper_limit_none_found,
    wilson_interval,
)

Row = dict[str, str]
Printed = Callable[[str], object]
counts = st.integers(1, 200).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@pytest.mark.table("proportion_intervals")
def test_wilson_and_exact_intervals(row: Row, printed: Printed) -> None:
    affected_n, looked_n = int(row["affected_n"]), int(row["looked_n"])
    low, high = wilson_interval(affected_n, looked_n)
    assert (low, high) == (printed(row["wilson_low"]), printed(row["wilson_high"]))
    low, high = clopper_pearson_interval(affected_n, looked_n)
    assert (low, high) == (printed(row["exact_low"]), printed(row["exact_high"]))


@pytest.mark.parametrize(
    ("affected_n", "looked_n", "low", "high"),
    # statsmodels tests, values from R binom.
    [
        (18, 20, 0.698966, 0.972134),
        (4, 20, 0.080658, 0.416017),
        (190, 200, 0.910422, 0.972617),
        (4, 200, 0.007804, 0.050287),
        (0, 30, 0.0, 0.113513),
        (1, 30, 0.005909, 0.166704),
        (29, 30, 0.833296, 0.994091),
        (30, 30, 0.886487, 1.0),
    ],
)
def test_wilson_to_six_digits(affected_n: int, looked_n: int, low: float, high: float) -> None:
    assert wilson_interval(affected_n, looked_n) == pytest.approx((low, high), abs=5.5e-7)


def test_both_intervals_for_a_hundred_of_two_hundred() -> None:
    # statsmodels test against R 4.3.3 DescTools: Wilson 0.4313609-0.5686391, exact 0.4286584-0.5713416.
    assert wilson_interval(100, 200) == pytest.approx((0.4313609, 0.5686391), abs=5.5e-8)
    assert clopper_pearson_interval(100, 200) == pytest.approx((0.4286584, 0.5713416), abs=5.5e-8)


@given(counts, st.sampled_from([0.8, 0.95, 0.99]))
def test_exact_interval_equals_scipys_beta_quantiles(count: tuple[int, int], confidence: float) -> None:
    affected_n, looked_n = count
    tail = (1 - confidence) / 2
    low, high = clopper_pearson_interval(affected_n, looked_n, confidence)
    if affected_n:
        assert low == pytest.approx(stats.beta.ppf(tail, affected_n, looked_n - affected_n + 1), rel=1e-9)
    if affected_n < looked_n:
        theirs = stats.beta.ppf(1 - tail, affected_n + 1, looked_n - affected_n)
        assert high == pytest.approx(theirs, rel=1e-9)


@given(counts)
def test_an_interval_holds_the_share_seen_and_stays_between_none_and_all(count: tuple[int, int]) -> None:
    affected_n, looked_n = count
    for interval in (wilson_interval, clopper_pearson_interval):
        low, high = interval(affected_n, looked_n)
        assert 0.0 <= low <= affected_n / looked_n <= high <= 1.0
        assert (low == 0.0) == (affected_n == 0)
        assert (high == 1.0) == (affected_n == looked_n)


@given(counts)
def test_more_confidence_means_a_wider_interval(count: tuple[int, int]) -> None:
    narrow, wide = (clopper_pearson_interval(*count, confidence) for confidence in (0.8, 0.99))
    assert wide[0] <= narrow[0]
    assert narrow[1] <= wide[1]


@pytest.mark.parametrize(
    ("looked_n", "limit"),
    # 1 - 0.05^(1/n), computed; the rule of three 3/n (Hanley & Lippman-Hand 1983) is close for n over 30.
    [(1, 0.95), (3, 0.6316), (5, 0.4507), (10, 0.2589), (14, 0.1926), (20, 0.1391), (30, 0.0950), (60, 0.0487)],
)
def test_none_found_is_not_none_there(looked_n: int, limit: float) -> None:
    assert upper_limit_none_found(looked_n) == pytest.approx(limit, abs=5e-5)
    assert stats.binom.pmf(0, looked_n, upper_limit_none_found(looked_n)) == pytest.approx(0.05, rel=1e-9)


def test_nothing_looked_at_excludes_nothing() -> None:
    assert upper_limit_none_found(0) == 1.0


def test_rule_of_three_for_many_plants() -> None:
    # 300 looked at, none found → under 1 in 100.
    assert upper_limit_none_found(300) == pytest.approx(3 / 300, rel=0.01)


@pytest.mark.parametrize("confidence", [0.5, 0.8, 0.9, 0.95, 0.99, 0.999])
def test_rounding_never_pushes_an_end_beyond_none_or_all(confidence: float) -> None:
    # Cases in which other libraries once left 0 to 1 (statsmodels tests: 0 of 77, 38 of 38).
    for looked_n in range(1, 200):
        assert wilson_interval(0, looked_n, confidence)[0] == 0.0
        assert wilson_interval(looked_n, looked_n, confidence)[1] == 1.0


@pytest.mark.parametrize("interval", [wilson_interval, clopper_pearson_interval])
@pytest.mark.parametrize(("affected_n", "looked_n"), [(0, 0), (3, 2), (-1, 5)])
def test_impossible_counts_are_refused(interval: Callable[..., object], affected_n: int, looked_n: int) -> None:
    with pytest.raises(ValueError, match=r"affected_n|looked_n"):
        interval(affected_n, looked_n)


def test_a_confidence_in_per_cent_is_refused() -> None:
    with pytest.raises(ValueError, match="confidence_frac"):
        upper_limit_none_found(10, 95.0)
