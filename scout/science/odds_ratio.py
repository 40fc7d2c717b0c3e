"""Two counts before and after, here and there: did the one fall more than the other? Exact, given the row totals."""

import math
from dataclasses import dataclass

from scout.science.bisection import crossing
from scout.science.limits import require_confidence, require_count

_FAR = 46.0
"""Logarithm of the farthest ratio looked for: 1e20."""


@dataclass(frozen=True, slots=True)
class OddsRatio:
    """How the odds of a first row stand to those of a second; `low` to `high` belongs with `p_double_tail`."""

    low: float
    high: float | None
    """None: no upper limit."""
    p_double_tail: float


def conditional_odds_ratio(
    here_after_n: int,
    here_before_n: int,
    there_after_n: int,
    there_before_n: int,
    null_ratio: float = 1.0,
    confidence_frac: float = 0.95,
) -> OddsRatio | None:
    """Return limits and p value of the odds ratio (here after/before over there after/before); None where it is free.

    For counts that come singly, after against before is binomial given both, so this ratio of ratios is the odds
    ratio of a fourfold table: one minus it is the Henderson-Tilton efficacy. With other numbers looked at after
    than before, `null_ratio` is the ratio that would be seen without any effect.
    Units: null_ratio a ratio over 0; confidence_frac a share; limits in the same ratio.
    Valid: up to some thousands in all.
    Raises: ValueError for a negative count or a ratio that is not over 0.
    Source: Fisher 1935, Journal of the Royal Statistical Society 98:39-82; limits after Cornfield 1956, exact.
    """
    cells = (here_after_n, here_before_n, there_after_n, there_before_n)
    for count_n in cells:
        require_count("a count", count_n)
    require_confidence(confidence_frac)
    if not 0.0 < null_ratio < math.inf:
        raise ValueError(f"null_ratio is {null_ratio:g}, it must be over 0")
    here, after, there = here_after_n + here_before_n, here_after_n + there_after_n, there_after_n + there_before_n
    low_n, high_n = max(0, after - there), min(here, after)
    if low_n == high_n:
        return None
    table = _Table(here, there, after, low_n, high_n)
    tail = (1.0 - confidence_frac) / 2.0
    seen = here_after_n
    low = 0.0 if seen == low_n else math.exp(crossing(lambda log: table.at_least(seen, log), tail, -_FAR, _FAR))
    high = None if seen == high_n else math.exp(crossing(lambda log: table.at_most(seen, log), tail, -_FAR, _FAR))
    null = math.log(null_ratio)
    return OddsRatio(low, high, min(1.0, 2.0 * min(table.at_least(seen, null), table.at_most(seen, null))))


class _Table:
    """Chances of every fourfold table with the same margins, at a given odds ratio."""

    def __init__(self, here: int, there: int, after: int, low_n: int, high_n: int) -> None:
        self._low_n = low_n
        self._logs = [
            _log_ways(here, count_n) + _log_ways(there, after - count_n) for count_n in range(low_n, high_n + 1)
        ]

    def at_least(self, count_n: int, log_ratio: float) -> float:
        return self._between(count_n - self._low_n, len(self._logs), log_ratio)

    def at_most(self, count_n: int, log_ratio: float) -> float:
        return self._between(0, count_n - self._low_n + 1, log_ratio)

    def _between(self, first: int, last: int, log_ratio: float) -> float:
        terms = [log + place * log_ratio for place, log in enumerate(self._logs)]
        top = max(terms)
        chances = [math.exp(term - top) for term in terms]
        return math.fsum(chances[first:last]) / math.fsum(chances)


def _log_ways(of_n: int, count_n: int) -> float:
    return math.lgamma(of_n + 1) - math.lgamma(count_n + 1) - math.lgamma(of_n - count_n + 1)
