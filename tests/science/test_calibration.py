"""Calibration against worked figures, statsmodels and answers that are calibrated by construction."""

import numpy as np
import pytest
from scipy import optimize

from scout.science.calibration import (
    bootstrap_lines,
    brier_score,
    calibration_error,
    calibration_line,
    error_of_a_careful_answerer,
    reliability_bins,
)

STATED = np.array([0.9, 0.8, 0.7, 0.3, 0.6, 0.2, 0.95, 0.5])
RIGHT = np.array([1.0, 1.0, 0.0, 0.0, 1.0, 1.0, 1.0, 0.0])


def drawn(cases_n: int, bent: float, seed: int = 4):
    """Answers whose true log-odds are `bent` times those stated."""
    dice = np.random.default_rng(seed)
    stated = dice.uniform(0.05, 0.95, cases_n)
    true = 1.0 / (1.0 + ((1.0 - stated) / stated) ** bent)
    return stated, (dice.random(cases_n) < true).astype(float)


def test_brier_score_of_a_sum_done_by_hand() -> None:
    # (0.1² + 0.2² + 0.7² + 0.3² + 0.4² + 0.8² + 0.05² + 0.5²) / 8
    assert brier_score(STATED, RIGHT) == pytest.approx(1.6825 / 8)


def test_the_line_maximises_the_likelihood_as_scipy_finds_it() -> None:
    x = np.log(STATED / (1 - STATED))

    def loss(beta):
        z = beta[0] + beta[1] * x
        return float(np.logaddexp(0.0, z).sum() - (RIGHT * z).sum())

    found = optimize.minimize(loss, np.zeros(2), method="BFGS", options={"gtol": 1e-9}).x
    assert calibration_line(STATED, RIGHT) == pytest.approx(tuple(found), abs=1e-5)


def test_the_line_equals_that_of_statsmodels(require_or_skip) -> None:
    logit = require_or_skip("oracle", "statsmodels.api")
    rows = logit.add_constant(np.log(STATED / (1 - STATED)))
    fitted = logit.GLM(RIGHT, rows, family=logit.families.Binomial()).fit()
    assert calibration_line(STATED, RIGHT) == pytest.approx(tuple(fitted.params), abs=1e-6)


@pytest.mark.parametrize("bent", [0.5, 1.0, 2.0])
def test_the_slope_of_made_up_answerers_is_found_again(bent) -> None:
    stated, right = drawn(20_000, bent)
    line = calibration_line(stated, right)
    assert line is not None and line.slope == pytest.approx(bent, abs=0.1)
    assert line.intercept == pytest.approx(0.0, abs=0.1)


def test_the_bootstrap_interval_holds_the_truth_and_tells_a_bold_answerer() -> None:
    _, slope = bootstrap_lines(*drawn(600, 1.0), 300, 1)
    assert slope.low < 1.0 < slope.high
    _, slope = bootstrap_lines(*drawn(600, 0.4), 300, 1)
    assert slope.high < 1.0


def test_the_error_of_a_sum_done_by_hand() -> None:
    # two bins: stated 0.3, 0.2 (one of two right) and the six from 0.5 up (four of six right)
    low, high = abs(0.5 - 1.0), abs(4.45 - 4.0)
    assert calibration_error(STATED, RIGHT, bins_n=2) == pytest.approx((low + high) / 8)


def test_a_careful_answerer_stays_within_the_limit_and_a_bold_one_does_not() -> None:
    for bent, inside in ((1.0, True), (0.3, False)):
        stated, right = drawn(800, bent)
        limit = error_of_a_careful_answerer(stated, 300, 1)
        assert (calibration_error(stated, right) <= limit) is inside


def test_all_right_gives_no_line() -> None:
    assert calibration_line(STATED, np.ones(8)) is None


def test_nothing_to_score_is_refused() -> None:
    with pytest.raises(ValueError, match="as many outcomes"):
        brier_score(np.array([]), np.array([]))


def test_the_stretches_of_a_reliability_diagram_counted_by_hand() -> None:
    # stated 0.9 0.8 0.7 0.3 0.6 0.2 0.95 0.5: quarters hold 1, 1, 3 (0.5 0.6 0.7), 3 (0.8 0.9 0.95)
    bins = reliability_bins(STATED, RIGHT, 4)
    assert [(b.of_n, b.right_n) for b in bins] == [(1, 1), (1, 0), (3, 1), (3, 3)]
    assert bins[2].stated_frac == pytest.approx(0.6) and (bins[2].from_frac, bins[2].to_frac) == (0.5, 0.75)


def test_a_stretch_without_an_answer_has_no_mean_and_certainty_falls_into_the_last() -> None:
    bins = reliability_bins(np.array([1.0, 0.05]), np.array([1.0, 0.0]), 10)
    assert bins[9].of_n == 1 and bins[4] == (0.4, 0.5, 0, 0, None)
