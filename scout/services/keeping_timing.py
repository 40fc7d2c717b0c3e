"""How long leaves infected earlier can still turn, and when the next stripping is due: the disease's own times."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from typing import TYPE_CHECKING

from scout.knowledge.cause_file import Cause
from scout.services.keeping_followed import Followed

if TYPE_CHECKING:
    from scout.science.keeping_up import Plant
    from scout.science.new_leaves import LeftUnstripped

FALLBACK_INCUBATION_D = 7.0
"""Where no disease is named, or nothing is known of it: as long as early blight takes at most (institute pages)."""
_LOOK_AHEAD_D = 60


@dataclass(frozen=True)
class OldInfections:
    """Until when leaves infected before the last stripping can still show spots."""

    stripped_on: date
    until: date
    days: float
    usual_days: float
    """The longest published time at the temperatures it was told for."""
    days_known: int
    """Days of that time with a recorded temperature."""
    mean_c: float | None


def incubation_d(causes: Sequence[Cause]) -> float:
    """Return the longest time from infection to spot among the diseases."""
    known = [cause.incubation_d[1] for cause in causes if cause.incubation_d is not None]
    return max(known, default=FALLBACK_INCUBATION_D)


def spots_show_after_d(followed: Followed, infected_on: date) -> float:
    """Return the days until leaves infected on a day have shown their spots, at the recorded temperatures.

    The slowest of the named diseases counts; where temperature or its effect is unknown, its longest published time.
    """
    from scout.science.incubation import spots_by_d

    days = [followed.warmth.get(infected_on + timedelta(days=n)) for n in range(_LOOK_AHEAD_D)]
    found = [
        spots_by_d(days, cause.incubation_d[1], cause.warmth.told_c, cause.warmth.limits_c)
        for cause in followed.causes
        if cause.incubation_d is not None and cause.warmth is not None
    ]
    return min(60.0, max([*found, incubation_d(followed.causes)]))


def old_infections(followed: Followed, stripped_on: date | None) -> OldInfections | None:
    """Return until when leaves infected before the last stripping can still turn; None: nothing was stripped."""
    if stripped_on is None:
        return None
    days = spots_show_after_d(followed, stripped_on)
    passed = [stripped_on + timedelta(days=n) for n in range(ceil(days))]
    known = [followed.warmth[day] for day in passed if day in followed.warmth]
    if all(cause.warmth is None for cause in followed.causes):
        known = []
    return OldInfections(
        stripped_on,
        stripped_on + timedelta(days=ceil(days)),
        days,
        incubation_d(followed.causes),
        len(known),
        sum(known) / len(known) if known else None,
    )


def windows(causes: Sequence[Cause]) -> list[tuple[float, float]]:
    """Return infection to spot and to spores for each disease, at both ends of what is known."""
    pairs = [(c.incubation_d, c.latent_d) for c in causes if c.incubation_d is not None and c.latent_d is not None]
    return [(spot, max(spot, spores)) for spots, latent in pairs for spot, spores in zip(spots, latent, strict=True)]


def may_compare(followed: Followed) -> bool:
    """Return whether plants may be left unstripped here: every named disease allows it, and one is named."""
    return bool(followed.causes) and all(cause.may_stay_unstripped for cause in followed.causes)


def left_unstripped(
    followed: Followed, stripped: "Sequence[Plant]", left: "Sequence[Plant]", wait_d: float
) -> "LeftUnstripped | None":
    """Return the comparison with plants left unstripped; None where there is none, or it is not allowed here."""
    from scout.science.new_leaves import left_unstripped_compared

    if not left or not may_compare(followed):
        return None
    return left_unstripped_compared(stripped, left, wait_d)
