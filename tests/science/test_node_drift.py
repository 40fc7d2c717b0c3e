"""Speed common to a few plants: equal to brute integration, honest in its tails, patient with few counts."""

from itertools import product

import numpy as np
import pytest
from scipy import stats

from scout.science.node_drift import FRONT, GROWTH, Ranges, common_drift

PLANTS = [([0.0, 7.0, 14.0, 21.0], [5.0, 6.0, 6.0, 9.0]), ([0.0, 7.0, 21.0], [3.0, 5.0, 8.0])]


def brute(plants, ranges: Ranges, above: float) -> tuple[float, float]:
    """Mean speed and chance of a speed above a value, by adding scipy's normal densities over many speeds."""
    day = np.concatenate([d for d, _ in plants])
    count = np.concatenate([c for _, c in plants])
    plant = np.concatenate([np.full(len(d), n) for n, (d, _) in enumerate(plants)])
    same = (plant[:, None] == plant[None, :]).astype(float)
    speeds = np.linspace(-3.0, 3.0, 3001)
    density = np.zeros(speeds.size)
    for error, walk, shared, own in product(
        ranges.error_variance, ranges.walk_variance, ranges.shared, ranges.plant_sd
    ):
        moved = walk * np.minimum.outer(day, day) * (shared + (1 - shared) * same)
        covariance = 400.0 * same + moved + own**2 * np.outer(day, day) * same + error * np.eye(day.size)
        missed = (count - count.mean())[None, :] - speeds[:, None] * day[None, :]
        density += stats.multivariate_normal(np.zeros(day.size), covariance).pdf(missed)
    density *= stats.norm(ranges.speed_mean, ranges.speed_sd).pdf(speeds)
    density /= density.sum()
    return float(speeds @ density), float(density[speeds > above].sum() + 0.5 * density[speeds == above].sum())


SUMS = [([0.0, 7.0, 14.0], [0.0, 1.0, 4.0]), ([], [])]


def brute_with_sums(above: float) -> tuple[float, float]:
    """The same with the first plant's sums as a second count: written out entry by entry."""
    entries = [(d, c, n, k, i) for k, group in enumerate((PLANTS, SUMS)) for n, plant in enumerate(group)
               for i, (d, c) in enumerate(zip(*plant, strict=True))]  # fmt: skip
    speeds, density = np.linspace(-3.0, 3.0, 3001), np.zeros(3001)
    for error, walk, shared, own, (linked, lag_sd, weight) in product(
        FRONT.error_variance, FRONT.walk_variance, FRONT.shared, FRONT.plant_sd, FRONT.ties
    ):

        def together(one, other, error=error, walk=walk, shared=shared, own=own, linked=linked, lag=lag_sd) -> float:
            (d, _, n, k, i), (e, _, m, kind, j) = one, other
            part = shared if n != m else shared + (1 - shared) * (1 if k == kind else linked)
            found = walk * min(d, e) * part + (own**2 * d * e if n == m else 0.0)
            found += (lag**2 * d * e if k and kind else 0.0) + (400.0 if (n, k) == (m, kind) else 0.0)
            if (n, k) == (m, kind):
                found += error * (min(i, j) if k else i == j)
            return found

        covariance = np.array([[together(one, other) for other in entries] for one in entries])
        slopes = np.array([d for d, *_ in entries])
        heights = np.mean([c for _, c, _, k, _ in entries if not k])
        start = np.array([c - (FRONT.sum_lag * d if k else heights) for d, c, _, k, _ in entries])
        missed = start[None, :] - speeds[:, None] * slopes[None, :]
        density += weight * stats.multivariate_normal(np.zeros(len(entries)), covariance).pdf(missed)
    density *= stats.norm(FRONT.speed_mean, FRONT.speed_sd).pdf(speeds)
    density /= density.sum()
    return float(speeds @ density), float(density[speeds > above].sum() + 0.5 * density[speeds == above].sum())


