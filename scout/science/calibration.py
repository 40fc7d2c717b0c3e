"""Are stated chances as large as they should be? Brier score, calibration line, calibration error with its limits."""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from scout.science.limits import require_count

Array = npt.NDArray[np.float64]
_CLOSE = 1e-6
_STEPS = 50
_RIDGE = 1e-9


class Line(NamedTuple):
    """log-odds of being right = intercept + slope × log-odds stated; a careful answerer has 0 and 1."""

    intercept: float
    slope: float


class Interval(NamedTuple):
    """Lower and upper limit."""

    low: float
    high: float


def brier_score(stated_frac: Array, right: Array) -> float:
    """Return the mean squared distance of stated chances from what came out, 0 (best) to 1.

    Units: chances as fractions, right as 0 or 1.
    Valid: equal lengths, at least one.
    Raises: ValueError outside that.
    Source: Brier 1950, Monthly Weather Review 78:1.
    """
    _require_pairs(stated_frac, right)
    return float(((stated_frac - right) ** 2).mean())


def calibration_line(stated_frac: Array, right: Array) -> Line | None:
    """Return intercept and slope of the logistic recalibration; None where the answers are all right or all wrong.

    Units: chances as fractions, right as 0 or 1.
    Valid: equal lengths, at least one; chances are kept within 1e-6 of 0 and 1.
    Raises: ValueError outside that.
    Source: Cox 1958, Biometrika 45:562; fitted by Newton's method.
    """
    _require_pairs(stated_frac, right)
    if right.min() == right.max():
        return None
    kept = np.clip(stated_frac, _CLOSE, 1.0 - _CLOSE)
    rows = np.column_stack([np.ones(len(kept)), np.log(kept / (1.0 - kept))])
    beta = np.zeros(2)
    for _ in range(_STEPS):
        chance = 1.0 / (1.0 + np.exp(-np.clip(rows @ beta, -500.0, 500.0)))
        weight = chance * (1.0 - chance)
        step = np.linalg.solve(rows.T * weight @ rows + _RIDGE * np.eye(2), rows.T @ (right - chance))
        beta = beta + np.clip(step, -5.0, 5.0)
        if np.abs(step).max() < 1e-10:
            break
    return Line(float(beta[0]), float(beta[1]))


def bootstrap_lines(
    stated_frac: Array, right: Array, resamples_n: int, seed_n: int
) -> tuple[Interval, Interval] | None:
    """Return 95 % percentile intervals of intercept and slope; None where a line cannot be fitted at all.

    Units: resamples_n draws of whole cases with replacement.
    Valid: at least one resample.
    Raises: ValueError outside that.
    Source: Efron & Tibshirani 1993, An Introduction to the Bootstrap, chapter 13, percentile interval.
    """
    require_count("resamples_n", resamples_n, 1)
    _require_pairs(stated_frac, right)
    dice = np.random.default_rng(seed_n)
    lines = []
    for _ in range(resamples_n):
        drawn = dice.integers(0, len(right), len(right))
        line = calibration_line(stated_frac[drawn], right[drawn])
        if line is not None:
            lines.append(line)
    if not lines:
        return None
    low, high = np.percentile(np.array(lines), [2.5, 97.5], axis=0)
    return Interval(float(low[0]), float(high[0])), Interval(float(low[1]), float(high[1]))


def calibration_error(stated_frac: Array, right: Array, bins_n: int = 10) -> float:
    """Return the mean distance between stated chance and share right over equal bins, weighed by size, 0-1.

    Units: chances as fractions, right as 0 or 1.
    Valid: at least one bin; empty bins count nothing.
    Raises: ValueError outside that.
    Source: Naeini, Cooper & Hauskrecht 2015, AAAI 29, expected calibration error.
    """
    require_count("bins_n", bins_n, 1)
    _require_pairs(stated_frac, right)
    place = np.minimum((stated_frac * bins_n).astype(int), bins_n - 1)
    gaps = [abs(float((stated_frac - right)[place == b].sum())) for b in range(bins_n)]
    return sum(gaps) / len(right)


class Bin(NamedTuple):
    """Answers whose stated chance lay in one stretch, and how many of them were right."""

    from_frac: float
    to_frac: float
    of_n: int
    right_n: int
    stated_frac: float | None
    """Mean of the stated chances; None in an empty stretch."""


def reliability_bins(stated_frac: Array, right: Array, bins_n: int = 10) -> list[Bin]:
    """Return the answers sorted into equal stretches of the stated chance, the lowest first.

    Units: chances as fractions, right as 0 or 1.
    Valid: at least one bin; a chance of exactly 1 belongs to the last.
    Raises: ValueError outside that.
    Source: reliability diagram, Murphy & Winkler 1977, Applied Statistics 26:41 (from memory).
    """
    require_count("bins_n", bins_n, 1)
    _require_pairs(stated_frac, right)
    place = np.minimum((stated_frac * bins_n).astype(int), bins_n - 1)
    bins = []
    for b in range(bins_n):
        inside = place == b
        mean = float(stated_frac[inside].mean()) if inside.any() else None
        bins.append(Bin(b / bins_n, (b + 1) / bins_n, int(inside.sum()), int(right[inside].sum()), mean))
    return bins


def error_of_a_careful_answerer(stated_frac: Array, draws_n: int, seed_n: int, bins_n: int = 10) -> float:
    """Return the 95th percentile of the calibration error if every stated chance were exactly right.

    Units: draws_n sets of outcomes drawn from the stated chances.
    Valid: at least one draw.
    Raises: ValueError outside that.
    Source: simulation of the definition.
    """
    require_count("draws_n", draws_n, 1)
    dice = np.random.default_rng(seed_n)
    drawn = (dice.random((draws_n, len(stated_frac))) < stated_frac).astype(float)
    return float(np.percentile([calibration_error(stated_frac, row, bins_n) for row in drawn], 95.0))


def _require_pairs(stated_frac: Array, right: Array) -> None:
    if len(stated_frac) == 0 or stated_frac.shape != right.shape:
        raise ValueError(f"as many outcomes as chances are needed, at least one: {len(stated_frac)}, {len(right)}")
