"""Apparent infection rate from many looks, and which curve suits: against a published epidemic and scipy."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from scout.science.epidemic import STRAIGHT, Model
from scout.science.epidemic_fit import COMPARED, best_first, inside, rate_fit
from scout.science.student_t import two_sided_limit, within_frac

# Tobacco etch virus incidence in Madden, Hughes & van den Bosch 2007, p. 94, as reprinted in an open textbook chapter.
DAYS = [0.0, 7.0, 14.0, 21.0, 28.0, 35.0, 42.0, 49.0]
SHARES = [0.001, 0.01, 0.09, 0.25, 0.80, 0.98, 0.99, 0.999]


@pytest.mark.parametrize(
    ("model", "rate", "intercept"),
    # Least squares on the transformed values of that epidemic, computed apart from this code.
    [
        ("logistic", 0.278481, -6.589560),
        ("gompertz", 0.184838, -2.998021),
        ("monomolecular", 0.143023, -1.325645),
        ("exponential", 0.135458, -5.263915),
    ],
)
def test_rates_of_a_published_epidemic(model: Model, rate: float, intercept: float) -> None:
    found = rate_fit(DAYS, SHARES, model)
    assert found is not None
    assert found.rate_per_d == pytest.approx(rate, abs=5e-7)
    assert found.intercept == pytest.approx(intercept, abs=5e-6)


def test_limits_are_the_slope_and_its_error_by_student() -> None:
    found = rate_fit(DAYS, SHARES, "logistic")
    line = stats.linregress(DAYS, [math.log(y / (1 - y)) for y in SHARES])
    assert found is not None and found.standard_error_per_d == pytest.approx(0.009972, abs=5e-7)
    reach = stats.t.ppf(0.975, 6) * line.stderr
    assert (found.low_per_d, found.high_per_d) == pytest.approx((line.slope - reach, line.slope + reach))


def test_the_likeliest_curve_stands_first_and_likelihoods_are_of_the_shares_themselves() -> None:
    fits = best_first(DAYS, SHARES)
    assert fits[0].model == "logistic" and {fit.model for fit in fits} == set(COMPARED)
    for fit in fits:
        # Reference: scipy's normal density of the transform times its numeric slope.
        straight = STRAIGHT[fit.model]
        values = np.array([straight(y) for y in SHARES])
        missed = values - fit.intercept - fit.rate_per_d * np.array(DAYS)
        slopes = [(straight(y + 1e-7) - straight(y - 1e-7)) / 2e-7 for y in SHARES]
        log = stats.norm(0.0, math.sqrt((missed**2).mean())).logpdf(missed).sum() + np.log(slopes).sum()
        assert fit.log_likelihood == pytest.approx(log, rel=1e-6)


@pytest.mark.parametrize("model", COMPARED)
def test_each_curve_is_the_likeliest_for_its_own_epidemic(model: Model) -> None:
    rng = np.random.default_rng(20261125)
    curve = {
        "logistic": lambda z: 1.0 / (1.0 + np.exp(-z)),
        "gompertz": lambda z: np.exp(-np.exp(-z)),
        "monomolecular": lambda z: 1.0 - np.exp(-z),
    }[model]
    days, right = np.arange(0.0, 60.0, 3.0), 0
    for _ in range(30):
        line = (0.2 if model == "monomolecular" else -2.0) + 0.08 * days
        shares = curve(line + rng.normal(0.0, 0.02, days.size))
        right += best_first(list(days), list(shares))[0].model == model
    assert right >= 27


def test_nothing_and_all_have_no_transform_and_are_left_out() -> None:
    assert inside([0.0, 7.0, 14.0], [0.0, 0.5, 1.0]) == [(7.0, 0.5)]
    found = rate_fit([0.0, *(d + 7.0 for d in DAYS)], [0.0, *SHARES], "logistic")
    assert found is not None and found.looks_n == 8 and found.rate_per_d == pytest.approx(0.278481, abs=5e-7)
    assert rate_fit([0.0, 7.0, 14.0], [0.0, 0.2, 0.4], "logistic") is None and best_first([], []) == ()


def test_shares_over_one_and_unequal_lengths_are_refused() -> None:
    with pytest.raises(ValueError, match="share_frac"):
        rate_fit([0.0, 1.0, 2.0], [0.1, 1.2, 0.3], "logistic")
    with pytest.raises(ValueError, match="zip"):
        rate_fit([0.0, 1.0], [0.1], "logistic")


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(0, 1)), max_size=12))
def test_any_looks_give_fits_or_none_and_no_error(looks: list[tuple[float, float]]) -> None:
    for fit in best_first([day for day, _ in looks], [share for _, share in looks]):
        assert fit.low_per_d <= fit.rate_per_d <= fit.high_per_d


@pytest.mark.parametrize("freedom", [1, 2, 3, 6, 11, 30])
@pytest.mark.parametrize("share", [0.5, 0.9, 0.95, 0.99])
def test_students_limits_equal_scipy(freedom: int, share: float) -> None:
    assert two_sided_limit(share, freedom) == pytest.approx(stats.t.ppf(0.5 + share / 2, freedom), rel=1e-10)
    assert within_frac(1.7, freedom) == pytest.approx(2 * stats.t.cdf(1.7, freedom) - 1, rel=1e-12)
