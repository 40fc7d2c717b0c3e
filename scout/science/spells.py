"""Did the weather do it? Tests on the days of a window, some of which may be missing.

Each test answers True or False only when no value of the missing days (None) could change the answer;
otherwise None, unknown. The days stand in order of date, one entry a day.
"""

import math
from collections.abc import Sequence
from itertools import groupby

from scout.science.limits import require_count, require_within


def days_at_least(day_same: Sequence[float | None], limit_same: float, need_n: int = 1) -> bool | None:
    """Return whether enough days reached the limit.

    Units: day_same and limit_same share one unit; need_n days.
    Valid: any window; need_n at least 1.
    Raises: ValueError for need_n under 1 or a value that is not a number.
    Source: counting.
    """
    return _enough(_met(day_same, limit_same), need_n)


def days_at_most(day_same: Sequence[float | None], limit_same: float, need_n: int = 1) -> bool | None:
    """Return whether enough days stayed at or under the limit.

    Units: day_same and limit_same share one unit; need_n days.
    Valid: any window; need_n at least 1.
    Raises: ValueError for need_n under 1 or a value that is not a number.
    Source: counting.
    """
    turned = [None if value is None else -value for value in day_same]
    return _enough(_met(turned, -limit_same), need_n)


def run_at_least(day_same: Sequence[float | None], limit_same: float, need_n: int) -> bool | None:
    """Return whether enough days in a row reached the limit.

    Units: day_same and limit_same share one unit; need_n days in a row.
    Valid: any window; need_n at least 1. A missing day neither breaks nor makes a run.
    Raises: ValueError for need_n under 1 or a value that is not a number.
    Source: counting.
    """
    require_count("need_n", need_n, 1)
    met = _met(day_same, limit_same)
    if _longest_run([day is True for day in met]) >= need_n:
        return True
    return None if _longest_run([day is not False for day in met]) >= need_n else False


def sum_at_least(day_same: Sequence[float | None], limit_same: float, highest_same: float | None = None) -> bool | None:
    """Return whether the days add up to the limit.

    Units: day_same, limit_same and highest_same share one unit.
    Valid: quantities that cannot be negative (rain, hours). highest_same is the most a missing day can add
        (24 for hours of wetness); None: no limit.
    Raises: ValueError for a negative value.
    Source: addition.
    """
    known, most = _sum_range(day_same, highest_same)
    if known >= limit_same:
        return True
    return False if most < limit_same else None


def sum_at_most(day_same: Sequence[float | None], limit_same: float, highest_same: float | None = None) -> bool | None:
    """Return whether the days add up to no more than the limit.

    Units: day_same, limit_same and highest_same share one unit.
    Valid: as sum_at_least.
    Raises: ValueError for a negative value.
    Source: addition.
    """
    known, most = _sum_range(day_same, highest_same)
    if known > limit_same:
        return False
    return True if most <= limit_same else None


def dry_then_wet(
    rain_mm: Sequence[float | None], wet_mm: float, dry_need_n: int, dry_below_mm: float = 1.0
) -> bool | None:
    """Return whether a soaking followed a dry spell inside the window.

    The spell: at least dry_need_n days in a row, each under dry_below_mm. The soaking: the two days right
    after some end of that spell (one, where the window ends) bring wet_mm or more together.

    Units: all mm of rain a day.
    Valid: rain from 0 up; dry_need_n at least 1; wet_mm over dry_below_mm, dry_below_mm over 0.
    Raises: ValueError outside that.
    Source: house definition; the limits come with the condition.
    """
    require_count("dry_need_n", dry_need_n, 1)
    if not 0.0 < dry_below_mm < wet_mm:
        raise ValueError(f"wet_mm {wet_mm:g} must be over dry_below_mm {dry_below_mm:g}, and both over 0")
    _require_not_negative(rain_mm)
    outcomes = _soaking_outcomes(rain_mm, wet_mm, dry_need_n, dry_below_mm)
    return outcomes.pop() if len(outcomes) == 1 else None


_State = tuple[int, float | None] | None
"""Dry days in a row so far, and the rain of yesterday where a spell had just ended before it; None = soaked."""


def _soaking_outcomes(
    rain_mm: Sequence[float | None], wet_mm: float, dry_need_n: int, dry_below_mm: float
) -> set[bool]:
    """Return which answers the missing days leave possible.

    A missing day is tried as 0 (dry), as the least rain that is not dry, and as endless rain. Any other
    value does no more for or against a soaking than one of these.
    """
    guesses = (0.0, dry_below_mm, math.inf)
    states: set[_State] = {(0, None)}
    for day in rain_mm:
        tried = guesses if day is None else (day,)
        states = {_next_day(state, rain, wet_mm, dry_need_n, dry_below_mm) for state in states for rain in tried}
    return {state is None for state in states}


def _next_day(state: _State, rain: float, wet_mm: float, dry_need_n: int, dry_below_mm: float) -> _State:
    if state is None:
        return None
    dry_n, yesterday = state
    after_a_spell = dry_n >= dry_need_n
    if (after_a_spell and rain >= wet_mm) or (yesterday is not None and yesterday + rain >= wet_mm):
        return None
    dry_now = min(dry_n + 1, dry_need_n) if rain < dry_below_mm else 0
    return dry_now, rain if after_a_spell else None


def _met(day_same: Sequence[float | None], limit_same: float) -> list[bool | None]:
    if any(value is not None and math.isnan(value) for value in (*day_same, limit_same)):
        raise ValueError("a value is not a number; a missing day is None")
    return [None if value is None else value >= limit_same for value in day_same]


def _enough(met: list[bool | None], need_n: int) -> bool | None:
    require_count("need_n", need_n, 1)
    if met.count(True) >= need_n:
        return True
    return None if met.count(True) + met.count(None) >= need_n else False


def _longest_run(days: list[bool]) -> int:
    return max((sum(1 for _ in run) for met, run in groupby(days) if met), default=0)


def _sum_range(day_same: Sequence[float | None], highest_same: float | None) -> tuple[float, float]:
    _require_not_negative(day_same)
    known = math.fsum(value for value in day_same if value is not None)
    missing_n = sum(value is None for value in day_same)
    if missing_n == 0:
        return known, known
    return known, math.inf if highest_same is None else known + missing_n * highest_same


def _require_not_negative(day_same: Sequence[float | None]) -> None:
    for value in day_same:
        if value is not None:
            require_within("a day's value", value, 0.0, math.inf)


def swings(day_same: Sequence[float | None], limit_same: float) -> bool | None:
    """Return whether the series spans at least the limit from its lowest to its highest day.

    Units: day_same and limit_same share one unit.
    Valid: any window; missing days can only widen the span, so "no" needs every day.
    Raises: ValueError for a negative limit.
    Source: counting.
    """
    require_within("limit_same", limit_same, 0.0, math.inf)
    known = [value for value in day_same if value is not None]
    if known and max(known) - min(known) >= limit_same:
        return True
    return False if len(known) == len(day_same) else None
