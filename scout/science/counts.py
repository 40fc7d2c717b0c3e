"""Compare small counts exactly: new leaves this week and last, sick plants here and there."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from scout.science.binomial import binomial_at_least_frac, binomial_at_most_frac, binomial_frac
from scout.science.bisection import crossing
from scout.science.limits import require_confidence, require_count
from scout.science.sampling import clopper_pearson_interval

_SAME_CHANCE = 1.0 + 1e-7
"""Outcomes this close in chance count as equally likely, as statistics programs usually do."""


@dataclass(frozen=True, slots=True)
class PoissonComparison:
    """Two counts over two stretches of time; `low` to `high` belongs with `p_double_tail`."""

    ratio: float | None
    """First rate over second rate; None where the second count is 0 and the ratio has no limit."""
    low: float
    high: float | None
    """None: no upper limit."""
    p_least_likely: float
    """Two-sided: sum over all outcomes no likelier than the one seen."""
    p_double_tail: float
    """Two-sided: twice the smaller tail; agrees with the interval."""


def compare_poisson_counts(
    first_n: int, first_d: float, second_n: int, second_d: float, confidence_frac: float = 0.95
) -> PoissonComparison | None:
    """Return how the first rate stands to the second, or None when both counts are 0 (nothing can be said).

    Units: first_d and second_d days, or plant-days: any exposure, the same for both; confidence_frac a share.
    Valid: counts that come singly and independently, such as newly diseased leaves; exposures over 0.
        With unequal exposures the two p values differ, and the first can look clear while the interval
        covers 1: use p_double_tail with the interval.
    Raises: ValueError for a negative count or an exposure that is not over 0.
    Source: conditional binomial, Przyborowski & Wilenski 1940, Biometrika 31:313-323; limits after
        Clopper & Pearson 1934.
    """
    _require_exposure("first_d", first_d)
    _require_exposure("second_d", second_d)
    require_count("first_n", first_n)
    require_count("second_n", second_n)
    total_n = first_n + second_n
    if total_n == 0:
        return None
    per_odds = second_d / first_d
    low, high = clopper_pearson_interval(first_n, total_n, confidence_frac)
    share = first_d / (first_d + second_d)
    return PoissonComparison(
        ratio=None if second_n == 0 else first_n / second_n * per_odds,
        low=low / (1.0 - low) * per_odds,
        high=None if second_n == 0 else high / (1.0 - high) * per_odds,
        p_least_likely=_least_likely(first_n, total_n, share),
        p_double_tail=_double_tail(first_n, total_n, share),
    )


def poisson_interval(count_n: int, confidence_frac: float = 0.95) -> tuple[float, float]:
    """Return the exact two-sided limits of the expected count behind one count.

    Units: confidence_frac a share; result in counts.
    Valid: counts that come singly and independently.
    Raises: ValueError for a negative count or a confidence outside 0 to 1.
    Source: Garwood 1936, Biometrika 28:437-442; found by halving on the Poisson tails.
    """
    require_count("count_n", count_n)
    require_confidence(confidence_frac)
    tail = (1.0 - confidence_frac) / 2.0
    if count_n == 0:
        return 0.0, _poisson_upper(count_n, tail)
    low = crossing(lambda mean: _poisson_at_most(count_n - 1, mean), 1.0 - tail, 0.0, float(count_n))
    return low, _poisson_upper(count_n, tail)


def fisher_exact_two_sided(here_affected_n: int, here_clear_n: int, there_affected_n: int, there_clear_n: int) -> float:
    """Return the two-sided chance of a split at least as unlikely as this one, if both places are alike.

    Raises ValueError for a negative count. Source: Fisher's exact test, sum over all tables with the same
    margins that are no likelier than the one seen; worked in whole numbers.
    """
    cells = (here_affected_n, here_clear_n, there_affected_n, there_clear_n)
    for count_n in cells:
        require_count("a count", count_n)
    here, there = here_affected_n + here_clear_n, there_affected_n + there_clear_n
    affected = here_affected_n + there_affected_n
    ways = [
        math.comb(here, k) * math.comb(there, affected - k)
        for k in range(max(0, affected - there), min(here, affected) + 1)
    ]
    seen = math.comb(here, here_affected_n) * math.comb(there, there_affected_n)
    return sum(way for way in ways if way <= seen) / sum(ways)


def _least_likely(count_n: int, of_n: int, share: float) -> float:
    ceiling = binomial_frac(count_n, of_n, share) * _SAME_CHANCE
    chances = (binomial_frac(k, of_n, share) for k in range(of_n + 1))
    return min(1.0, math.fsum(chance for chance in chances if chance <= ceiling))


def _double_tail(count_n: int, of_n: int, share: float) -> float:
    tails: tuple[Callable[[int, int, float], float], ...] = (binomial_at_most_frac, binomial_at_least_frac)
    return min(1.0, 2.0 * min(tail(count_n, of_n, share) for tail in tails))


def _poisson_at_most(count_n: int, mean: float) -> float:
    if mean == 0.0:
        return 1.0
    logs = (k * math.log(mean) - mean - math.lgamma(k + 1) for k in range(count_n + 1))
    return math.fsum(math.exp(log) for log in logs)


def _poisson_upper(count_n: int, tail: float) -> float:
    high = float(count_n + 1)
    while _poisson_at_most(count_n, high) > tail:
        high *= 2.0
    return crossing(lambda mean: _poisson_at_most(count_n, mean), tail, 0.0, high)


def _require_exposure(name: str, exposure_d: float) -> None:
    if not 0.0 < exposure_d < math.inf:
        raise ValueError(f"{name} is {exposure_d:g}, it must be over 0")
