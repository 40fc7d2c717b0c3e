"""How a disease runs: the area under its curve, its speed between two looks, what removal buys."""

import math
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from types import MappingProxyType
from typing import Literal

from scout.science.limits import require_within

Model = Literal["exponential", "monomolecular", "logistic", "gompertz"]

STRAIGHT: Mapping[Model, Callable[[float], float]] = MappingProxyType(
    {
        "exponential": math.log,
        "monomolecular": lambda share: -math.log1p(-share),
        "logistic": lambda share: math.log(share / (1.0 - share)),
        "gompertz": lambda share: -math.log(-math.log(share)),
    }
)
"""What turns each curve into a straight line over time."""


def audpc(day_d: Sequence[float], severity_pct: Sequence[float]) -> float:
    """Return the area under the disease progress curve, by trapezoids.

    Units: day_d days, severity_pct %; result %·days.
    Valid: two looks or more, on rising days. Not to be read as progress where diseased leaves are stripped.
    Raises: ValueError for fewer than two looks, unequal lengths, days that do not rise, severity outside 0-100.
    Source: Shaner & Finney 1977, Phytopathology 67:1051-1056.
    """
    _require_curve(day_d, severity_pct)
    looks = pairwise(zip(day_d, severity_pct, strict=True))
    return math.fsum((later - day) * (then + now) / 2.0 for (day, then), (later, now) in looks)


def audps(day_d: Sequence[float], severity_pct: Sequence[float]) -> float:
    """Return the area under the disease progress stairs: the first and last look weigh as much as the others.

    Units: day_d days, severity_pct %; result %·days.
    Valid: as audpc.
    Raises: ValueError as audpc.
    Source: Simko & Piepho 2012, Phytopathology 102:381-389.
    """
    area = audpc(day_d, severity_pct)
    mean_step_d = (day_d[-1] - day_d[0]) / (len(day_d) - 1)
    return area + (severity_pct[0] + severity_pct[-1]) / 2.0 * mean_step_d


def two_point_rate_per_d(first_frac: float, second_frac: float, elapsed_d: float, model: Model) -> float:
    """Return the apparent infection rate between two looks; negative when the disease went down.

    Units: shares, days; result 1/day.
    Valid: shares strictly between 0 and 1 (0 and 1 have no transform), elapsed_d over 0.
    Raises: ValueError outside that.
    Source: Vanderplank 1963, Plant Diseases; Campbell & Madden 1990, Introduction to Plant Disease
        Epidemiology.
    """
    for name, share in (("first_frac", first_frac), ("second_frac", second_frac)):
        if not 0.0 < share < 1.0:
            raise ValueError(f"{name} is {share:g}, it must lie between 0 and 1 without touching them")
    if not 0.0 < elapsed_d < math.inf:
        raise ValueError(f"elapsed_d is {elapsed_d:g}, it must be over 0")
    straight = STRAIGHT[model]
    return (straight(second_frac) - straight(first_frac)) / elapsed_d


def doubling_time_d(rate_per_d: float) -> float | None:
    """Return the days in which a small amount doubles, or None when it does not grow.

    Units: rate_per_d 1/day; result days.
    Valid: while little of the plant is diseased (exponential phase).
    Raises: ValueError when the rate is not a finite number.
    Source: Vanderplank 1963, ln 2 / r.
    """
    _require_finite(rate_per_d)
    return math.log(2.0) / rate_per_d if rate_per_d > 0.0 else None


def sanitation_delay_d(removed_frac: float, rate_per_d: float) -> float | None:
    """Return the days by which removing a share of the disease delays it, or None when it does not grow.

    Units: removed_frac the share taken away, rate_per_d 1/day; result days.
    Valid: removed_frac from 0 to under 1, exponential phase. A delay, never an end; unseen infections stay.
    Raises: ValueError outside that.
    Source: Vanderplank 1963, ln(k) / r with k = 1 / (1 - removed share); formula from memory.
    """
    require_within("removed_frac", removed_frac, 0.0, 1.0)
    if removed_frac == 1.0:
        raise ValueError("removed_frac is 1: removing all of a disease is never known")
    _require_finite(rate_per_d)
    return -math.log1p(-removed_frac) / rate_per_d if rate_per_d > 0.0 else None


def _require_finite(rate_per_d: float) -> None:
    if not math.isfinite(rate_per_d):
        raise ValueError("rate_per_d is not a finite number")


def _require_curve(day_d: Sequence[float], severity_pct: Sequence[float]) -> None:
    if len(day_d) != len(severity_pct):
        raise ValueError(f"{len(day_d)} days but {len(severity_pct)} severities")
    if len(day_d) < 2:
        raise ValueError("an area needs at least two looks")
    if not all(day < later for day, later in pairwise(day_d)):
        raise ValueError("day_d must rise from look to look")
    for severity in severity_pct:
        require_within("severity_pct", severity, 0.0, 100.0)
