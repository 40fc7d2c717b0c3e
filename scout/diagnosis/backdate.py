"""Which days made the fruit in the hand, and when fruit of later flowers can be seen."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from scout.diagnosis.conditions import limit_of, records_until, value_of, window_of
from scout.diagnosis.evidence import Day
from scout.diagnosis.fruit import flowering_of, pace_of, picking_of
from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause
from scout.knowledge.crop_file import Crop
from scout.knowledge.growth import SizeId
from scout.knowledge.vocabulary import Condition
from scout.science.windows import Window

Mark = Literal["culprit", "clear", "missing"]
MADE_EARLIER = ("buds", "flowering", "young", "filling")
"""Windows that lie in the past of the fruit in the hand."""


@dataclass(frozen=True)
class Strip:
    """The days that a condition looks at, marked one by one."""

    condition: Condition
    days: tuple[date, ...]
    marks: tuple[Mark, ...]

    @property
    def culprits(self) -> tuple[date, ...]:
        """Return the days that speak for the condition."""
        return tuple(day for day, mark in zip(self.days, self.marks, strict=True) if mark == "culprit")


def strips(
    knowledge: Knowledge, crop: Crop, cause: Cause, on: date, days: Sequence[Day], size: SizeId | None = None
) -> tuple[Strip, ...]:
    """Return a strip for each weather clue of a cause that lies in the past of the fruit; forecasts tell nothing."""
    if not asks_the_past(knowledge, crop, cause):
        return ()
    records = records_until(on, days)
    flowering = flowering_of(crop, on, pace_of(crop, on, records), size)
    found = []
    for clue in cause.clues:
        if clue.condition is None or (clue.crops and crop.id not in clue.crops):
            continue
        condition = knowledge.conditions[clue.condition]
        window = window_of(condition, crop, on, flowering) if condition.window in MADE_EARLIER else None
        limit = limit_of(condition, crop)
        if window is not None and limit is not None:
            values = [value_of(records.get(day), condition.feature) for day in window.days()]
            marks = tuple(_mark(condition, value, limit) for value in values)
            found.append(Strip(condition, tuple(window.days()), marks))
    return tuple(found)


def asks_the_past(knowledge: Knowledge, crop: Crop, cause: Cause) -> bool:
    """Return whether a cause has a weather clue that lies in the past of the fruit."""
    return any(
        clue.condition is not None
        and (not clue.crops or crop.id in clue.crops)
        and knowledge.conditions[clue.condition].window in MADE_EARLIER
        for clue in cause.clues
    )


def _mark(condition: Condition, value: float | None, limit: float) -> Mark:
    if value is None:
        return "missing"
    if condition.test in ("days_at_most", "sum_at_most"):
        return "culprit" if value <= limit else "clear"
    if condition.test == "swing":
        return "culprit" if value <= 1.0 - limit else "clear"
    return "culprit" if value >= limit else "clear"


def fruit_of_later_flowers(crop: Crop, last_culprit: date, on: date, days: Sequence[Day] = ()) -> Window | None:
    """Return from when on, at the earliest and at the latest, fruit of flowers after that day is of picking size."""
    return picking_of(crop, last_culprit + timedelta(days=1), pace_of(crop, on, records_until(on, days)))
