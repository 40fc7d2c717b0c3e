"""Exact posterior of a two-layer noisy-OR network, by an all-positive sum over sets of explained findings.

A cause that is present makes each finding appear with its own strength, independently; a leak makes it appear
with no cause at all. The alternating sum over subsets of findings (Heckerman 1989) cancels for many badly
explained findings; here every term is positive, so the result is accurate to rounding for any evidence.

Findings are taken one by one: the causes that may explain it are let act, then it is closed, and only findings
that are open at one time span the table of sets. A cause with one link is an extra leak of its finding.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

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


@dataclass(frozen=True)
class _Linked:
    """A cause that may explain two findings and more."""

    cause: int
    links: tuple[tuple[int, float], ...]
    """Finding and strength."""
    findings: int
    """The same findings as bits."""


@dataclass(frozen=True)
class _Step:
    """One finding, and the causes that act before it is closed."""

    finding: int
    acting: tuple[_Linked, ...]


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
    plan = tuple(_plan(strength))
    step = max(1, _WORKING_SIZE >> _widest(plan))
    parts = [
        _Sweep(weight[v : v + step] / total[v : v + step], strength, leak, required[v : v + step]).run(plan)
        for v in range(0, variants, step)
    ]
    scale = total.prod(axis=1)
    evidence = np.concatenate([part.evidence for part in parts]) * scale
    return Solved(evidence, np.concatenate([part.joint for part in parts]) * scale[:, None])


def width(strength: Array) -> int:
    """Return how many findings are open at one time at most when a network of strengths (n, m) is solved."""
    return _widest(tuple(_plan(strength)))


def _linked(strength: Array) -> list[_Linked]:
    found = []
    for cause in np.flatnonzero((strength > 0.0).sum(axis=1) > 1).tolist():
        links = tuple((f, s) for f, s in enumerate(strength[cause].tolist()) if s > 0.0)
        found.append(_Linked(cause, links, sum(1 << f for f, _ in links)))
    return found


def _plan(strength: Array) -> Iterator[_Step]:
    """Yield the findings in an order that keeps few open at one time: the next one opens the fewest others."""
    waiting = _linked(strength)
    to_close = set(range(strength.shape[1]))
    opened = 0
    while to_close:
        together = {finding: _union(waiting, finding) | opened for finding in to_close}
        finding = min(to_close, key=lambda f: (together[f].bit_count(), f))
        yield _Step(finding, tuple(one for one in waiting if one.findings >> finding & 1))
        waiting = [one for one in waiting if not one.findings >> finding & 1]
        opened = together[finding] & ~(1 << finding)
        to_close.remove(finding)


def _union(waiting: list[_Linked], finding: int) -> int:
    together = 1 << finding
    for one in waiting:
        if one.findings >> finding & 1:
            together |= one.findings
    return together


def _widest(plan: tuple[_Step, ...]) -> int:
    opened, most = 0, 0
    for step in plan:
        opened |= 1 << step.finding
        for one in step.acting:
            opened |= one.findings
        most = max(most, opened.bit_count())
        opened &= ~(1 << step.finding)
    return most


@dataclass
class _Mark:
    """What the way back needs of one act of the way there."""

    act: str
    """open, cause or close."""
    which: int
    """The finding or the cause."""
    places: tuple[tuple[int, float], ...]
    """Where the findings concerned stand among the open ones, and the strength of each."""
    before: Array


class _Sweep:
    """Forward over the plan and back again; chances (V, n) are those left by the negative findings."""

    def __init__(self, chance: Array, strength: Array, leak: Array, required: Flags) -> None:
        self._chance, self._strength, self._required = chance, strength, required
        single = (strength > 0.0).sum(axis=1) == 1
        self._singles = [np.flatnonzero(single & (strength[:, f] > 0.0)) for f in range(strength.shape[1])]
        self._unexplained = [
            (1.0 - leak[f]) * (1.0 - chance[:, own] * strength[own, f]).prod(axis=1)
            for f, own in enumerate(self._singles)
        ]
        self._open: list[int] = []
        self._tape: list[_Mark] = []

    def run(self, plan: tuple[_Step, ...]) -> Solved:
        """Return evidence and joints of these variants."""
        sets = np.ones((len(self._chance), 1))
        for step in plan:
            sets = self._introduce(sets, step.finding)
            for one in step.acting:
                sets = self._act(sets, one)
            sets = self._close(sets, step.finding)
        evidence = sets[:, 0]
        joint = self._chance * evidence[:, None]  # of the causes with no link; the others follow
        sets = np.ones_like(sets)
        for mark in reversed(self._tape):
            sets = getattr(self, f"_back_{mark.act}")(sets, mark, joint)
        return Solved(evidence, joint)

    def _introduce(self, sets: Array, finding: int) -> Array:
        if finding in self._open:
            return sets
        self._tape.append(_Mark("open", finding, (), sets))
        self._open.append(finding)
        none = self._unexplained[finding][:, None]
        return np.concatenate([sets * none, sets * (1.0 - none)], axis=1)

    def _act(self, sets: Array, one: _Linked) -> Array:
        for finding, _ in one.links:
            sets = self._introduce(sets, finding)
        places = tuple((self._open.index(finding), strength) for finding, strength in one.links)
        self._tape.append(_Mark("cause", one.cause, places, sets))
        chance = self._chance[:, one.cause, None]
        present = sets * chance
        absent = sets - present
        for place, strength in places:
            halves = present.reshape(-1, 2, 1 << place)
            without, within = halves[:, 0], halves[:, 1]
            moved = without * strength
            within += moved
            without -= moved
        present += absent
        return present

    def _close(self, sets: Array, finding: int) -> Array:
        place = self._open.index(finding)
        self._tape.append(_Mark("close", finding, ((place, 1.0),), sets))
        self._open.pop(place)
        halves = sets.reshape(len(sets), -1, 2, 1 << place)
        free = np.where(self._required[:, finding], 0.0, 1.0)[:, None, None]
        kept: Array = (halves[:, :, 1] + halves[:, :, 0] * free).reshape(len(sets), -1)
        return kept

    def _back_close(self, sets: Array, mark: _Mark, _joint: Array) -> Array:
        parts = sets.reshape(len(sets), -1, 1, 1 << mark.places[0][0])
        free = np.where(self._required[:, mark.which], 0.0, 1.0)[:, None, None, None]
        return np.concatenate([parts * free, parts], axis=2).reshape(len(sets), -1)

    def _back_cause(self, sets: Array, mark: _Mark, joint: Array) -> Array:
        chance = self._chance[:, mark.which, None]
        present = sets.copy()
        for place, strength in mark.places:
            halves = present.reshape(-1, 2, 1 << place)
            without, within = halves[:, 0], halves[:, 1]
            without *= 1.0 - strength
            without += strength * within
        present *= chance
        joint[:, mark.which] = np.vecdot(mark.before, present)
        present += sets * (1.0 - chance)
        return present

    def _back_open(self, sets: Array, mark: _Mark, joint: Array) -> Array:
        """Close the way back over one finding, and settle the causes that explain nothing but it."""
        halves = sets.reshape(len(sets), 2, -1)
        without, within = ((mark.before * halves[:, half]).sum(axis=1)[:, None] for half in (0, 1))
        own, none = self._singles[mark.which], self._unexplained[mark.which][:, None]
        strength, chance = self._strength[own, mark.which], self._chance[:, own]
        others = none / (1.0 - chance * strength)
        joint[:, own] = chance * (strength * within + (1.0 - strength) * (others * without + (1.0 - others) * within))
        left: Array = halves[:, 0] * none + halves[:, 1] * (1.0 - none)
        return left
