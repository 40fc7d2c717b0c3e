"""A small line chart in braille dots: two lines told apart by their marks in the legend and by the numbers below."""

from collections.abc import Sequence
from datetime import date
from itertools import pairwise

from scout.plain import short_day

_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
Series = Sequence[tuple[date, float]]


def chart(top: Series, front: Series, columns: int, rows: int) -> list[str]:
    """Return the lines of a chart `columns` wide and `rows` high: days to the right, leaves from the soil up.

    The upper line is drawn solid, the lower dotted. Fewer than two days give no chart.
    """
    days = sorted({day for day, _ in (*top, *front)})
    if len(days) < 2 or columns < 10 or rows < 2:
        return []
    highest = max(value for _, value in (*top, *front)) or 1.0
    width, height = (columns - 4) * 2, rows * 4
    grid = [[0] * (columns - 4) for _ in range(rows)]
    span = (days[-1] - days[0]).days
    for series, step in ((top, 1), (front, 3)):
        points = [((day - days[0]).days / span * (width - 1), value / highest * (height - 1)) for day, value in series]
        for x, y in _between(points, step):
            row, column = (height - 1 - y) // 4, x // 2
            grid[row][column] |= _DOTS[(height - 1 - y) % 4][x % 2]
    lines = ["".join(chr(0x2800 + cell) for cell in row) for row in grid]
    labels = [f"{highest:3.0f} " if n == 0 else "  0 " if n == rows - 1 else "    " for n in range(rows)]
    drawn = [label + line for label, line in zip(labels, lines, strict=True)]
    first, last = short_day(days[0]), short_day(days[-1])
    return [*drawn, "    " + first + last.rjust(columns - 4 - len(first))]


def _between(points: Sequence[tuple[float, float]], step: int) -> list[tuple[int, int]]:
    """Return the dots of a line through the points, every `step`-th drawn."""
    dots: list[tuple[int, int]] = []
    for (x1, y1), (x2, y2) in pairwise(points):
        count = max(1, round(x2 - x1))
        dots += [(round(x1 + (x2 - x1) * n / count), round(y1 + (y2 - y1) * n / count)) for n in range(count + 1)]
    return dots[::step]
