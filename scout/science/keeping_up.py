"""Is leaf stripping keeping up with the spots? The climb of the spots against the growth of the marked plants."""

from collections.abc import Sequence
from dataclasses import dataclass

from scout.science.node_drift import FRONT, GROWTH, Drift, common_drift
from scout.science.stacked_counts import PlantCounts

ENOUGH_CLEAN_N = 6
"""Clean leaves above the highest diseased one that a plant needs (common practice, no source)."""
AT_THE_TIP_N = 4.0
"""Mean clean leaves at which plants count as diseased to the tip: about 3 leaves open within a week, the time a spot
takes to show, and one for the count. Our choice."""
CLEAR_GAIN_AT_MOST = 0.3
"""Chance of losing under which plants gain clearly. Our choice."""
LOOK_BACK_D = 42.0
"""Older visits do not speak about today's race. Our choice."""
_DROP_N = 2
"""A highest diseased leaf further down than this was not miscounted: the leaf above it is gone."""


@dataclass(frozen=True, slots=True)
class Visit:
    """One marked plant on one day; None was not measured. As found before the day's cutting, but `stripped_to`."""

    day: float
    top_leaf: int | None
    highest_diseased: int | None
    """Counts leaves taken off that day; 0: looked, none diseased."""
    stripped_to: int | None = None
    newly_diseased: int | None = None
    leaves_standing: int | None = None


Plant = Sequence[Visit]


@dataclass(frozen=True, slots=True)
class Race:
    """The two speeds and how they stand to each other at the last visit."""

    front: Drift
    growth: Drift
    difference: Drift
    """Front minus growth."""
    clean_depth: float | None
    """Mean over the plants at the last visit that counted it."""
    clean_before: float | None
    """The same at the visit before that."""
    visits_n: int
    """Days within the time looked back on which both counts were made on some plant."""
    span_d: float
    spotted: bool
    """Whether any plant has had a diseased leaf."""

    @property
    def probability_losing(self) -> float:
        """Return the chance that the spots climb faster than the plants grow."""
        return self.difference.above(0.0)

    @property
    def at_the_tip(self) -> bool:
        """Return whether two visits running found almost no clean leaf, and no clear gain."""
        both = (self.clean_depth, self.clean_before)
        no_gain = self.probability_losing > CLEAR_GAIN_AT_MOST
        return all(d is not None and d <= AT_THE_TIP_N for d in both) and no_gain


def fronts(plant: Plant) -> list[tuple[float, int]]:
    """Return day and height reached by the spots on one plant; stripping never brings it down.

    Looks before the first spot are left out: the first spotted leaf is an arrival, no climb. Where the highest
    diseased leaf now lies within the stripped part, or well below the height reached before, the leaf above it
    was taken off or fell, and the spots stand where they stood.
    """
    reached: list[tuple[float, int]] = []
    stripped = 0
    for visit in plant:
        seen = visit.highest_diseased
        if seen is not None and (seen > 0 or reached):
            before = reached[-1][1] if reached else 0
            gone = bool(reached) and seen < before and (seen <= stripped or seen < before - _DROP_N)
            reached.append((visit.day, before if gone else seen))
        stripped = max(stripped, visit.stripped_to or 0)
    return reached


def new_leaf_sums(plant: Plant) -> list[tuple[float, int]]:
    """Return day and newly diseased leaves added up on one plant, from 0 at the visit where the last run begins.

    A count speaks of the days since the visit before, so that of the very first visit says nothing here; a visit
    without a count begins a new run. Before the first spot there is no climb, as in `fronts`.
    """
    sums: list[tuple[float, int]] = []
    began = next((n for n, visit in enumerate(plant) if visit.highest_diseased), len(plant))
    for visit in plant[began:]:
        if not sums or visit.newly_diseased is None:
            sums = [(visit.day, 0)]
        else:
            sums.append((visit.day, sums[-1][1] + visit.newly_diseased))
    return sums if len(sums) > 1 else []


def race(plants: Sequence[Plant]) -> Race:
    """Return the speeds of spots and growth over the last six weeks, and the clean leaves between them.

    Visits of each plant stand in order of day. Source: `node_drift`; the rules about stripped leaves are our own.
    """
    last = max((visit.day for plant in plants for visit in plant), default=0.0)
    climbs = [_recent(fronts(plant), last) for plant in plants]
    tops = [_recent([(v.day, v.top_leaf) for v in plant if v.top_leaf is not None], last) for plant in plants]
    sums = [_recent(new_leaf_sums(plant), last) for plant in plants]
    front, growth = common_drift(climbs, FRONT, sums), common_drift(tops, GROWTH)
    depths = _clean_depths(plants)
    days = [day for day, _ in depths if day >= last - LOOK_BACK_D]
    return Race(
        front,
        growth,
        front.minus(growth),
        depths[-1][1] if depths else None,
        depths[-2][1] if len(depths) > 1 else None,
        len(days),
        days[-1] - days[0] if days else 0.0,
        any(days for days, _ in climbs),
    )


def _recent(points: Sequence[tuple[float, int]], last: float) -> PlantCounts:
    kept = [(day, count) for day, count in points if day >= last - LOOK_BACK_D]
    return [day for day, _ in kept], [float(count) for _, count in kept]


def _clean_depths(plants: Sequence[Plant]) -> list[tuple[float, float]]:
    """Return the mean clean leaves by day: those above the spots and above the strip line, where none stands."""
    by_day: dict[float, list[float]] = {}
    for plant in plants:
        reached, stripped = dict(fronts(plant)), 0
        for visit in plant:
            stripped = max(stripped, visit.stripped_to or 0)
            if visit.top_leaf is not None and visit.highest_diseased is not None:
                depth = visit.top_leaf - max(stripped, reached.get(visit.day, 0))
                by_day.setdefault(visit.day, []).append(max(0.0, float(depth)))
    return [(day, sum(found) / len(found)) for day, found in sorted(by_day.items())]
