"""How long a day lay beyond what a crop's flowers bear, by the limits its knowledge file gives."""

from collections.abc import Sequence
from dataclasses import dataclass

from scout.science.degree_days import hours_above_h, hours_below_h
from scout.science.spells import run_at_least

ABORT_C, ABORT_H, ABORT_DAYS_N = 39.4, 3.0, 2
"""Tomato: three hours at 103 °F on two days running (University of Maryland specialist, in a trade paper)."""


@dataclass(frozen=True)
class FlowerLimits:
    """What the flowers of a crop bear, °C; None where no limit is known."""

    day_max_c: float | None = None
    night_max_c: float | None = None
    night_min_c: float | None = None


@dataclass(frozen=True)
class FlowerDay:
    """How one day stood to the limits; None where limit or temperature is unknown."""

    hot_h: float | None
    """Hours above the limit of the day."""
    warm_night: bool | None
    cold_h: float | None
    """Hours below the limit of the night."""


def flower_day(tmax_c: float | None, tmin_c: float | None, limits: FlowerLimits) -> FlowerDay:
    """Return how a day stood to the limits of a crop's flowers.

    Units: tmax_c, tmin_c °C or None where not recorded.
    Valid: -60 ≤ tmin_c ≤ tmax_c ≤ 60. Hours are those of a day shaped like one sine wave, an estimate.
    Raises: ValueError outside that.
    Source: Baskerville & Emin 1969, Ecology 50:514-517, for the shape; the limits come with the crop.
    """
    hot = cold = None
    if tmax_c is not None and tmin_c is not None:
        hot = None if limits.day_max_c is None else hours_above_h(tmin_c, tmax_c, limits.day_max_c)
        cold = None if limits.night_min_c is None else hours_below_h(tmin_c, tmax_c, limits.night_min_c)
    warm = None if tmin_c is None or limits.night_max_c is None else tmin_c >= limits.night_max_c
    return FlowerDay(hot, warm, cold)


def tomato_flowers_abort(hot_h: Sequence[float | None]) -> bool | None:
    """Return whether tomato flowers were lost to fierce heat; None where missing days could change the answer.

    Units: hot_h hours above ABORT_C of each day in order, None where unknown.
    Valid: tomato alone.
    Raises: ValueError for a value that is not a number.
    Source: ABORT_C.
    """
    return run_at_least(hot_h, ABORT_H, ABORT_DAYS_N)
