"""The apparent infection rate from many looks: a straight line through each model's transformed shares."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from scout.science.epidemic import STRAIGHT, Model
from scout.science.limits import require_within
from scout.science.student_t import two_sided_limit

COMPARED: tuple[Model, ...] = ("logistic", "gompertz", "monomolecular")
LEAST_LOOKS_N = 3
"""Two points lie on every line and leave no limits."""
_STRETCH: Mapping[Model, Callable[[float], float]] = MappingProxyType(
    {
        "exponential": lambda share: -math.log(share),
        "monomolecular": lambda share: -math.log1p(-share),
        "logistic": lambda share: -math.log(share * (1.0 - share)),
        "gompertz": lambda share: -math.log(share * -math.log(share)),
    }
)
"""Logarithm of the transform's slope: what makes likelihoods of different transforms comparable."""
_LEAST_SCATTER = 1e-12


@dataclass(frozen=True, slots=True)
class RateFit:
    """One model's line through the looks."""

    model: Model
    rate_per_d: float
    low_per_d: float
    high_per_d: float
    """Limits at the confidence asked for."""
    standard_error_per_d: float
    intercept: float
    """Transformed share at day 0."""
    log_likelihood: float
    """Of the shares themselves, so that models can be compared; all have the same number of parameters."""
    looks_n: int


def inside(day_d: Sequence[float], share_frac: Sequence[float]) -> list[tuple[float, float]]:
    """Return the looks with a share strictly between 0 and 1: the others have no transform and are left out.

    Units: days, shares.
    Valid: equal lengths, shares 0 to 1.
    Raises: ValueError outside that.
    Source: house rule; leaving out is said wherever it is done.
    """
    looks = list(zip(day_d, share_frac, strict=True))
    for _, share in looks:
        require_within("share_frac", share, 0.0, 1.0)
    return [(day, share) for day, share in looks if 0.0 < share < 1.0]


def rate_fit(
    day_d: Sequence[float], share_frac: Sequence[float], model: Model, confidence_frac: float = 0.95
) -> RateFit | None:
    """Return the apparent infection rate with its limits, or None for fewer than three usable looks.

    Units: day_d days, share_frac shares; result 1/day.
    Valid: shares strictly between 0 and 1 are used, the others left out; looks on two days at least.
    Raises: ValueError as `inside`, or for a confidence outside 0 to 1.
    Source: Vanderplank 1963; Campbell & Madden 1990, Introduction to Plant Disease Epidemiology: least squares on
        transformed shares. Looks at the same plants hang together, so the limits are rather too narrow than too wide.
    """
    looks = inside(day_d, share_frac)
    if len(looks) < LEAST_LOOKS_N or len({day for day, _ in looks}) < 2:
        return None
    count_n = len(looks)
    straight = [(day, STRAIGHT[model](share)) for day, share in looks]
    mean_d = math.fsum(day for day, _ in straight) / count_n
    mean = math.fsum(value for _, value in straight) / count_n
    spread = math.fsum((day - mean_d) ** 2 for day, _ in straight)
    rate = math.fsum((day - mean_d) * (value - mean) for day, value in straight) / spread
    misfit = math.fsum((value - mean - rate * (day - mean_d)) ** 2 for day, value in straight)
    error = math.sqrt(misfit / (count_n - 2) / spread)
    reach = two_sided_limit(confidence_frac, count_n - 2) * error
    scatter = max(misfit / count_n, _LEAST_SCATTER)
    stretch = math.fsum(_STRETCH[model](share) for _, share in looks)
    return RateFit(
        model,
        rate,
        rate - reach,
        rate + reach,
        error,
        mean - rate * mean_d,
        stretch - count_n / 2.0 * (math.log(2.0 * math.pi * scatter) + 1.0),
        count_n,
    )


def best_first(
    day_d: Sequence[float], share_frac: Sequence[float], confidence_frac: float = 0.95
) -> tuple[RateFit, ...]:
    """Return the logistic, Gompertz and monomolecular fits, the likeliest first; empty where none can be made.

    Units: as rate_fit.
    Valid: as rate_fit.
    Raises: as rate_fit.
    Source: as rate_fit; likelihood of normal scatter about the line, carried back to the shares (change of variable).
    """
    fits = (rate_fit(day_d, share_frac, model, confidence_frac) for model in COMPARED)
    return tuple(sorted((fit for fit in fits if fit is not None), key=lambda fit: -fit.log_likelihood))
