"""Exact posterior of a two-layer noisy-OR network, by an all-positive sum over sets of explained findings.

A cause that is present makes each finding appear with its own strength, independently; a leak makes it appear
with no cause at all. The alternating sum over subsets of findings (Heckerman 1989) cancels for many badly
explained findings; here every term is positive, so the result is accurate to rounding for any evidence.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]

_WORKING_SIZE = 1 << 17
"""Sets held per cause at one time; bounds memory, changes no result."""


@dataclass(frozen=True)
class Solved:
    """The same evidence under V variants, solved together."""

    evidence: Array
    """Probability of the required findings and of the kept weights, shape (V,)."""
    joint: Array
    """Probability of that evidence together with cause i, shape (V, n)."""

    @property
    def marginals(self) -> Array:
        """Return P(cause i | evidence), shape (V, n)."""
        return self.joint / self.evidence[:, None]


def solve(prior: Array, keep: Array, strength: Array, leak: Array, required: npt.NDArray[np.bool_]) -> Solved:
    """Return evidence and joint probabilities of every variant.

    prior (V, n): chance of each cause. keep (V, n): weight that a present cause contributes from findings looked
    for and not seen, the product of (1 - strength). strength (n, m): of each positive finding given the cause.
    leak (m,): chance that the finding appears with no cause. required (V, m): which positive findings the variant
    counts; the others are free. All values lie in 0-1. Cost grows as V * links * 2^m.
    Raises ValueError when shapes disagree.
    """
    variants, causes = prior.shape
    findings = strength.shape[1]
    if keep.shape != prior.shape or strength.shape[0] != causes or required.shape != (variants, findings):
        raise ValueError("prior, keep, strength and required do not fit together")
    linked = np.flatnonzero(strength.any(axis=1))
    weight = prior * keep
    rest = 1.0 - prior
    free = np.setdiff1d(np.arange(causes), linked)
    outside = weight[:, free] + rest[:, free]
    evidence, joint_linked = _in_slices(weight[:, linked], rest[:, linked], strength[linked], leak, required)
    scale = outside.prod(axis=1)
    joint = np.empty_like(prior)
    joint[:, linked] = joint_linked * scale[:, None]
    evidence = evidence * scale
    joint[:, free] = evidence[:, None] * weight[:, free] / outside
    return Solved(evidence, joint)


def _in_slices(
    weight: Array, rest: Array, strength: Array, leak: Array, required: npt.NDArray[np.bool_]
) -> tuple[Array, Array]:
    """Solve as many variants at a time as fit the working size."""
    step = max(1, _WORKING_SIZE >> len(leak))
    parts = [
        _forward_backward(weight[v : v + step], rest[v : v + step], strength, leak, required[v : v + step])
        for v in range(0, len(weight), step)
    ]
    return np.concatenate([e for e, _ in parts]), np.concatenate([j for _, j in parts])


def _forward_backward(
    weight: Array, rest: Array, strength: Array, leak: Array, required: npt.NDArray[np.bool_]
) -> tuple[Array, Array]:
    variants, causes = weight.shape
    forward = _leaks(variants, leak)
    before = np.empty((causes, *forward.shape))
    for cause in range(causes):
        before[cause] = forward
        present = forward * weight[:, cause, None]
        _explain(present, strength[cause])
        forward = forward * rest[:, cause, None] + present
    backward = _all_required(required)
    evidence = np.einsum("vs,vs->v", forward, backward)
    joint = np.empty((variants, causes))
    for cause in range(causes - 1, -1, -1):
        present = backward.copy()
        _average(present, strength[cause])
        present *= weight[:, cause, None]
        joint[:, cause] = np.einsum("vs,vs->v", before[cause], present)
        backward = backward * rest[:, cause, None] + present
    return evidence, joint


def _leaks(variants: int, leak: Array) -> Array:
    """Return the chance of each set of findings that leaks alone explain, shape (V, 2^m)."""
    sets = np.ones(1)
    for chance in leak:
        sets = np.concatenate([sets * (1.0 - chance), sets * chance])
    return np.repeat(sets[None, :], variants, axis=0)


def _all_required(required: npt.NDArray[np.bool_]) -> Array:
    """Return 1 for every set that holds all the required findings, else 0."""
    sets = np.ones((required.shape[0], 1))
    for column in required.T:
        without = sets * np.where(column, 0.0, 1.0)[:, None]
        sets = np.concatenate([without, sets], axis=1)
    return sets


def _explain(sets: Array, strength: Array) -> None:
    """Move mass towards explained, finding by finding, in place."""
    for finding in np.flatnonzero(strength):
        halves = sets.reshape(-1, 2, 1 << int(finding))
        moved = halves[:, 0] * strength[finding]
        halves[:, 1] += moved
        halves[:, 0] *= 1.0 - strength[finding]


def _average(sets: Array, strength: Array) -> None:
    """Replace each set's value by its mean over what the cause would explain, in place."""
    for finding in np.flatnonzero(strength):
        halves = sets.reshape(-1, 2, 1 << int(finding))
        halves[:, 0] = (1.0 - strength[finding]) * halves[:, 0] + strength[finding] * halves[:, 1]
