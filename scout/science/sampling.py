"""How many plants to look at, and how sure a count of plants is."""

import math
from statistics import NormalDist

from scout.science.binomial import binomial_at_least_frac, binomial_at_most_frac
from scout.science.bisection import crossing
from scout.science.limits import require_confidence, require_count, require_within

_ROUNDING = 1e-12
"""A chance this close to the wanted one counts as reached (19 of 20 is 95 %)."""


def wilson_interval(affected_n: int, looked_n: int, confidence_frac: float = 0.95) -> tuple[float, float]:
    """Return the score interval of a share, lower and upper end.

    Units: confidence_frac and result shares.
    Valid: 0 ≤ affected_n ≤ looked_n, at least one looked at. Ends never leave 0 to 1.
    Raises: ValueError outside that.
    Source: Wilson 1927, in Newcombe 1998, Statistics in Medicine 17:857-872, method 3.
    """
    _require_counts(affected_n, looked_n, confidence_frac)
    z2 = NormalDist().inv_cdf(0.5 + confidence_frac / 2.0) ** 2
    not_affected_n = looked_n - affected_n
    centre = affected_n + z2 / 2.0
    reach = math.sqrt(z2 * (affected_n * not_affected_n / looked_n + z2 / 4.0))
    low = 0.0 if affected_n == 0 else (centre - reach) / (looked_n + z2)
    high = 1.0 if not_affected_n == 0 else (centre + reach) / (looked_n + z2)
    return low, high


def clopper_pearson_interval(affected_n: int, looked_n: int, confidence_frac: float = 0.95) -> tuple[float, float]:
    """Return the exact interval of a share, lower and upper end.

    Units: confidence_frac and result shares.
    Valid: 0 ≤ affected_n ≤ looked_n, at least one looked at; meant for up to some thousands.
    Raises: ValueError outside that.
    Source: Clopper & Pearson 1934, Biometrika 26:404-413. The quantiles are found by halving on the
        binomial tails themselves, not by a beta function.
    """
    _require_counts(affected_n, looked_n, confidence_frac)
    tail = (1.0 - confidence_frac) / 2.0
    low, high = 0.0, 1.0
    if affected_n > 0:
        low = crossing(lambda share: binomial_at_least_frac(affected_n, looked_n, share), tail, 0.0, 1.0)
    if affected_n < looked_n:
        high = crossing(lambda share: binomial_at_most_frac(affected_n, looked_n, share), tail, 0.0, 1.0)
    return low, high


def upper_limit_none_found(looked_n: int, confidence_frac: float = 0.95) -> float:
    """Return the largest affected share still believable after none was found (one-sided).

    Units: confidence_frac and result shares.
    Valid: a planting much larger than looked_n; in a small one use affected_still_possible. 0 looked at: 1.0.
    Raises: ValueError for a negative count or a confidence outside 0 to 1.
    Source: exact binomial, 1 - (1 - confidence)^(1/n); Hanley & Lippman-Hand 1983, JAMA 249:1743 for the
        approximation 3/n.
    """
    require_count("looked_n", looked_n)
    require_confidence(confidence_frac)
    if looked_n == 0:
        return 1.0
    return -math.expm1(math.log1p(-confidence_frac) / looked_n)


def plants_to_look_at(population_n: int, affected_n: int, confidence_frac: float = 0.95) -> int:
    """Return how many plants to look at so that at least one affected one is met.

    Units: confidence_frac a share; counts of plants.
    Valid: 1 ≤ affected_n ≤ population_n; looking at random, and seeing what is there.
    Raises: ValueError outside that.
    Source: exact hypergeometric; Cannon & Roe 1982, Livestock Disease Surveys, give an approximation that
        is at times one plant higher.
    """
    require_count("affected_n", affected_n, 1)
    require_count("population_n", population_n, affected_n)
    require_confidence(confidence_frac)
    for looked_n in range(1, population_n):
        if _none_met_frac(population_n, affected_n, looked_n) <= 1.0 - confidence_frac + _ROUNDING:
            return looked_n
    return population_n


def plants_to_look_at_in_many(affected_frac: float, confidence_frac: float = 0.95) -> int:
    """Return how many plants to look at in a planting too large to count.

    Units: affected_frac and confidence_frac shares; result a count of plants.
    Valid: over 0 to 1; looking at random.
    Raises: ValueError outside that.
    Source: exact binomial, ln(1 - confidence) / ln(1 - share), rounded up.
    """
    require_within("affected_frac", affected_frac, 0.0, 1.0)
    require_confidence(confidence_frac)
    if affected_frac == 0.0:
        raise ValueError("affected_frac is 0: no number of plants would show any")
    if affected_frac == 1.0:
        return 1
    return math.ceil(math.log1p(-confidence_frac) / math.log1p(-affected_frac) - _ROUNDING)


def affected_still_possible(population_n: int, looked_n: int, confidence_frac: float = 0.95) -> int:
    """Return the largest number of affected plants still believable after none was found.

    Units: confidence_frac a share; counts of plants.
    Valid: 0 ≤ looked_n ≤ population_n; looking at random, and seeing what is there.
    Raises: ValueError outside that.
    Source: exact hypergeometric, one-sided.
    """
    require_count("looked_n", looked_n)
    require_count("population_n", population_n, max(1, looked_n))
    require_confidence(confidence_frac)
    possible = 0
    for affected_n in range(1, population_n - looked_n + 1):
        if _none_met_frac(population_n, affected_n, looked_n) <= 1.0 - confidence_frac + _ROUNDING:
            break
        possible = affected_n
    return possible


def _none_met_frac(population_n: int, affected_n: int, looked_n: int) -> float:
    ways_without = math.comb(population_n - affected_n, looked_n)
    return ways_without / math.comb(population_n, looked_n)


def _require_counts(affected_n: int, looked_n: int, confidence_frac: float) -> None:
    require_confidence(confidence_frac)
    require_count("affected_n", affected_n)
    require_count("looked_n", looked_n, max(1, affected_n))
