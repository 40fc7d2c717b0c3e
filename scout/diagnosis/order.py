"""In which order the exact sum takes findings and causes: it depends on who is linked to what, on no number."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal


@dataclass(frozen=True)
class Step:
    """One step of the sum: a finding is opened, a cause acts, or a finding is closed."""

    act: Literal["open", "cause", "close"]
    which: int
    """The finding or the cause."""
    links: tuple[tuple[int, int], ...] = ()
    """Of a cause: its findings, and where each stands among the open ones. Of a closed finding: itself."""


@dataclass(frozen=True)
class Order:
    """Every step, first to last."""

    steps: tuple[Step, ...]
    widest: int
    """Findings open at one time, at most."""
    singles: tuple[tuple[int, ...], ...]
    """For each finding the causes that explain nothing else: they act as leaks of it."""


@lru_cache(maxsize=64)
def order_of(linked: bytes, findings_n: int) -> Order:
    """Return the order for a table of causes by findings; `linked` holds a byte for each pair, 1 where linked."""
    links = _links(linked, findings_n)
    singles = tuple(tuple(c for c, of in enumerate(links) if of == (f,)) for f in range(findings_n))
    opened: list[int] = []
    steps: list[Step] = []
    widest = 0
    for finding, acting in _closings({c: of for c, of in enumerate(links) if len(of) > 1}, findings_n):
        for new in dict.fromkeys((finding, *(f for cause in acting for f in links[cause]))):
            if new not in opened:
                opened.append(new)
                steps.append(Step("open", new))
        widest = max(widest, len(opened))
        steps += [Step("cause", cause, tuple((f, opened.index(f)) for f in links[cause])) for cause in acting]
        steps.append(Step("close", finding, ((finding, opened.index(finding)),)))
        opened.remove(finding)
    return Order(tuple(steps), widest, singles)


def _links(linked: bytes, findings_n: int) -> list[tuple[int, ...]]:
    rows = (linked[start : start + findings_n] for start in range(0, len(linked), findings_n or 1))
    return [tuple(f for f, there in enumerate(row) if there) for row in rows]


def _closings(waiting: dict[int, tuple[int, ...]], findings_n: int) -> Iterator[tuple[int, list[int]]]:
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
