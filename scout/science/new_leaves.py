"""Newly diseased leaves before and after stripping, and beside plants left unstripped, once old infections showed."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from scout.science.counts import PoissonComparison, compare_poisson_counts
from scout.science.keeping_up import Plant
from scout.science.limits import require_within


@dataclass(frozen=True, slots=True)
class BeforeAfter:
    """Newly diseased leaves and the plant-days in which they came."""

    before_n: int
    before_d: float
    after_n: int
    after_d: float
    compared: PoissonComparison | None
    """None while one side has no plant-days, or both have no new leaf."""
    counts_from_d: float | None
    """Day from which the count after stripping begins; None: nothing was stripped."""


def new_leaves_compared(plants: Sequence[Plant], incubation_d: float) -> BeforeAfter:
    """Return new leaves a plant-day before the first stripping and after it, without the days between.

    A leaf infected before the knife shows its spots up to one incubation period later; stretches that begin
    earlier count for neither side. Without stripping there is no "after".
    Units: incubation_d days from infection to first spot, the longest that fits the disease.
    Valid: 0 to 60 days; visits of each plant in order of day.
    Raises: ValueError outside that.
    Source: conditional binomial, see `counts`; the waiting time is our own rule from the incubation period.
    """
    require_within("incubation_d", incubation_d, 0.0, 60.0)
    cut = first_strip_day(plants)
    clear = None if cut is None else cut + incubation_d
    before, after = [0.0, 0.0], [0.0, 0.0]
    for plant in plants:
        for earlier, later in pairwise(plant):
            if later.newly_diseased is None:
                continue
            side = before if cut is None or later.day <= cut else after if earlier.day >= (clear or 0.0) else None
            if side is not None:
                side[0] += later.newly_diseased
                side[1] += later.day - earlier.day
    compared = (
        compare_poisson_counts(int(before[0]), before[1], int(after[0]), after[1]) if before[1] * after[1] else None
    )
    return BeforeAfter(int(before[0]), before[1], int(after[0]), after[1], compared, clear)


@dataclass(frozen=True, slots=True)
class LeftUnstripped:
    """Newly diseased leaves on stripped plants and on plants left unstripped, over the same days."""

    stripped_n: int
    stripped_d: float
    left_n: int
    left_d: float
    compared: PoissonComparison | None
    """Left over stripped; None while one side has no plant-days, or both have no new leaf."""


def left_unstripped_compared(stripped: Sequence[Plant], left: Sequence[Plant], incubation_d: float) -> LeftUnstripped:
    """Return new leaves a plant-day on plants left unstripped against the stripped ones.

    Counted from one incubation period after the first stripping: until then both show the same old infections.
    Units: incubation_d days from infection to first spot, the longest that fits the disease.
    Valid: 0 to 60 days; days of both groups counted from one day on; visits of each plant in order of day.
    Raises: ValueError outside that.
    Source: conditional binomial, see `counts`. Neighbours share spores, so the difference is blurred, never a proof.
    """
    require_within("incubation_d", incubation_d, 0.0, 60.0)
    cut = first_strip_day(stripped)
    if cut is None:
        return LeftUnstripped(0, 0.0, 0, 0.0, None)
    (x1, t1), (x2, t2) = (_new_since(plants, cut + incubation_d) for plants in (stripped, left))
    return LeftUnstripped(x1, t1, x2, t2, compare_poisson_counts(x2, t2, x1, t1) if t1 and t2 else None)


def _new_since(plants: Sequence[Plant], from_d: float) -> tuple[int, float]:
    """Return new leaves and plant-days of the stretches that begin on a day or later."""
    spans = [
        (later.newly_diseased, later.day - earlier.day)
        for plant in plants
        for earlier, later in pairwise(plant)
        if later.newly_diseased is not None and earlier.day >= from_d
    ]
    return sum(new for new, _ in spans), sum(days for _, days in spans)


def first_strip_day(plants: Sequence[Plant]) -> float | None:
    """Return the first day on which a leaf was taken off a marked plant, or None."""
    return min((visit.day for plant in plants for visit in plant if visit.stripped_to), default=None)


def last_strip_day(plants: Sequence[Plant]) -> float | None:
    """Return the last day on which a strip line rose, or None."""
    days = []
    for plant in plants:
        line = 0
        for visit in plant:
            if visit.stripped_to is not None and visit.stripped_to > line:
                line = visit.stripped_to
                days.append(visit.day)
    return max(days, default=None)


def diseased_ever_n(plants: Sequence[Plant]) -> int:
    """Return all newly diseased leaves counted so far, taken off or not: a sum that stripping cannot lower."""
    return sum(visit.newly_diseased or 0 for plant in plants for visit in plant)
