"""Exact chances of a count out of a number of trials."""

import math

from scout.science.limits import require_within


def binomial_frac(count_n: int, of_n: int, share_frac: float) -> float:
    """Return the chance of exactly this count.

    Units: share_frac the chance of each trial; result a probability.
    Valid: 0 ≤ count_n ≤ of_n, 0 to 1; good to ten digits up to 10 000 trials.
    Raises: ValueError outside that.
    Source: binomial distribution, by logarithms of the gamma function.
    """
    require_within("share_frac", share_frac, 0.0, 1.0)
    if not 0 <= count_n <= of_n:
        raise ValueError(f"count_n is {count_n}, possible is 0 to {of_n}")
    if share_frac in (0.0, 1.0):
        return 1.0 if count_n == share_frac * of_n else 0.0
    ways = math.lgamma(of_n + 1) - math.lgamma(count_n + 1) - math.lgamma(of_n - count_n + 1)
    chance = count_n * math.log(share_frac) + (of_n - count_n) * math.log1p(-share_frac)
    return math.exp(ways + chance)


def binomial_at_most_frac(count_n: int, of_n: int, share_frac: float) -> float:
    """Return the chance of this count or fewer.

    Units: as binomial_frac.
    Valid: as binomial_frac.
    Raises: ValueError as binomial_frac.
    Source: sum of binomial_frac.
    """
    return _between(0, count_n, of_n, share_frac)


def binomial_at_least_frac(count_n: int, of_n: int, share_frac: float) -> float:
    """Return the chance of this count or more.

    Units: as binomial_frac.
    Valid: as binomial_frac.
    Raises: ValueError as binomial_frac.
    Source: sum of binomial_frac.
    """
    return _between(count_n, of_n, of_n, share_frac)


def _between(low_n: int, high_n: int, of_n: int, share: float) -> float:
    """Return the chance of a count from low_n to high_n.

    Starts at the likeliest of these counts, so that no start is too small for a float, and walks outwards by
    the ratio of neighbours, which is far quicker than a logarithm a term.
    """
    require_within("share_frac", share, 0.0, 1.0)
    if not 0 <= low_n <= high_n <= of_n:
        raise ValueError(f"a count from {low_n} to {high_n} out of {of_n} is not possible")
    start_n = min(max(int((of_n + 1) * share), low_n), high_n)
    at_start = binomial_frac(start_n, of_n, share)
    if share in (0.0, 1.0):
        return at_start
    odds = share / (1.0 - share)
    total, term = at_start, at_start
    for count_n in range(start_n + 1, high_n + 1):
        term *= (of_n - count_n + 1) / count_n * odds
        total += term
    term = at_start
    for count_n in range(start_n - 1, low_n - 1, -1):
        term *= (count_n + 1) / (of_n - count_n) / odds
        total += term
    return min(1.0, total)
