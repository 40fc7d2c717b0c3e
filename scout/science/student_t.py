"""Student's t for whole degrees of freedom: limits of a slope from few points."""

import math

from scout.science.bisection import crossing
from scout.science.limits import require_confidence, require_count


def within_frac(t_same: float, freedom_n: int) -> float:
    """Return the chance that a t value lies between minus and plus this one.

    Units: t_same without unit, freedom_n degrees of freedom; result a probability.
    Valid: t_same 0 or more, freedom_n at least 1.
    Raises: ValueError for freedom_n under 1.
    Source: Abramowitz & Stegun 1964, 26.7.3 and 26.7.4, finite sums for whole degrees of freedom.
    """
    require_count("freedom_n", freedom_n, 1)
    angle = math.atan(t_same / math.sqrt(freedom_n))
    cosine, odd = math.cos(angle), freedom_n % 2 == 1
    term, total = (cosine, 0.0) if odd else (1.0, 0.0)
    for step in range(freedom_n // 2):
        total += term
        term *= cosine * cosine * ((2 * step + 2) / (2 * step + 3) if odd else (2 * step + 1) / (2 * step + 2))
    share = math.sin(angle) * total
    return 2.0 / math.pi * (angle + share) if odd else share


def two_sided_limit(confidence_frac: float, freedom_n: int) -> float:
    """Return the t value within which the given share lies.

    Units: confidence_frac a share, freedom_n degrees of freedom; result without unit.
    Valid: 0 < confidence_frac < 1, freedom_n at least 1.
    Raises: ValueError outside that.
    Source: within_frac, solved by halving.
    """
    require_confidence(confidence_frac)
    high = 2.0
    while within_frac(high, freedom_n) <= confidence_frac:
        high *= 2.0
    return crossing(lambda t: within_frac(t, freedom_n), confidence_frac, 0.0, high)
