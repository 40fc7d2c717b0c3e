"""In which order the exact sum takes findings and causes: it depends on who is linked to what, on no number."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

Rows = npt.NDArray[np.intp]
_LOW = 5
"""So many places are always there; the table grows beyond them as findings are opened, and shrinks again."""


@dataclass(frozen=True)
class Turn:
    """Findings that nothing else can explain are closed to make room, then causes act."""

    closed: tuple[tuple[int, int], ...]
    """Findings and their places."""
    places: int
    """How many places the table has while the causes act."""
    acts: range
    """Which of `Order.causes` act."""


@dataclass(frozen=True)
class Order:
    """Every turn, first to last."""

    turns: tuple[Turn, ...]
    places: int
    """Findings open at one time, at most."""
    last: tuple[Rows, Rows]
    """The places that are held after all turns, and their findings."""
    causes: Rows
    """The causes with several links, as they act."""
    placed: Rows
    """The finding that each of them finds at each place, (causes, places); -1 where it has no link."""
    singles: tuple[Rows, Rows]
    """Causes with one link and their findings, in the order of the findings: they act as leaks."""


@lru_cache(maxsize=256)
def order_of(linked: bytes, findings_n: int) -> Order:
    """Return the order for a table of causes by findings; `linked` holds a byte for each pair, 1 where linked."""
    table = np.frombuffer(linked, dtype=bool).reshape(-1, findings_n or 1)
    links_n = table.sum(axis=1)
    several = {c: np.flatnonzero(table[c]).tolist() for c in np.flatnonzero(links_n > 1).tolist()}
    turns: list[Turn] = []
    causes: list[int] = []
    room = _Room()
    placed: list[dict[int, int]] = []
    for finding, acting in _closings(dict(several), findings_n):
        closed = room.open({finding, *(f for cause in acting for f in several[cause])})
        turns.append(Turn(closed, len(room.at), range(len(causes), len(causes) + len(acting))))
        causes += acting
        placed += [{room.at.index(f): f for f in several[cause]} for cause in acting]
        room.explained.add(finding)
    places = max((turn.places for turn in turns), default=0)
    rows = [[own.get(place, -1) for place in range(places)] for own in placed]
    at, alone = np.array(room.at, np.intp), np.flatnonzero(links_n == 1)
    found = table[alone].argmax(axis=1)
    sort = found.argsort(kind="stable")
    return Order(
        tuple(turns),
        places,
        (np.flatnonzero(at >= 0), at[at >= 0]),
        np.array(causes, np.intp),
        np.array(rows, np.intp).reshape(len(causes), places),
        (alone[sort], found[sort]),
    )


class _Room:
    """The places of open findings; one whose finding nothing else can explain is given to another that needs it."""

    def __init__(self) -> None:
        self.at: list[int] = []
        """The finding at each place; -1: it was closed."""
        self.explained: set[int] = set()
        """Open findings that no waiting cause explains."""

    def open(self, findings: set[int]) -> tuple[tuple[int, int], ...]:
        """Find a place for each finding, and return those that were closed, with their places."""
        closed = [(f, place) for place, f in enumerate(self.at) if place >= _LOW and f in self.explained]
        for _, place in closed:
            self.at[place] = -1
        for finding in sorted(findings - set(self.at)):
            place = next((p for p, f in enumerate(self.at) if f == -1 or f in self.explained), len(self.at))
            if len(self.at) in (place, *range(_LOW)):
                self.at.append(finding)
                continue
            if self.at[place] >= 0:
                closed.append((self.at[place], place))
            self.at[place] = finding
        while self.at[-1] == -1:
            self.at.pop()
        return tuple(closed)


def _closings(waiting: dict[int, list[int]], findings_n: int) -> Iterator[tuple[int, list[int]]]:
    """Yield each finding with the causes that act before it is closed: the next one opens the fewest others."""
    bits = {cause: sum(1 << f for f in of) for cause, of in waiting.items()}
    to_close = set(range(findings_n))
    opened = 0
    while to_close:
        together = {f: opened | 1 << f for f in to_close}
        for cause, of in waiting.items():
            for f in of:
                if f in together:
                    together[f] |= bits[cause]
        finding = min(to_close, key=lambda f: (together[f].bit_count(), f))
        acting = [cause for cause, of in waiting.items() if finding in of]
        yield finding, acting
        for cause in acting:
            del waiting[cause]
        opened = together[finding] & ~(1 << finding)
        to_close.remove(finding)
