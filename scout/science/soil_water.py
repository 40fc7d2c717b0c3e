"""Water in the root zone of a bed or tub, day by day, as a bucket; and how far it swung.

Formulas of FAO-56: Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage Paper 56, chapter 8.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from scout.science.limits import require_within


@dataclass(frozen=True)
class Store:
    """How much water the roots can reach, and from which share on the crop feels the lack."""

    total_mm: float
    """Water between full and the wilting point."""
    easy_frac: float
    """Share of it that is taken without stress at 5 mm/d."""
    follows_use: bool = True
    """Whether that share falls on days that ask for more, as it should; fixed to compare with printed balances."""


@dataclass(frozen=True)
class WaterDay:
    """What one day brought and asked for; `watered` fills the store, however much was given."""

    rain_mm: float
    crop_et_mm: float
    """What the crop would take if water were never short."""
    watered: bool = False
    irrigation_mm: float = 0.0
    """Water given by a known amount."""


@dataclass(frozen=True)
class Balance:
    """What one day did to the store."""

    stress_frac: float
    """Share of its usual water that the crop took, 1 without stress."""
    taken_mm: float
    drained_mm: float | None
    """Lost below the roots; None on a day watered by an unknown amount."""
    depletion_mm: float
    """Missing from full at the end of the day."""


def easy_share_frac(listed_frac: float, crop_et_mm: float) -> float:
    """Return the share taken without stress, for the day's water use.

    Units: listed_frac share at 5 mm/d, crop_et_mm mm/d; result share.
    Valid: kept within 0.1 to 0.8.
    Raises: ValueError for a negative water use or a share outside 0-1.
    Source: FAO-56, table 22, footnote.
    """
    require_within("listed_frac", listed_frac, 0.0, 1.0)
    require_within("crop_et_mm", crop_et_mm, 0.0, 30.0)
    return min(0.8, max(0.1, listed_frac + 0.04 * (5.0 - crop_et_mm)))


def stress_frac(depletion_mm: float, total_mm: float, easy_frac: float) -> float:
    """Return how much of its usual water a crop still takes, 1 without stress, 0 at the wilting point.

    Units: depletion_mm missing from full, total_mm, mm; easy_frac share; result 0-1.
    Valid: 0 ≤ depletion_mm ≤ total_mm, easy_frac below 1.
    Raises: ValueError outside that.
    Source: FAO-56, eq. 84.
    """
    require_within("total_mm", total_mm, 0.1, 2000.0)
    require_within("depletion_mm", depletion_mm, 0.0, total_mm)
    require_within("easy_frac", easy_frac, 0.0, 0.99)
    return min(1.0, (total_mm - depletion_mm) / ((1.0 - easy_frac) * total_mm))


def balances(store: Store, days: Sequence[WaterDay], depletion_mm: float = 0.0) -> list[Balance]:
    """Return what each day did to the store.

    Units: depletion_mm missing from full at the start, mm.
    Valid: depletion_mm within the store. Stress is that of the start of the day, after a watering; what rain and
    irrigation leave over after the crop took its share drains away. Runoff and rise from below are left out, so heavy
    rain on a slope is counted too high.
    Raises: ValueError outside that, or for a negative amount of water.
    Source: FAO-56, eqs 84, 85 and 88.
    """
    require_within("depletion_mm", depletion_mm, 0.0, store.total_mm)
    told = []
    for day in days:
        told.append(_balance(store, day, depletion_mm))
        depletion_mm = told[-1].depletion_mm
    return told


def _balance(store: Store, day: WaterDay, depletion_mm: float) -> Balance:
    require_within("rain_mm", day.rain_mm, 0.0, 2000.0)
    require_within("irrigation_mm", day.irrigation_mm, 0.0, 2000.0)
    share = easy_share_frac(store.easy_frac, day.crop_et_mm) if store.follows_use else store.easy_frac
    before = 0.0 if day.watered else depletion_mm
    stress = stress_frac(before, store.total_mm, share)
    taken = stress * day.crop_et_mm
    after = before - day.rain_mm - day.irrigation_mm + taken
    drained = None if day.watered else max(0.0, -after)
    return Balance(stress, taken, drained, min(store.total_mm, max(0.0, after)))


def swing_frac(shares_frac: Sequence[float]) -> float | None:
    """Return the widest rise or fall of the filled share within a stretch of days; None of no day.

    Units: shares 0-1; result 0-1.
    Valid: any number of days.
    Raises: nothing.
    Source: our choice: the span between the fullest and the emptiest day.
    """
    return max(shares_frac) - min(shares_frac) if shares_frac else None
