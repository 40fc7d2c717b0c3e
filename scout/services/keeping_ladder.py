"""The marked plants as a ladder of leaves from the soil up, a column a visit; told apart by signs, never by colour."""

from collections.abc import Sequence
from datetime import date
from math import ceil

from scout.plain import short_day
from scout.services.marked import MeasuredRow

LEGEND = "o clean  x spotted or below  - stripped  ? not counted"
_COLUMN = 7


def ladder(rows: Sequence[MeasuredRow], width: int, most_rows: int = 12) -> list[str]:
    """Return the ladder as lines: mean heights of the plants at each visit, the last visits that fit the width.

    A row stands for one leaf, or for several on tall plants; the number beside it is its highest leaf.
    """
    days = sorted({row.on for row in rows})
    visits = [_heights([row for row in rows if row.on <= day], day) for day in days]
    visits = [visit for visit in visits if visit[1] is not None][-max(1, (width - 5) // _COLUMN) :]
    tallest = max((round(top) for _, top, _, _ in visits if top is not None), default=0)
    if tallest == 0:
        return []
    step = ceil(tallest / most_rows)
    lines = [
        f"{high:>3} |" + "".join(_cell(high, step, visit) for visit in visits)
        for high in range(ceil(tallest / step) * step, 0, -step)
    ]
    foot = "soil " + "".join(short_day(date.fromisoformat(visit[0])).center(_COLUMN) for visit in visits)
    return [*(line.rstrip() for line in lines), foot.rstrip()]


Heights = tuple[str, float | None, float | None, float]
"""Day, top leaf, highest spotted leaf, strip line before that day's cutting or after it, whichever is known."""


def _heights(rows: Sequence[MeasuredRow], day: str) -> Heights:
    """Return the mean heights at a day; the strip line is what was stripped by its evening."""
    today = [row for row in rows if row.on == day]
    tops = [row.top_leaf for row in today if row.top_leaf is not None]
    spots = [row.highest_diseased for row in today if row.highest_diseased is not None]
    lines: dict[str, int] = {}
    for row in rows:
        lines[row.label] = max(lines.get(row.label, 0), row.stripped_to or 0)
    strip = [lines[row.label] for row in today]
    return day, _mean(tops), _mean(spots), _mean(strip) or 0.0


def _mean(values: Sequence[int]) -> float | None:
    return sum(values) / len(values) if values else None


def _cell(high: int, step: int, visit: Heights) -> str:
    """Return the sign of one row at one visit, by the middle of the leaves that the row stands for."""
    _, top, front, strip = visit
    leaf = high - (step - 1) / 2
    sign = "?" if front is None else "x" if leaf <= front + 0.5 else "o"
    if leaf <= strip + 0.25:
        sign = "-"
    return ("" if top is None or leaf > top + 0.5 else sign).center(_COLUMN)
