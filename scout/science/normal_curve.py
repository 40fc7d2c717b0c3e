"""The normal curve for many scores at once: numpy has none, and one call of the standard library a score is slow."""

import math
from functools import cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
_STEP, _REACH = 5e-4, 9.0


def below_frac(scores_same: Array) -> Array:
    """Return the share of the normal curve below each score.

    Units: scores_same in standard deviations, without unit; result a share.
    Valid: any score; beyond 9 it is 0 or 1.
    Raises: nothing.
    Source: math.erf at steps of 0.0005, straight lines between: at most 8e-9 off (step squared / 8 times the largest
        curvature, 0.242).
    """
    at, shares = _table()
    found: Array = np.interp(scores_same, at, shares)
    return found


@cache
def _table() -> tuple[Array, Array]:
    at = np.arange(-_REACH, _REACH + _STEP / 2.0, _STEP)
    return at, np.array([0.5 * math.erfc(-score / math.sqrt(2.0)) for score in at.tolist()])
