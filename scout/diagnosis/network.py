"""Exact posterior of a two-layer noisy-OR network, by an all-positive sum over sets of explained findings.

A cause that is present makes each finding appear with its own strength, independently; a leak makes it appear
with no cause at all. The alternating sum over subsets of findings (Heckerman 1989) cancels for many badly
explained findings; here every term is positive, so the result is accurate to rounding for any evidence.

Findings are taken one by one: the causes that may explain it are let act, then it is closed, and only findings
that are open at one time span the table of sets. A cause with one link is an extra leak of its finding.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from scout.diagnosis.order import Order, Step, order_of

Array = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]
Rows = npt.NDArray[np.signedinteger]

WIDEST = 16
"""Findings that may be open at one time; beyond this the table of sets would not fit a phone."""
_WORKING_SIZE = 1 << 17
"""Sets held per step at one time; bounds memory, changes no result."""


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


def solve(prior: Array, keep: Array, strength: Array, leak: Array, required: Flags) -> Solved:
    """Return evidence and joint probabilities of every variant.

    prior (V, n): chance of each cause. keep (V, n): weight that a present cause contributes from findings looked
    for and not seen, the product of (1 - strength). strength (n, m): of each positive finding given the cause.
    leak (m,): chance that the finding appears with no cause. required (V, m): which positive findings the variant
    counts; the others are free. All values lie in 0-1. Cost grows as V * links * 2^width(strength).
    Raises ValueError when shapes disagree.
    """
    variants, causes = prior.shape
    if keep.shape != prior.shape or strength.shape[0] != causes or required.shape != (variants, strength.shape[1]):
        raise ValueError("prior, keep, strength and required do not fit together")
    weight = prior * keep
    total = weight + (1.0 - prior)
    chance = weight / total
    order = _order(strength)
    step = max(1, _WORKING_SIZE >> order.widest)
    parts = [
        _Sweep(chance[v : v + step], strength, leak, required[v : v + step], order).run()
        for v in range(0, variants, step)
    ]
    scale = total.prod(axis=1)
    evidence = np.concatenate([part.evidence for part in parts]) * scale
    return Solved(evidence, np.concatenate([part.joint for part in parts]) * scale[:, None])


def width(strength: Array) -> int:
    """Return how many findings are open at one time at most when a network of strengths (n, m) is solved."""
    return _order(strength).widest


def _order(strength: Array) -> Order:
    return order_of((strength > 0.0).tobytes(), strength.shape[1])


class _Sweep:
    """Forward over the steps and back again; chances (V, n) are those left by the negative findings.

    The table of sets has a column for every set of open findings that is explained, the newest finding outermost.
    """

    def __init__(self, chance: Array, strength: Array, leak: Array, required: Flags, order: Order) -> None:
        self._chance, self._strength, self._order = chance, strength, order
        self._present, self._absent = _columns(chance), _columns(1.0 - chance)
        self._link = strength.tolist()
        none = np.repeat(1.0 - leak[None], len(chance), axis=0)
        self._singles = {finding: list(own) for finding, own in enumerate(order.singles) if own}
        for finding, own in self._singles.items():
            none[:, finding] *= (1.0 - chance[:, own] * strength[own, finding]).prod(axis=1)
        self._none, self._some = _columns(none), _columns(1.0 - none)
        free = ~required
        self._free = {f: free[:, f].astype(float)[:, None, None] for f in np.flatnonzero(free.any(axis=0)).tolist()}

    def run(self) -> Solved:
        """Return evidence and joints of these variants."""
        sets = np.ones((len(self._chance), 1))
        before = []
        for step in self._order.steps:
            before.append(sets)
            sets = self._there(step, sets)
        evidence = sets[:, 0]
        joint = self._chance * evidence[:, None]  # of the causes with no link; the others follow
        sets = np.ones_like(sets)
        for step, then in zip(reversed(self._order.steps), reversed(before), strict=True):
            sets = self._back(step, sets, then, joint)
        return Solved(evidence, joint)

    def _there(self, step: Step, sets: Array) -> Array:
        if step.act == "cause":
            return self._act(step, sets)
        if step.act == "close":
            return self._close(step, sets)
        return np.concatenate([sets * self._none[step.which], sets * self._some[step.which]], axis=1)

    def _back(self, step: Step, sets: Array, before: Array, joint: Array) -> Array:
        if step.act == "cause":
            return self._back_act(step, sets, before, joint)
        if step.act == "close":
            return self._back_close(step, sets)
        return self._back_open(step, sets, before, joint)

    def _act(self, step: Step, sets: Array) -> Array:
        present: Array = sets * self._present[step.which]
        absent = sets * self._absent[step.which]
        strength = self._link[step.which]
        for finding, place in step.links:
            halves = present.reshape(-1, 2, 1 << place)
            without, within = halves[:, 0], halves[:, 1]
            moved = without * strength[finding]
            within += moved
            without -= moved
        present += absent
        return present

    def _back_act(self, step: Step, sets: Array, before: Array, joint: Array) -> Array:
        present: Array = sets * self._present[step.which]
        strength = self._link[step.which]
        for finding, place in step.links:
            halves = present.reshape(-1, 2, 1 << place)
            without, within = halves[:, 0], halves[:, 1]
            moved = within - without
            moved *= strength[finding]
            without += moved
        joint[:, step.which] = np.vecdot(before, present)
        present += sets * self._absent[step.which]
        return present

    def _close(self, step: Step, sets: Array) -> Array:
        halves = sets.reshape(len(sets), -1, 2, 1 << step.links[0][1])
        kept: Array = halves[:, :, 1]
        if step.which in self._free:
            kept = kept + halves[:, :, 0] * self._free[step.which]
        return kept.reshape(len(sets), -1)

    def _back_close(self, step: Step, sets: Array) -> Array:
        parts = sets.reshape(len(sets), -1, 1 << step.links[0][1])
        halves = np.zeros((*parts.shape[:2], 2, parts.shape[2]))
        halves[:, :, 1] = parts
        if step.which in self._free:
            halves[:, :, 0] = parts * self._free[step.which]
        return halves.reshape(len(sets), -1)

    def _back_open(self, step: Step, sets: Array, before: Array, joint: Array) -> Array:
        """Go back over the opening of a finding, and settle the causes that explain nothing but it."""
        half, finding = before.shape[1], step.which
        without, within = sets[:, :half], sets[:, half:]
        if finding in self._singles:
            own, none = self._singles[finding], self._none[finding]
            strength, chance = self._strength[own, finding], self._chance[:, own]
            others = none / (1.0 - chance * strength)
            missed, met = ((before * part).sum(axis=1)[:, None] for part in (without, within))
            joint[:, own] = chance * (strength * met + (1.0 - strength) * (others * missed + (1.0 - others) * met))
        left: Array = without * self._none[finding] + within * self._some[finding]
        return left


def _columns(table: Array) -> list[Array]:
    """Return each column of a table as a column of its own."""
    return list(table.T[:, :, None])
