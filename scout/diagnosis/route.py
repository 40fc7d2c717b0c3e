"""The order of a walk: two passes in walking order, clean beds then sick beds, washed between; never a zigzag."""

from collections.abc import Iterable
from dataclasses import dataclass

from scout.diagnosis.due import Pass

SICK: frozenset[Pass] = frozenset({"spotted", "suspect"})
_TOUR: dict[Pass, int] = {"seedlings": 0, "clean": 0, "insects": 0, "spotted": 1, "suspect": 2}
"""Beds with insects alone go with the clean ones: hands carry no insect disease on. In the sick pass what spreads by
touch comes after what spreads by splash, so the last part of it may pass a bed of the first part again."""


@dataclass(frozen=True)
class Visit:
    """One stop that may be made."""

    key: str
    position: int
    """Place of its bed in walking order."""
    group: Pass
    minutes: float
    worth: float
    must: bool = False

    @property
    def sick(self) -> bool:
        """Return whether it belongs to the second pass."""
        return self.group in SICK


def walking_order(visits: Iterable[Visit]) -> tuple[Visit, ...]:
    """Return the visits clean pass first, each pass in walking order; within one bed the cleaner planting first."""
    return tuple(sorted(visits, key=lambda v: (_TOUR[v.group], v.position, v.group != "seedlings", v.key)))


def wash_before(ordered: tuple[Visit, ...]) -> int | None:
    """Return the index of the stop before which hands are washed; None where a walk is all clean or all sick."""
    first = next((index for index, visit in enumerate(ordered) if visit.sick), None)
    return first if first else None
