"""How fast a node count climbs on a few plants that share one garden: the common speed and what is not known of it.

The model of one count (top leaf, or highest diseased leaf), the same for both but for its ranges:
count = start of the plant + (common speed + the plant's own difference) x days + a walk by chance + error of counting.
The walk stands for wet nights and leaves that come in steps; a part of it is shared by all plants of the bed. With so
few visits its size cannot be read off, so it is summed over the ranges below, weighed by how well each explains the
counts: that gives the wide tails that few data deserve.

Newly diseased leaves, added up, tell of the same speed by another road: a leaf that the spots pass is sooner or later
one of them. They are stacked with the height of the spots as a second count of each plant (`stacked_counts`). Where the
two disagree past what their lag allows, the sums are let go: they may count something else.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from scout.science.bisection import crossing
from scout.science.limits import require_confidence
from scout.science.normal_curve import below_frac
from scout.science.stacked_counts import PlantCounts, covariances, forward, stacked

_NEGLIGIBLE = 1e-4
"""Parts of a mixture this small beside the largest change no figure that is shown."""
Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Ranges:
    """What is held possible before anything is counted; all sizes in leaves and days."""

    speed_mean: float
    speed_sd: float
    error_variance: tuple[float, ...]
    """Of one count."""
    walk_variance: tuple[float, ...]
    """Gained per day."""
    shared: tuple[float, ...]
    """Share of the walk common to all plants."""
    plant_sd: tuple[float, ...]
    """Of the plants' own speeds about the common one, a day."""
    sum_lag: float = 0.0
    """By how much the sum climbs faster than the count, a day."""
    ties: tuple[tuple[float, float, float], ...] = ()
    """How the sum hangs together with the count: share of a plant's own walk that shows in both, what is not known of
    the lag, a day, and how much the pair weighs beforehand."""


COUNT_ERROR_VARIANCE = (0.35, 0.75)
"""One leaf too few or too many now and then, or as often as not (0.27 to 0.67), and rounding to whole leaves (1/12)."""

GROWTH = Ranges(0.3, 0.2, COUNT_ERROR_VARIANCE, (0.005, 0.02, 0.08), (0.5,), (0.03, 0.1))
"""Tomatoes at their best make about 3 leaves a week (common practice), less in heat; leaves come steadily."""

FRONT = Ranges(
    speed_mean=0.25,
    speed_sd=0.3,
    error_variance=COUNT_ERROR_VARIANCE,
    walk_variance=(0.02, 0.08, 0.25, 0.7),
    shared=(0.2, 0.6),
    plant_sd=(0.04, 0.12),
    sum_lag=-0.04,
    ties=((0.3, 0.06, 1.0), (0.9, 0.06, 1.0), (0.3, 0.6, 0.05)),
)
"""Spots climb in steps after wet nights: from almost steady to jumps of several leaves a week. Newly diseased leaves
add up a little slower than the spots climb, for some leaves are passed over; side shoots and old gaps may add some; or
they count something else. Our choice."""


@dataclass(frozen=True, slots=True)
class Drift:
    """What is held of a speed after the counts: a mixture of normal curves."""

    weight: Array
    mean_per_d: Array
    sd_per_d: Array

    @property
    def expected_per_d(self) -> float:
        """Return the mean speed."""
        return float(np.dot(self.weight, self.mean_per_d))

    def above(self, speed_per_d: float) -> float:
        """Return the chance that the speed is above a value."""
        return min(1.0, float(np.dot(self.weight, below_frac((self.mean_per_d - speed_per_d) / self.sd_per_d))))

    def interval(self, confidence_frac: float = 0.9) -> tuple[float, float]:
        """Return the limits that leave the same chance on both sides."""
        require_confidence(confidence_frac)
        tail = (1.0 - confidence_frac) / 2.0
        low = float((self.mean_per_d - 9.0 * self.sd_per_d).min())
        high = float((self.mean_per_d + 9.0 * self.sd_per_d).max())
        return crossing(self.above, 1.0 - tail, low, high), crossing(self.above, tail, low, high)

    def minus(self, other: "Drift") -> "Drift":
        """Return what is held of the difference, the two taken as independent."""
        weight = np.outer(self.weight, other.weight).ravel()
        kept = weight > _NEGLIGIBLE * weight.max()
        return Drift(
            weight[kept] / weight[kept].sum(),
            np.subtract.outer(self.mean_per_d, other.mean_per_d).ravel()[kept],
            np.sqrt(np.add.outer(self.sd_per_d**2, other.sd_per_d**2)).ravel()[kept],
        )


def common_drift(plants_n: Sequence[PlantCounts], ranges: Ranges, sums_n: Sequence[PlantCounts] = ()) -> Drift:
    """Return what is held of the plants' common speed in leaves a day.

    Units: plants_n days and leaf counts, a pair of equal length for each plant; sums_n the same for counts that add up
        from 0, in the same order of plants; result leaves a day.
    Valid: any number of plants and visits; with none the ranges alone speak, sums alone tell nothing.
    Raises: ValueError for days and counts of unequal length.
    Source: linear mixed model with a random walk, Laird & Ware 1982, Biometrics 38:963-974; variances summed
        over a grid. The ranges are our own choice and stand beside it.
    """
    if not any(days for days, _ in plants_n):
        return Drift(np.array([1.0]), np.array([ranges.speed_mean]), np.array([ranges.speed_sd]))
    counts = stacked(plants_n, sums_n)
    sizes, beforehand = _grid(ranges, bool(counts.is_sum.any()))
    half: Array = np.asarray(np.linalg.cholesky(covariances(counts, sizes)), dtype=np.float64)
    solved = forward(half, np.stack([counts.day, counts.centred - ranges.sum_lag * counts.day * counts.is_sum], axis=1))
    dd, dc = (np.einsum("gi,gi->g", solved[:, :, 0], solved[:, :, column]) for column in (0, 1))
    cc = np.einsum("gi,gi->g", solved[:, :, 1], solved[:, :, 1])
    precision = dd + 1.0 / ranges.speed_sd**2
    mean = (dc + ranges.speed_mean / ranges.speed_sd**2) / precision
    misfit = cc + ranges.speed_mean**2 / ranges.speed_sd**2 - precision * mean**2
    log_size = 2.0 * np.log(np.einsum("gii->gi", half)).sum(axis=1)
    log_weight = np.log(beforehand) - 0.5 * (log_size + np.log(precision) + misfit)
    weight = np.exp(log_weight - log_weight.max())
    return Drift(weight / weight.sum(), mean, 1.0 / np.sqrt(precision))


def _grid(ranges: Ranges, with_sums: bool) -> tuple[Array, Array]:
    """Return every set of sizes, and how much each weighs beforehand."""
    ties = ranges.ties if with_sums else ((1.0, 0.0, 1.0),)
    rows = [
        (*sizes, linked, lag_sd, weight)
        for *sizes, (linked, lag_sd, weight) in product(
            ranges.error_variance, ranges.walk_variance, ranges.shared, ranges.plant_sd, ties
        )
    ]
    table = np.array(rows, dtype=np.float64)
    return table[:, :6], table[:, 6]
