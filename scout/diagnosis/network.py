"""Exact posterior of a two-layer noisy-OR network, by an all-positive sum over sets of explained findings.

A cause that is present makes each finding appear with its own strength, independently; a leak makes it appear
with no cause at all. The alternating sum over subsets of findings (Heckerman 1989) cancels for many badly
explained findings; here every term is positive, so the result is accurate to rounding for any evidence.

Findings are taken one by one: the causes that may explain it act, then it is closed, explained by one of them or
by its leak. Only findings that are open at one time span the table of sets. A cause with one link is an extra leak.
"""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from scout.diagnosis.order import Order, Rows, order_of

__all__ = ["WIDEST", "Array", "Flags", "Rows", "Solved", "solve", "width"]

Array = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]

WIDEST = 16
"""Findings that may be open at one time; beyond this the table of sets would not fit a phone."""
_CERTAIN = 2.0**-53
"""The least chance of absence: what a cause that is certain leaves is lost in rounding anyway."""
_TINY = 1e-300
_BLOCK = 5
"""Places that a cause acts on in one product."""
_WORK_BITS = 18
"""Of the products made at one time: bounds memory, keeps the matrix library in one thread, changes no result."""


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
    counts; the others are free. All values lie in 0-1. Cost grows as V * causes * 2^width(strength).
    Raises ValueError when shapes disagree.
    """
    variants, causes = prior.shape
    if keep.shape != prior.shape or strength.shape[0] != causes or required.shape != (variants, strength.shape[1]):
        raise ValueError("prior, keep, strength and required do not fit together")
    weight = (prior * keep).T
    total = weight + (1.0 - prior.T)
    chance = weight / total
    order = _order(strength)
    acts = _acts(strength, order)
    step = 1 << max(0, _WORK_BITS - order.places - _BLOCK)
    parts = [
        _Sweep(chance[:, v : v + step], strength, leak, required.T[:, v : v + step], order, acts).run()
        for v in range(0, variants, step)
    ]
    scale = total.prod(axis=0)
    evidence = np.concatenate([evidence for evidence, _ in parts]) * scale
    return Solved(evidence, (np.concatenate([joint for _, joint in parts], axis=1) * scale).T)


def width(strength: Array) -> int:
    """Return how many findings are open at one time at most when a network of strengths (n, m) is solved."""
    return _order(strength).places


def _order(strength: Array) -> Order:
    return order_of((strength > 0.0).tobytes(), strength.shape[1])


Act = list[tuple[Array, int]]
"""What a present cause does to the table: matrices, each with the first of the places it acts on."""


def _acts(strength: Array, order: Order) -> list[Act]:
    """Return the act of each cause with several links, a matrix for each block of places where it has any."""
    padded = np.hstack([strength, np.zeros((len(strength), 1))])
    links = padded[order.causes[:, None], order.placed]
    acts: list[Act] = [[] for _ in order.causes]
    for first, size in _blocks(order.places):
        own = links[:, first : first + size]
        matrices = _matrices(own)
        for cause in np.flatnonzero(own.any(axis=1)).tolist():
            acts[cause].append((matrices[cause], first))
    return acts


def _blocks(places: int) -> list[tuple[int, int]]:
    """Return the places in about equal shares, the first of each and how many; smaller ones of a large table."""
    count = -(-places // max(1, min(_BLOCK, _WORK_BITS - places))) or 1
    edges = [number * places // count for number in range(count + 1)]
    return [(low, high - low) for low, high in pairwise(edges)]


def _matrices(links: Array) -> Array:
    """Return for strengths (c, k) the chance that a set of explained findings becomes another, (c, 2^k, 2^k)."""
    one = np.zeros((*links.shape, 2, 2))
    one[:, :, 0, 0], one[:, :, 1, 0], one[:, :, 1, 1] = 1.0 - links, links, 1.0
    table = np.ones((len(links), 1, 1))
    for place in range(links.shape[1]):
        wider = one[:, place, :, None, :, None] * table[:, None, :, None, :]
        table = wider.reshape(len(links), 2 * table.shape[1], 2 * table.shape[1])
    return table


class _Sweep:
    """Forward over the turns and back again; chances (n, V) are those left by the negative findings.

    The table (2^places, V) has a row for every set of open findings that is explained, and leaves out the chance that
    the causes with several links are all absent: a cause acts by its odds.
    """

    def __init__(
        self, chance: Array, strength: Array, leak: Array, required: Flags, order: Order, acts: list[Act]
    ) -> None:
        self._order, self._acts, self._chance, self._required = order, acts, chance, required
        absent = np.maximum(1.0 - chance[order.causes], _CERTAIN)
        self._odds, self._none_at_work = chance[order.causes] / absent, absent.prod(axis=0)
        cause, finding = order.singles
        self._misses = 1.0 - strength[cause, finding][:, None]
        self._silent = 1.0 - chance[cause] * (1.0 - self._misses)
        self._none = np.repeat(1.0 - leak[:, None], chance.shape[1], axis=1)
        if len(finding):
            starts = np.flatnonzero(np.diff(finding, prepend=-1))
            self._none[finding[starts]] *= np.multiply.reduceat(self._silent, starts, axis=0)
        self._leak = np.where(required, 1.0 - self._none, 1.0)  # a finding that is free may as well be there
        self._joint = np.empty_like(self._odds)
        self._left, self._met = np.empty_like(self._none), np.empty_like(self._none)

    def run(self) -> tuple[Array, Array]:
        """Return evidence (V,) and joints (n, V) of these variants."""
        sets = np.ones((1, self._chance.shape[1]))
        before = []
        for turn in self._order.turns:
            for finding, place in turn.closed:
                before.append(sets)
                sets = self._close(finding, place, sets)
            sets = _resized(sets, 1 << turn.places)
            for cause in turn.acts:
                before.append(sets)
                sets = self._act(cause, sets)
        evidence, sets = self._close_all(sets)
        heights = [0, *(turn.places for turn in self._order.turns)]
        for number, turn in reversed(list(enumerate(self._order.turns))):
            for cause in reversed(turn.acts):
                sets = self._back_act(cause, sets, before.pop())
            sets = _resized(sets, 1 << heights[number])
            for finding, place in reversed(turn.closed):
                sets = self._back_close(finding, place, sets, before.pop())
        return evidence * self._none_at_work, self._all_joint(evidence) * self._none_at_work

    def _act(self, cause: int, sets: Array) -> Array:
        present = sets
        for matrix, first in self._acts[cause]:
            present = _product(matrix, first, present)
        present *= self._odds[cause]
        present += sets
        return present

    def _back_act(self, cause: int, sets: Array, before: Array) -> Array:
        present = sets
        for matrix, first in self._acts[cause]:
            present = _product(matrix.T, first, present)
        present *= self._odds[cause]
        self._joint[cause] = np.einsum("sv,sv->v", before, present)
        present += sets
        return present

    def _close(self, finding: int, place: int, sets: Array) -> Array:
        halves, closed = _halves(sets, place), np.zeros(sets.shape)
        kept = _halves(closed, place)[:, 0]
        np.multiply(halves[:, 0], self._leak[finding], out=kept)
        kept += halves[:, 1]
        return closed

    def _back_close(self, finding: int, place: int, sets: Array, before: Array) -> Array:
        kept, opened = _halves(sets, place)[:, 0], np.empty_like(sets)
        halves = _halves(opened, place)
        halves[:, 1] = kept
        np.multiply(kept, self._leak[finding], out=halves[:, 0])
        self._left[finding], self._met[finding] = np.einsum("hbsv,hbsv->bv", _halves(before, place), halves)
        return opened

    def _close_all(self, sets: Array) -> tuple[Array, Array]:
        """Return the evidence, and for each set of explained findings the chance that leaks make the others."""
        rest = np.ones_like(sets)
        places, findings = self._order.last
        for place, finding in zip(places.tolist(), findings.tolist(), strict=True):
            _halves(rest, place)[:, 0] *= self._leak[finding]
        reached = sets * rest
        self._left[findings], self._met[findings] = _by_place(len(sets).bit_length() - 1)[:, places] @ reached
        return reached.sum(axis=0), rest

    def _all_joint(self, evidence: Array) -> Array:
        """Return the joints of all causes: of those with several links, with one, with none."""
        joint = self._chance * evidence
        joint[self._order.causes] = self._joint
        cause, finding = self._order.singles
        others = self._none[finding] / np.maximum(self._silent, _TINY)
        share = np.where(self._required[finding], 1.0 - self._misses * others, 1.0) / np.maximum(
            self._leak[finding], _TINY
        )
        joint[cause] = self._chance[cause] * (self._met[finding] + share * self._left[finding])
        return joint


def _product(matrix: Array, first: int, sets: Array) -> Array:
    """Return the table after a matrix on the places from `first` on, as far as the table reaches."""
    rows, variants = sets.shape
    own = min(len(matrix), rows >> first)
    if own < len(matrix):
        matrix = matrix[:own, :own]
    if own == rows:
        return matrix @ sets
    return (matrix @ sets.reshape(rows // (own << first), own, variants << first)).reshape(rows, variants)


def _resized(sets: Array, rows: int) -> Array:
    """Return the table with room for more sets, or without those that no open finding needs."""
    if rows <= len(sets):
        return sets[:rows]
    return np.concatenate([sets, np.zeros((rows - len(sets), sets.shape[1]))])


@lru_cache(maxsize=WIDEST)
def _by_place(places: int) -> Array:
    """Return which sets hold the finding at each place not, and which do, (2, places, 2^places)."""
    held = np.arange(1 << places) >> np.arange(places)[:, None] & 1
    return np.stack([1.0 - held, held])


def _halves(sets: Array, place: int) -> Array:
    """Return the table with an axis of its own for the finding at a place: not explained, explained."""
    return sets.reshape(-1, 2, 1 << place, sets.shape[1])
