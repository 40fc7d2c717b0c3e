"""All counts of a bed in one list, and how they hang together: by plant, by day, by the walk that chance makes."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
PlantCounts = tuple[Sequence[float], Sequence[float]]
"""Days and counts of one plant."""
_START_VARIANCE = 400.0
"""A plant may start anywhere."""


@dataclass(frozen=True, slots=True)
class Stacked:
    """One entry a count, arrays of equal length."""

    day: Array
    """From the first."""
    count: Array
    plant: Array
    is_sum: Array
    """1: of counts that add up; 0: a height counted afresh each time."""
    visit: Array
    """Number of counts added up so far: each brings its own error."""

    @property
    def centred(self) -> Array:
        """Return the counts less the mean height, for the arithmetic's sake; each plant starts anywhere anyway."""
        heights = self.is_sum == 0.0
        centred: Array = self.count - np.where(heights, self.count[heights].mean(), 0.0)
        return centred


def stacked(plants_n: Sequence[PlantCounts], sums_n: Sequence[PlantCounts] = ()) -> Stacked:
    """Return every count with its plant and kind.

    Units: days, and leaf counts.
    Valid: sums_n none, or one a plant in the same order.
    Raises: ValueError for days and counts of unequal length.
    Source: none needed.
    """
    entries: list[tuple[float, float, float, float, float]] = []
    for is_sum, group in ((0.0, plants_n), (1.0, sums_n)):
        for plant, (days, counts) in enumerate(group):
            if len(days) != len(counts):
                raise ValueError(f"{len(days)} days stand beside {len(counts)} counts")
            entries += [(d, c, plant, is_sum, n) for n, (d, c) in enumerate(zip(days, counts, strict=True))]
    day, count, plants, kinds, visits = np.array(entries, dtype=np.float64).reshape(-1, 5).T
    return Stacked(day - day.min(initial=np.inf), count, plants, kinds, visits)


def covariances(counts: Stacked, sizes_n: Array) -> Array:
    """Return how the counts vary together, a matrix for each row of sizes.

    Units: sizes_n rows of error variance (leaves squared), walk variance (leaves squared a day), share of the walk
        common to all plants, spread of the plants' speeds (leaves a day), share of a plant's own walk that shows in
        both kinds of count, spread of the lag of sums (leaves a day).
    Valid: variances over 0, shares 0 to 1.
    Raises: nothing.
    Source: mixed model with a random walk, see `node_drift`.
    """
    same = _alike(counts.plant)
    kind = _alike(counts.is_sum)
    sums = np.outer(counts.is_sum, counts.is_sum)
    days, walked = np.outer(counts.day, counts.day), np.minimum.outer(counts.day, counts.day)
    miscounts = np.diag(1.0 - counts.is_sum) + sums * same * np.minimum.outer(counts.visit, counts.visit)
    error, walk, shared, own, linked, lag_sd = sizes_n.T
    apart = walk * (1.0 - shared)
    parts = (
        (np.ones_like(walk), _START_VARIANCE * same * kind),
        (lag_sd**2, days * sums),
        (own**2, days * same),
        (walk * shared, walked),
        (apart, walked * same * kind),
        (apart * linked, walked * same * (1.0 - kind)),
        (error, miscounts),
    )
    # not tensordot: for so few numbers the threads of its matrix product cost more than they save
    found: Array = np.einsum("pg,pnm->gnm", np.stack([size for size, _ in parts]), np.stack([m for _, m in parts]))
    return found


def _alike(values: Array) -> Array:
    alike: Array = np.equal.outer(values, values).astype(np.float64)
    return alike


def forward(half_n: Array, sides_n: Array) -> Array:
    """Return each lower triangle's solution for the same sides, by forward substitution over all at once.

    Units: half_n triangles, sides_n columns, both in the caller's units.
    Valid: diagonals not 0.
    Raises: nothing.
    Source: forward substitution; numpy has no solver for triangles.
    """
    solved = np.zeros((half_n.shape[0], *sides_n.shape))
    for row in range(sides_n.shape[0]):
        known = np.einsum("gj,gjk->gk", half_n[:, row, :row], solved[:, :row])
        solved[:, row] = (sides_n[row] - known) / half_n[:, row, row, None]
    return solved
