"""Degree days added up over a season in which days may be missing: what is sure, and what is an estimate."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from scout.science.degree_days import capped_average_cd, simple_average_cd, single_sine_cd
from scout.science.limits import require_count, require_within

Method = Literal["average", "high_capped", "both_capped", "sine"]

LONGEST_GAP_D = 5
"""A longer gap is not bridged between its neighbours. Our choice."""
MOST_MISSING_FRAC = 0.10
"""With more of the days missing no estimate is told. Our choice."""


@dataclass(frozen=True)
class Limits:
    """Between which temperatures a pest grows, and how a day is reckoned."""

    base_c: float
    upper_c: float | None
    method: Method


@dataclass(frozen=True)
class WarmthSum:
    """Degree days over some days."""

    sure_cd: float
    """Over the days that are known: the true sum is at least this."""
    estimate_cd: float | None
    """With the missing days bridged between their neighbours; equal to sure_cd where none is missing; None where too
    many are."""
    missing_n: int
    days_n: int


def day_cd(tmin_c: float, tmax_c: float, limits: Limits) -> float:
    """Return the degree days of one day by the method of the source.

    Units: °C; result °C·d.
    Valid: -60 ≤ tmin_c ≤ tmax_c ≤ 60; a capped method needs an upper limit.
    Raises: ValueError outside that.
    Source: average and both_capped McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291-300; sine Baskerville & Emin
    1969, Ecology 50:514-517, horizontal cut-off; high_capped as the seed corn maggot page of the University of
    Minnesota states it (highs above the limit set to it, negative days to zero).
    """
    if limits.method == "average":
        return simple_average_cd(tmin_c, tmax_c, limits.base_c)
    if limits.method == "sine":
        cutoff: Literal["none", "horizontal"] = "none" if limits.upper_c is None else "horizontal"
        return single_sine_cd(tmin_c, tmax_c, limits.base_c, limits.upper_c, cutoff)
    if limits.upper_c is None:
        raise ValueError(f"the method {limits.method} needs an upper limit")
    if limits.method == "both_capped":
        return capped_average_cd(tmin_c, tmax_c, limits.base_c, limits.upper_c)
    return simple_average_cd(min(tmin_c, limits.upper_c), min(tmax_c, limits.upper_c), limits.base_c)


def warmth_sum(daily_cd: Sequence[float | None]) -> WarmthSum:
    """Return the sum over days in order, None where a day was not recorded.

    Units: °C·d.
    Valid: any number of days, none negative. A gap of at most LONGEST_GAP_D days between two known days is bridged by a
    straight line, as long as at most MOST_MISSING_FRAC of the days are missing.
    Raises: ValueError for a negative day or one that is not a number.
    Source: our choice.
    """
    known = [day for day in daily_cd if day is not None]
    for day in known:
        require_within("daily_cd", day, 0.0, 120.0)
    sure = sum(known)
    missing = len(daily_cd) - len(known)
    return WarmthSum(sure, _estimate(daily_cd, sure, missing), missing, len(daily_cd))


def _estimate(daily_cd: Sequence[float | None], sure_cd: float, missing_n: int) -> float | None:
    if not missing_n:
        return sure_cd
    if missing_n > MOST_MISSING_FRAC * len(daily_cd) or daily_cd[0] is None or daily_cd[-1] is None:
        return None
    bridged, before = 0.0, 0.0
    runs = [(value is None, list(run)) for value, run in groupby(daily_cd, key=lambda day: day if day is None else 0.0)]
    for place, (gap, run) in enumerate(runs):
        if gap:
            if len(run) > LONGEST_GAP_D:
                return None
            after = runs[place + 1][1][0] or 0.0
            bridged += len(run) * (before + after) / 2.0
        else:
            before = run[-1] or 0.0
    return sure_cd + bridged


def reached_after_n(daily_cd: Sequence[float | None], target_cd: float) -> int | None:
    """Return how many days in the known days alone reach a sum; None where they do not reach it.

    The true day is that one or, where days before it are missing, an earlier one.

    Units: °C·d; result days, 1 the first.
    Valid: target_cd above zero.
    Raises: ValueError outside that.
    Source: adding up.
    """
    require_within("target_cd", target_cd, 1e-9, 1e5)
    total = 0.0
    for number, day in enumerate(daily_cd, 1):
        total += day or 0.0
        if total >= target_cd - 1e-9:
            return number
    return None


def days_to_go_n(missing_cd: float, lately_cd: Sequence[float | None], least_n: int = 3) -> int | None:
    """Return in how many days a sum is reached if it goes on as lately; None where too little is known or it is cold.

    Units: °C·d; result whole days, rounded up.
    Valid: missing_cd above zero. A guess: it knows no forecast.
    Raises: ValueError for a negative count.
    Source: our choice: the mean of the known days.
    """
    require_count("least_n", least_n, 1)
    require_within("missing_cd", missing_cd, 0.0, 1e5)
    known = [day for day in lately_cd if day is not None]
    if len(known) < least_n or sum(known) <= 0.0:
        return None
    return -int(-missing_cd * len(known) // sum(known))


def cold_days_n(mean_c: Sequence[float | None], below_c: float) -> tuple[int, int]:
    """Return on how many of the known days the mean stayed at or below a limit (chill), and how many are missing.

    Units: °C; result days.
    Valid: -60 to 60 °C.
    Raises: ValueError outside that.
    Source: counting; the limit comes with the crop.
    """
    known = [value for value in mean_c if value is not None]
    for value in known:
        require_within("mean_c", value, -60.0, 60.0)
    return sum(value <= below_c for value in known), len(mean_c) - len(known)