def test_added_up_counts_equal_the_sum_over_all_speeds_and_sizes() -> None:
    # Reference: scipy.stats.multivariate_normal densities over 3001 speeds, covariances entry by entry.
    found = common_drift(PLANTS, FRONT, SUMS)
    mean, above = brute_with_sums(0.25)
    assert found.expected_per_d == pytest.approx(mean, abs=1e-4)
    assert found.above(0.25) == pytest.approx(above, abs=1e-3)


def test_added_up_counts_that_agree_narrow_the_limits() -> None:
    days = [0.0, 7.0, 14.0, 21.0]
    climbs, sums = [(days, [5.0, 6.0, 8.0, 9.0])] * 2, [(days, [0.0, 1.0, 3.0, 4.0])] * 2
    (low, high), (alone_low, alone_high) = (common_drift(climbs, FRONT, more).interval() for more in (sums, ()))
    assert high - low < alone_high - alone_low


@pytest.mark.parametrize("ranges", [FRONT, GROWTH], ids=["front", "growth"])
def test_it_equals_the_sum_over_all_speeds_and_sizes(ranges: Ranges) -> None:
    # Reference: scipy.stats.multivariate_normal densities, added up over 3001 speeds.
    found = common_drift(PLANTS, ranges)
    mean, above = brute(PLANTS, ranges, 0.25)
    assert found.expected_per_d == pytest.approx(mean, abs=1e-4)
    assert found.above(0.25) == pytest.approx(above, abs=1e-3)


def test_sums_that_count_something_else_are_let_go() -> None:
    days = [0.0, 5.0, 10.0, 15.0, 20.0]
    climbs = [(days, [5.0, 5.0, 6.0, 6.0, 7.0])] * 2
    wild = [(days, [0.0, 40.0, 80.0, 120.0, 160.0])] * 2
    assert common_drift(climbs, FRONT, wild).expected_per_d < common_drift(climbs, FRONT).expected_per_d + 0.35


def test_the_interval_leaves_five_in_a_hundred_on_each_side() -> None:
    found = common_drift(PLANTS, FRONT)
    low, high = found.interval(0.9)
    assert found.above(low) == pytest.approx(0.95, abs=1e-9)
    assert found.above(high) == pytest.approx(0.05, abs=1e-9)


def test_without_counts_the_ranges_alone_speak() -> None:
    found = common_drift([], GROWTH)
    assert found.expected_per_d == GROWTH.speed_mean
    assert found.interval(0.9)[1] == pytest.approx(GROWTH.speed_mean + 1.6448536 * GROWTH.speed_sd, abs=1e-6)


def test_the_height_at_the_start_says_nothing_of_the_speed() -> None:
    low = common_drift([([0.0, 10.0], [5.0, 8.0])], FRONT)
    high = common_drift([([0.0, 10.0], [25.0, 28.0])], FRONT)
    assert high.expected_per_d == pytest.approx(low.expected_per_d, abs=1e-9)


def test_a_third_plant_and_a_further_visit_narrow_the_limits() -> None:
    def width(plants_n: int, visits_n: int) -> float:
        days = [7.0 * n for n in range(visits_n)]
        low, high = common_drift([(days, [10.0 + 0.3 * d for d in days])] * plants_n, GROWTH).interval()
        return high - low

    assert width(3, 4) < width(2, 4) < width(2, 3)


def test_the_difference_of_two_speeds_has_the_difference_of_their_means() -> None:
    front, growth = common_drift(PLANTS, FRONT), common_drift(PLANTS, GROWTH)
    gap = front.minus(growth)
    assert gap.expected_per_d == pytest.approx(front.expected_per_d - growth.expected_per_d)
    assert gap.above(0.0) + growth.minus(front).above(0.0) == pytest.approx(1.0)


def test_days_and_counts_must_match() -> None:
    with pytest.raises(ValueError, match="2 days stand beside 1 counts"):
        common_drift([([0.0, 7.0], [3.0])], FRONT)
