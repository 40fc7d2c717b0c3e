"""The normal curve by table equals scipy's."""

import numpy as np
from scipy import stats

from scout.science.normal_curve import below_frac


def test_it_equals_scipys_normal_curve_between_the_steps_and_far_out() -> None:
    scores = np.concatenate([np.random.default_rng(1).uniform(-9.5, 9.5, 20_000), [-40.0, -1.959964, 0.0, 1.0, 40.0]])
    # Reference: scipy.stats.norm.cdf
    assert np.abs(below_frac(scores) - stats.norm.cdf(scores)).max() < 8e-9
