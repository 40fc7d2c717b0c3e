"""Heat caution for the person, hour by hour: in the shade, in full sun, and for somebody not yet used to the heat."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from scout.science.heat_index import HeatClass, heat_class, heat_index_c, in_full_sun_c
from scout.science.limits import require_count

_WORSE: tuple[HeatClass, ...] = get_args(HeatClass)
_NEW_D, _NEW_STEP_FRAC = 5, 0.20
_BACK_FRAC = (0.50, 0.60, 0.80, 1.00)
AT_LEAST_D = 7
"""Getting used to heat takes 7 to 14 days; until then one class worse is told."""

Came = Literal["new", "back"]


@dataclass(frozen=True)
class HeatHour:
    """One hour's heat; None where temperature or humidity is missing."""

    index_c: float | None
    in_shade: HeatClass | None
    in_sun: HeatClass | None


def caution_by_hour(
    t_c: Sequence[float | None], rh_pct: Sequence[float | None], *, days_in_heat_n: int | None
) -> list[HeatHour]:
    """Return the heat of each hour for a person who has worked in such heat for so many days; None: not known.

    Somebody with fewer than AT_LEAST_D days, or whose days nobody knows, is told one class worse from caution on.

    Units: t_c °C, rh_pct %, a value an hour, None where missing.
    Valid: equal lengths, as heat_index_c. The sun's addition is an upper limit, not a measurement.
    Raises: ValueError outside that, or for a negative number of days.
    Source: heat_index; NIOSH poster of 2014 for the 7 to 14 days; one class worse is our choice.
    """
    require_count("days_in_heat_n", days_in_heat_n or 0)
    used = days_in_heat_n is not None and days_in_heat_n >= AT_LEAST_D
    return [_hour(warmth, humid, used) for warmth, humid in zip(t_c, rh_pct, strict=True)]


def _hour(t_c: float | None, rh_pct: float | None, used: bool) -> HeatHour:
    if t_c is None or rh_pct is None:
        return HeatHour(None, None, None)
    index = heat_index_c(t_c, rh_pct)
    shade, sun = heat_class(index), heat_class(in_full_sun_c(index))
    return HeatHour(index, shade if used else _worse(shade), sun if used else _worse(sun))


def _worse(level: HeatClass) -> HeatClass:
    rank = _WORSE.index(level)
    return level if rank == 0 else _WORSE[min(rank + 1, len(_WORSE) - 1)]


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
