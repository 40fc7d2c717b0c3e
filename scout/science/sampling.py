"""How sure a count of plants is."""

import math
from statistics import NormalDist

from scout.science.binomial import binomial_at_least_frac, binomial_at_most_frac
from scout.science.bisection import crossing
from scout.science.limits import require_confidence, require_count


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
    Valid: a planting much larger than looked_n; in a small one it is on the safe side. 0 looked at: 1.0.
    Raises: ValueError for a negative count or a confidence outside 0 to 1.
    Source: exact binomial, 1 - (1 - confidence)^(1/n); Hanley & Lippman-Hand 1983, JAMA 249:1743 for the
        approximation 3/n.
    """
    require_count("looked_n", looked_n)
    require_confidence(confidence_frac)
    if looked_n == 0:
        return 1.0
    return -math.expm1(math.log1p(-confidence_frac) / looked_n)


def _require_counts(affected_n: int, looked_n: int, confidence_frac: float) -> None:
    require_confidence(confidence_frac)
    require_count("affected_n", affected_n)
    require_count("looked_n", looked_n, max(1, affected_n))
