"""How many to look at, each time, so that a fall by half would show."""

import math

from scout.science.limits import require_within


def numbers_for_a_halving(mean_ratio: float, change_ratio: float = 0.5) -> int:
    """Return plants to look at before and again after, so that a fall to half the number would show four times in five.

    Units: mean_ratio finds for each one looked at before; change_ratio after over before.
    Valid: mean over 0, change 0 to under 1 (or over 1); two-sided 5 %, power 80 %; finds that come singly.
    Raises: ValueError outside that.
    Source: n = 4/(√m1 − √m2)², van Belle 2008, Statistical Rules of Thumb, chapter 2 (from memory).
    """
    require_within("mean_ratio", mean_ratio, 1e-9, 1e9)
    require_within("change_ratio", change_ratio, 0.0, 1e3)
    gap = math.sqrt(mean_ratio) - math.sqrt(change_ratio * mean_ratio)
    if gap == 0.0:
        raise ValueError("change_ratio is 1: no number shows what is not there")
    return math.ceil(4.0 / gap**2 - 1e-9)


def shares_for_a_halving(share_frac: float, change_ratio: float = 0.5) -> int:
    """Return how many to look at before and after, so that a fall to half the share would show four times in five.

    Units: share_frac a share; change_ratio after over before.
    Valid: share over 0 to 1; two-sided 5 %, power 80 %.
    Raises: ValueError outside that.
    Source: n = 16 p(1 − p)/d² with p the mean of both shares and d their difference; Lehr 1992, Statistics in Medicine
        11:1099-1102 (from memory).
    """
    require_within("share_frac", share_frac, 1e-9, 1.0)
    require_within("change_ratio", change_ratio, 0.0, 1.0 / share_frac)
    after = share_frac * change_ratio
    if after == share_frac:
        raise ValueError("change_ratio is 1: no number shows what is not there")
    mean = (share_frac + after) / 2.0
    return max(2, math.ceil(16.0 * mean * (1.0 - mean) / (share_frac - after) ** 2 - 1e-9))
