"""Gaps that are coming: heat in which flowers failed, the weeks with little to pick, and when flowers set again."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from scout.diagnosis.conditions import records_until
from scout.diagnosis.evidence import Day
from scout.diagnosis.fruit import Pace, pace_of, picking_of
from scout.knowledge.crop_file import Crop
from scout.science.windows import Window

SPELL_D = 3
"""Days in a row, one cooler day between them allowed, that count as "several days" of heat. Our choice."""
STILL_D = 2
"""A spell whose last day is so many days ago or fewer may not be over. Our choice."""
_RECOVERS_D = (5.0, 10.0)


@dataclass(frozen=True)
class Gap:
    """One spell of heat and what follows from it."""

    crop: Crop
    spell: Window
    over: bool
    """False: the heat was still there at the last record; what follows has no end yet."""
    picking: Window
    """Days with little or nothing to pick, for fruit of the usual age."""
    give_or_take_d: int
    """How much earlier or later, as kinds and fruit differ in age."""
    sets_again: Window
    """Days within which new flowers set as usual, once the heat is over."""
    fruit_again: date
    """First day on which fruit of those flowers can be of picking size."""


def gaps(crop: Crop, on: date, days: Sequence[Day]) -> tuple[Gap, ...]:
    """Return the gaps that are ahead or going on, soonest first; forecasts tell nothing."""
    span = crop.flower_to_pick_d
    if span is None or crop.fruit_set is None:
        return ()
    records = records_until(on, days)
    pace = pace_of(crop, on, records)
    found = [_gap(crop, spell, on, pace, span) for spell in hot_spells(crop, [records[day] for day in sorted(records)])]
    ahead = [gap for gap in found if gap.picking.last + timedelta(days=gap.give_or_take_d) >= on]
    return tuple(sorted(ahead, key=lambda gap: gap.picking.first))


def hot_spells(crop: Crop, days: Sequence[Day]) -> list[Window]:
    """Return the spells in which it was hotter, by day or by night, than the crop's flowers bear."""
    spells: list[Window] = []
    lengths: list[int] = []
    for day in days:
        if not _hot(crop, day):
            continue
        if spells and (day.on - spells[-1].last).days <= 2:
            spells[-1] = Window(spells[-1].first, day.on)
            lengths[-1] += 1
        else:
            spells.append(Window(day.on, day.on))
            lengths.append(1)
    return [spell for spell, length in zip(spells, lengths, strict=True) if length >= SPELL_D]


def _hot(crop: Crop, day: Day) -> bool:
    limits = crop.fruit_set
    if limits is None:
        return False
    by_day = limits.day_max_c is not None and day.tmax_c is not None and day.tmax_c >= limits.day_max_c
    by_night = limits.night_max_c is not None and day.tmin_c is not None and day.tmin_c >= limits.night_max_c
    return by_day or by_night


def _gap(crop: Crop, spell: Window, on: date, pace: Pace, span: tuple[float, float]) -> Gap:
    recovers = (crop.growth.recovers_d if crop.growth else None) or _RECOVERS_D
    again = Window(spell.last + timedelta(days=round(recovers[0])), spell.last + timedelta(days=round(recovers[1])))
    begins = _usual_pick(crop, spell.first, pace)
    ends = _usual_pick(crop, again.first, pace)
    earliest = picking_of(crop, again.first, pace)
    assert earliest is not None
    return Gap(
        crop=crop,
        spell=spell,
        over=(on - spell.last).days > STILL_D,
        picking=Window(begins, ends),
        give_or_take_d=round((span[1] - span[0]) / 2 / pace.usual),
        sets_again=again,
        fruit_again=earliest.first,
    )


def _usual_pick(crop: Crop, flower: date, pace: Pace) -> date:
    """Return the middle of the days on which fruit of this flower is picked."""
    window = picking_of(crop, flower, pace)
    assert window is not None
    return window.first + (window.last - window.first) // 2
