"""Degree days of one day from its lowest and highest temperature.

Two shapes of a day (mean, sine) and what happens above an upper limit: "none" (no limit),
"horizontal" (development stays at its fastest), "vertical" (development stops while it is hotter),
"intermediate" (it slows as much as it is hotter, never below zero for the day).
"""

import math
from typing import Literal

from scout.science.limits import require_within

CutOff = Literal["none", "horizontal", "vertical", "intermediate"]


def simple_average_cd(tmin_c: float, tmax_c: float, lower_c: float) -> float:
    """Return degree days from the mean of the day, zero when the mean lies below the base.

    Units: all °C; result °C·d.
    Valid: -60 ≤ tmin_c ≤ tmax_c ≤ 60; too low on days that straddle the base.
    Raises: ValueError outside that.
    Source: McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291-300, method 1.
    """
    _require_day(tmin_c, tmax_c)
    return max(0.0, (tmin_c + tmax_c) / 2.0 - lower_c)


def capped_average_cd(tmin_c: float, tmax_c: float, lower_c: float, upper_c: float | None = None) -> float:
    """Return degree days from the mean of the two extremes, each first brought inside the limits.

    Units: all °C; result °C·d.
    Valid: -60 ≤ tmin_c ≤ tmax_c ≤ 60, lower_c < upper_c. Differs from simple_average_cd on days that straddle a limit.
    Raises: ValueError outside that.
    Source: McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291-300, method 2; the upper limit is the usual
        extension.
    """
    _require_day(tmin_c, tmax_c)
    top_c = math.inf if upper_c is None else upper_c
    _require_limits(lower_c, top_c)
    low, high = (min(max(t_c, lower_c), top_c) for t_c in (tmin_c, tmax_c))
    return (low + high) / 2.0 - lower_c


def single_sine_cd(
    tmin_c: float, tmax_c: float, lower_c: float, upper_c: float | None = None, cutoff: CutOff = "none"
) -> float:
    """Return degree days of a day shaped like one sine wave.

    Units: all °C; result °C·d.
    Valid: -60 ≤ tmin_c ≤ tmax_c ≤ 60, lower_c < upper_c; a cut-off other than "none" needs upper_c.
    Raises: ValueError outside that.
    Source: Baskerville & Emin 1969, Ecology 50:514-517; cut-offs as in Zalom et al. 1983, Univ. California
        leaflet 21373.
    """
    _require_day(tmin_c, tmax_c)
    if (upper_c is None) != (cutoff == "none"):
        raise ValueError("give upper_c together with a cut-off other than none, or neither")
    over_lower, _ = _above(tmin_c, tmax_c, lower_c)
    if upper_c is None:
        return over_lower
    _require_limits(lower_c, upper_c)
    over_upper, share_above = _above(tmin_c, tmax_c, upper_c)
    if cutoff == "vertical":
        return max(0.0, over_lower - over_upper - (upper_c - lower_c) * share_above)
    return max(0.0, over_lower - over_upper * (2.0 if cutoff == "intermediate" else 1.0))


def _above(tmin_c: float, tmax_c: float, limit_c: float) -> tuple[float, float]:
    """Return the mean excess over a limit, and the share of the day above it."""
    if limit_c >= tmax_c:
        return 0.0, 0.0
    mean, reach = (tmin_c + tmax_c) / 2.0, (tmax_c - tmin_c) / 2.0
    if limit_c <= tmin_c:
        return mean - limit_c, 1.0
    crossing = math.asin((limit_c - mean) / reach)
    to_the_top = math.pi / 2.0 - crossing
    return ((mean - limit_c) * to_the_top + reach * math.cos(crossing)) / math.pi, to_the_top / math.pi


def _require_day(tmin_c: float, tmax_c: float) -> None:
    require_within("tmax_c", tmax_c, -60.0, 60.0)
    require_within("tmin_c", tmin_c, -60.0, 60.0)
    if tmin_c > tmax_c:
        raise ValueError(f"tmin_c {tmin_c:g} is above tmax_c {tmax_c:g}")


def _require_limits(lower_c: float, upper_c: float) -> None:
    if not lower_c < upper_c:
        raise ValueError(f"lower_c {lower_c:g} is not below upper_c {upper_c:g}")
