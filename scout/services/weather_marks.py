"""Two weeks of weather with what stands out: hot days, wet nights, swings of the soil; and what missing days hide."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from scout.plain import days_text
from scout.services.context import Context
from scout.services.weather import DayLineView

Mark = Literal["hot", "wet", "swing"]
SWING_D = 7
"""A swing of the soil is looked for within so many days."""


@dataclass(frozen=True)
class MarkedDay:
    """One day and what stands out."""

    day: DayLineView
    marks: tuple[Mark, ...]


@dataclass(frozen=True)
class Fortnight:
    """The last days, newest first, and what is not known of them."""

    days: tuple[MarkedDay, ...]
    hot_from_c: float
    wet_from_h: float
    lowered: tuple[str, ...]
    """What missing records take from what is told, as sentences."""


def fortnight(context: Context, days_n: int = 14) -> Fortnight:
    """Return the last days with their marks; the limits are those of the declared conditions."""
    from scout.services.weather import last_days

    known = context.knowledge.conditions
    hot_c = known["hot_days_lately"].threshold or 0.0
    wet_h = known["wet_nights_lately"].threshold or 0.0
    lines = last_days(context, days_n)
    swings, told_of_soil = _swings(context, {line.on for line in lines})
    days = tuple(MarkedDay(line, _marks(line, hot_c, wet_h, line.on in swings)) for line in lines)
    return Fortnight(days, hot_c, wet_h, tuple(_lowered(lines, context.today, told_of_soil)))


def _marks(line: DayLineView, hot_c: float, wet_h: float, swung: bool) -> tuple[Mark, ...]:
    found: list[Mark] = []
    if line.tmax_c is not None and line.tmax_c >= hot_c:
        found.append("hot")
    wet = line.wet_night_h if line.wet_night_h is not None else line.wet_h
    if wet is not None and wet >= wet_h:
        found.append("wet")
    if swung:
        found.append("swing")
    return tuple(found)


def _swings(context: Context, wanted: set[date]) -> tuple[set[date], bool]:
    """Return the days on which some bed's soil made a swing, and whether the soil of any bed is known at all."""
    from scout.science.soil_water import swing_frac
    from scout.services.bed_water import soil_of_beds

    limit = context.knowledge.conditions["water_swings_while_filling"].threshold or 1.0
    found: set[date] = set()
    accounts = soil_of_beds(context)
    for shares in accounts:
        for on in wanted & shares.keys():
            week = [shares[day] for back in range(SWING_D) if (day := on - timedelta(days=back)) in shares]
            swing = swing_frac(week)
            if swing is not None and swing >= limit and shares[on] in (min(week), max(week)):
                found.add(on)
    return found, any(accounts)


def _lowered(lines: Sequence[DayLineView], today: date, soil_known: bool) -> list[str]:
    over = [line for line in lines if line.on < today]
    missing = sum(line.basis is None for line in over)
    told = [line for line in over if line.basis is not None]
    said = []
    if missing:
        said.append(
            f"{missing} of {len(over)} days are missing: hot days, wet nights and sums of warmth may be more than "
            "shown, and the soil is not known again until the next filling."
        )
    dry = sum(line.rain_mm is None for line in told)
    if dry:
        said.append(f"No rain figure on {days_text(dry)}: dry spells and soil water are not told over them.")
    leaves = sum(line.wet_h is None and line.wet_night_h is None for line in told)
    if leaves:
        said.append(f"No wet hours on {days_text(leaves)}: a wet night would not show.")
    if not soil_known:
        said.append("Swings of the soil are not known: see Water in the beds.")
    return said
