"""Which stops fit into the minutes there are: the set worth most, exactly, by a table of half minutes."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scout.diagnosis.route import Visit

STEP_MIN = 0.5
"""Minutes of a stop are rounded up to it, so that no plan runs over."""
MOST_MIN = 720.0
"""A longer walk than twelve hours is not planned."""
_CENTS = 100
_MUST = 10_000_000
"""A stop that cannot wait goes before any number of others; a walk has under a thousand of them."""


@dataclass(frozen=True)
class Room:
    """The minutes there are: in all, and for the sick beds, whose leaves have to be dry."""

    all_min: float
    sick_min: float


def chosen(visits: Sequence[Visit], room: Room) -> frozenset[str]:
    """Return the keys of the stops to make: no other set within the room is worth more.

    Two passes of the 0/1 knapsack (Bellman's recursion), over the clean and over the sick beds, put together at the
    best split of the minutes; exact on half minutes. With more room the worth of the whole never falls; a stop may
    give way to others that are together worth more. Of equals the sick beds get the fewest minutes.
    """
    everything, dry = _steps_down(room.all_min), min(_steps_down(room.sick_min), _steps_down(room.all_min))
    clean = _Table([v for v in visits if not v.sick], everything)
    sick = _Table([v for v in visits if v.sick], dry)
    split = max(range(dry + 1), key=lambda used: (sick.best[used] + clean.best[everything - used], -used))
    return frozenset(clean.taken(everything - split) + sick.taken(split))


class _Table:
    """The best worth of some stops for every number of steps up to `steps`."""

    def __init__(self, visits: list[Visit], steps: int) -> None:
        self._visits = sorted(visits, key=lambda v: (v.position, v.key))
        self.best = [0] * (steps + 1)
        self._took: list[bytearray] = []
        for visit in self._visits:
            self._took.append(self._with(visit, steps))

    def _with(self, visit: Visit, steps: int) -> bytearray:
        """Let one stop in wherever that is worth more; return where it went in."""
        weight, worth = _steps_up(visit.minutes), _worth(visit)
        took = bytearray(steps + 1)
        best = self.best
        for room in range(steps, weight - 1, -1):
            with_it = best[room - weight] + worth
            if with_it > best[room]:
                best[room], took[room] = with_it, 1
        return took

    def taken(self, steps: int) -> list[str]:
        """Return the keys behind the best worth of so many steps."""
        keys = []
        for visit, took in zip(reversed(self._visits), reversed(self._took), strict=True):
            if took[steps]:
                keys.append(visit.key)
                steps -= _steps_up(visit.minutes)
        return keys


def _worth(visit: Visit) -> int:
    return max(1, round(_CENTS * visit.worth)) + (_MUST if visit.must else 0)


def _steps_up(minutes: float) -> int:
    return math.ceil(round(minutes / STEP_MIN, 6))


def _steps_down(minutes: float) -> int:
    return max(0, math.floor(round(min(minutes, MOST_MIN) / STEP_MIN, 6)))
