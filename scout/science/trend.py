"""Is a short series rising or falling, and how fast: rank tests that one wild value cannot bend."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from statistics import NormalDist, median

from scout.science.limits import require_count

EXACT_UP_TO_N = 8
"""Longest series without ties that is worked exactly; beyond it the normal approximation is close enough."""


@dataclass(frozen=True, slots=True)
class MannKendall:
    """Result of the test: rises minus falls over all pairs, its variance, and the two-sided p."""

    s: int
    variance: float
    p_two_sided: float
    exact: bool
    """True: p from the exact distribution; False: normal approximation with continuity correction."""


def mann_kendall(value_same: Sequence[float]) -> MannKendall:
    """Return the test for a steady rise or fall of a series in order of time.

    Units: value_same any one unit; result without unit.
    Valid: two values or more; up to 8 without ties exact, else approximate. Three values can never be clear.
    Raises: ValueError for fewer than two values, or a value that is not a number.
    Source: Mann 1945, Econometrica 13:245-259; Kendall 1975, Rank Correlation Methods.
    """
    require_count("number of values", len(value_same), 2)
    _require_numbers(value_same)
    s = sum((later > value) - (later < value) for value, later in combinations(value_same, 2))
    count_n, ties = len(value_same), Counter(value_same).values()
    variance = (_spread(count_n) - sum(_spread(tied) for tied in ties)) / 18.0
    if count_n <= EXACT_UP_TO_N and max(ties) == 1:
        return MannKendall(s, variance, min(1.0, 2.0 * kendall_tail(abs(s), count_n)), exact=True)
    return MannKendall(s, variance, _normal_p(s, variance), exact=False)


def kendall_tail(s: int, count_n: int) -> float:
    """Return the chance that a series of this length without ties or trend reaches this sum or more.

    Raises ValueError for fewer than two values.
    Source: Kendall 1975, by counting the orders with each number of inversions.
    """
    require_count("count_n", count_n, 2)
    orders = [1]
    for size in range(2, count_n + 1):
        longer = [0] * (len(orders) + size - 1)
        for falls, ways in enumerate(orders):
            for more in range(size):
                longer[falls + more] += ways
        orders = longer
    pairs = count_n * (count_n - 1) // 2
    return sum(ways for falls, ways in enumerate(orders) if pairs - 2 * falls >= s) / sum(orders)


def sen_slope(day_d: Sequence[float], value_same: Sequence[float]) -> float:
    """Return the middle one of the slopes between all pairs.

    Units: day_d days, value_same any one unit; result that unit per day.
    Valid: two looks or more, no day twice.
    Raises: ValueError outside that, for unequal lengths, or a value that is not a number.
    Source: Sen 1968, J. Am. Statist. Assoc. 63:1379-1389.
    """
    require_count("number of days", len(day_d), 2)
    if len(set(day_d)) != len(day_d):
        raise ValueError("a day stands twice in day_d")
    _require_numbers(value_same)
    looks = zip(day_d, value_same, strict=True)
    return median((later - value) / (then - day) for (day, value), (then, later) in combinations(looks, 2))


def _require_numbers(value_same: Sequence[float]) -> None:
    if any(math.isnan(value) for value in value_same):
        raise ValueError("a value is not a number; leave a missing look out")


def _spread(count_n: int) -> int:
    return count_n * (count_n - 1) * (2 * count_n + 5)


def _normal_p(s: int, variance: float) -> float:
    if s == 0 or variance == 0.0:
        return 1.0
    return 2.0 * NormalDist().cdf(-(abs(s) - 1) / math.sqrt(variance))
