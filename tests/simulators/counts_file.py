"""Simulated seasons as the CSV that `bedwalk keeping-up --csv` reads: the door both simulators use."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Protocol

HEAD = "plant,date,top_leaf,highest_diseased,stripped_to,newly_diseased,leaves_standing,wet_h,planting"
MARKED_ON = date(2026, 7, 1)


class Counted(Protocol):
    """One plant on one day, whatever simulator made it."""

    @property
    def plant(self) -> str: ...
    @property
    def day(self) -> int: ...
    @property
    def top_leaf(self) -> int: ...
    @property
    def highest_diseased(self) -> int: ...
    @property
    def stripped_to(self) -> int: ...
    @property
    def newly_diseased(self) -> int: ...
    @property
    def leaves_standing(self) -> int: ...
    @property
    def wet_h(self) -> int: ...


@dataclass(frozen=True)
class Named:
    """A season under the name it has in the file."""

    name: str
    rows: tuple[Counted, ...]


def csv_of(seasons: Iterable[Named]) -> str:
    """Return the file: one planting a season."""
    lines = [HEAD]
    for season in seasons:
        for row in season.rows:
            on = (MARKED_ON + timedelta(days=row.day)).isoformat()
            cells = (row.top_leaf, row.highest_diseased, row.stripped_to, row.newly_diseased, row.leaves_standing)
            lines.append(",".join([row.plant, on, *map(str, cells), str(row.wet_h), season.name]))
    return "\n".join(lines) + "\n"
