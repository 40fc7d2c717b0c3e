"""Numbers on single plants before and after, compared by shuffling them: true also where insects sit in clumps."""

import math
from collections import defaultdict
from collections.abc import Sequence

from scout.science.limits import require_count


def shuffled_p_two_sided(first: Sequence[int], second: Sequence[int]) -> float:
    """Return the chance that shuffling all plants between the two would part their sums as far as seen, or farther.

    Every split of the plants counts once, so clumps need no model; ten plants against ten take a moment.
    Raises ValueError for a negative count or an empty side.
    Source: Pitman 1937, Supplement to the Journal of the Royal Statistical Society 4:119-130; all splits are counted.
    """
    for count_n in (*first, *second):
        require_count("a count", count_n)
    require_count("plants on a side", min(len(first), len(second)), 1)
    ways = _ways_by_sum([*first, *second], len(first))
    total_n, all_n = sum(first) + sum(second), len(first) + len(second)
    expected = total_n * len(first) / all_n
    seen = abs(sum(first) - expected) - 1e-9
    far = sum(ways_n for sum_n, ways_n in ways.items() if abs(sum_n - expected) >= seen)
    return far / math.comb(all_n, len(first))


def _ways_by_sum(values: Sequence[int], chosen_n: int) -> dict[int, int]:
    """Return how many choices of so many values have each sum."""
    ways: list[dict[int, int]] = [defaultdict(int) for _ in range(chosen_n + 1)]
    ways[0][0] = 1
    for value in values:
        for taken in range(chosen_n - 1, -1, -1):
            for sum_n, ways_n in tuple(ways[taken].items()):
                ways[taken + 1][sum_n + value] += ways_n
    return ways[chosen_n]
