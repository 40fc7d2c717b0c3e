"""What can hardly be in the counts a verdict rests on: said beside the verdict, never a reason to refuse the file."""

from collections.abc import Iterable, Sequence
from datetime import date

from scout.plain import day_text
from scout.services.marked import MeasuredRow

MISCOUNT_N = 2
"""A height may come out so much lower by a slip of counting; more is asked about. Our choice."""
_SHOWN_N = 3
_NEVER_DOWN = {"top_leaf": "top leaf", "stripped_to": "strip line"}


def doubts_in(rows: Sequence[MeasuredRow]) -> tuple[str, ...]:
    """Return a sentence for every count that can hardly be, in order of day and plant."""
    highest: dict[tuple[str, str], int] = {}
    found: list[str] = []
    for row in sorted(rows, key=lambda one: (one.on, one.label)):
        day = date.fromisoformat(row.on)
        head = f"{row.label}, {day_text(day)}: "
        found += [head + said for said in (*_above_the_top(row), *_fallen(row, highest))]
    return tuple(found)


def doubt_lines(rows: Sequence[MeasuredRow]) -> list[str]:
    """Return the first doubts as lines under a verdict, and how many more there are."""
    found = doubts_in(rows)
    more = len(found) - _SHOWN_N
    lines = [f"Is this right? {said}" for said in found[:_SHOWN_N]]
    return [*lines, f"{more} more counts can hardly be; --json lists them."] if more > 0 else lines


def _above_the_top(row: MeasuredRow) -> Iterable[str]:
    top = row.top_leaf
    if top is None:
        return
    for name, words in (("highest_diseased", "highest spotted leaf"), ("stripped_to", "stripped up to")):
        leaf = getattr(row, name)
        if leaf is not None and leaf > top:
            yield f"{words} {leaf} is above the top leaf {top}; taken as {top}."
    if row.newly_diseased is not None and row.newly_diseased > max(top, row.highest_diseased or 0):
        yield f"{row.newly_diseased} newly spotted leaves are more than the plant has (top leaf {top})."


def _fallen(row: MeasuredRow, highest: dict[tuple[str, str], int]) -> Iterable[str]:
    """Compare heights counted from the soil with the highest before; spots fall where their leaf was taken off."""
    for name, words in _NEVER_DOWN.items():
        now, before = getattr(row, name), highest.get((row.label, name))
        if now is None:
            continue
        if before is not None and now < before - MISCOUNT_N:
            yield f"the {words} was {before} before and is {now} now."
        highest[row.label, name] = max(now, before or 0)
