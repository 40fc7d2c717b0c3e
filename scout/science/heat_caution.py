"""Getting used to the heat: how much of a day to work in it at first."""

from typing import Literal

from scout.science.limits import require_count

_NEW_D, _NEW_STEP_FRAC = 5, 0.20
_BACK_FRAC = (0.50, 0.60, 0.80, 1.00)
AT_LEAST_D = 7
"""Getting used to heat takes 7 to 14 days; until then one class worse is told."""

Came = Literal["new", "back"]


def share_of_full_day_frac(day_n: int, came: Came) -> float:
    """Return the share of a full day in the heat for somebody new to it, or back after a week or more away.

    Units: day_n the day of heat, 1 the first; result share 0-1.
    Valid: from day 1; a person who is ill, or feels it, does less.
    Raises: ValueError for a day before the first.
    Source: NIOSH poster of 2014: new 20 % on the first day and 20 % more a day; back 50, 60, 80, 100 %.
    """
    require_count("day_n", day_n, 1)
    if came == "new":
        return min(1.0, _NEW_STEP_FRAC * min(day_n, _NEW_D))
    return _BACK_FRAC[min(day_n, len(_BACK_FRAC)) - 1]
