"""How far two shares lie apart, with an interval that never leaves what is possible."""

import math

from scout.science.sampling import wilson_interval


def share_difference_interval(
    first_n: int, first_of_n: int, second_n: int, second_of_n: int, confidence_frac: float = 0.95
) -> tuple[float, float]:
    """Return the score interval of first share minus second share.

    Units: confidence_frac and result shares, −1 to 1.
    Valid: counts out of at least one each.
    Raises: ValueError outside that.
    Source: Newcombe 1998, Statistics in Medicine 17:873-890, method 10.
    """
    (low1, high1), (low2, high2) = (
        wilson_interval(found_n, of_n, confidence_frac)
        for found_n, of_n in ((first_n, first_of_n), (second_n, second_of_n))
    )
    p1, p2 = first_n / first_of_n, second_n / second_of_n
    difference = p1 - p2
    return (
        difference - math.hypot(p1 - low1, high2 - p2),
        difference + math.hypot(high1 - p1, p2 - low2),
    )
