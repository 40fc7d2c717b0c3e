"""How big the odd fruit is: given with one key or a length, kept a week, and asked only where it would tell more."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING

from scout.errors import BadInput
from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.site import site_of

if TYPE_CHECKING:
    from scout.diagnosis.evidence import Evidence
    from scout.knowledge.growth import FruitAge, SizeId

KEPT_D = 7
"""A fruit of last week is another fruit by now: as long as findings are of one bout."""
_LENGTH = re.compile(r"(?P<number>[0-9.,]+)\s*(?P<unit>cm|mm|in|inch|inches|\")?", re.IGNORECASE)


@dataclass(frozen=True)
class SizeRow:
    """One size to choose."""

    id: str
    text: str


def sizes_at(context: Context, stop_id: str) -> tuple[tuple[SizeRow, ...], str | None]:
    """Return the sizes to choose for the odd fruit of a stop, and an example of a length where one tells it too."""
    from scout.services.causes import plant_at

    plant = plant_at(context, stop_id)
    example = "5 inches" if site_of(context).units == "us" else "12 cm"
    return size_rows(context, plant), example if takes_length(plant) else None


def give_size(context: Context, stop_id: str, size: str) -> str:
    """Keep how big the odd fruit of a stop is: a size by its id, a word, or a length such as 12 cm."""
    from scout.services.causes import plant_at

    plant = plant_at(context, stop_id)
    known = {row.id for row in size_rows(context, plant)}
    return keep_size(context, plant, size) if size in known else keep_typed(context, plant, size)


def size_of(context: Context, plant: Planted) -> "SizeId | None":
    """Return the size of the odd fruit as given in the last week, or None."""
    from scout.diagnosis.fruit import SIZES
    from scout.store import plantings

    if plant.crop.growth is None:
        return None
    since = (context.today - timedelta(days=KEPT_D)).isoformat()
    with context.read() as session:
        name = plantings.newest_circumstance(
            session=session,
            planting_id=plant.planting_id,
            names=SIZES,
            since=since,
            until=context.today.isoformat(),
        )
    return next((size for size in SIZES if size == name), None)


def size_rows(context: Context, plant: Planted) -> tuple[SizeRow, ...]:
    """Return the sizes of this crop's fruit in the grower's units; empty where none is known."""
    from scout.diagnosis.fruit import sizes_of

    units = site_of(context).units
    sizes = sizes_of(plant.crop)
    return tuple(SizeRow(one.size, _text(one, sizes, units)) for one in sizes)


def takes_length(plant: Planted) -> bool:
    """Return whether a length tells the size of this crop's fruit."""
    from scout.diagnosis.fruit import sizes_of

    return any(one.up_to_cm for one in sizes_of(plant.crop))


def keep_size(context: Context, plant: Planted, size: str) -> str:
    """Keep the size of the odd fruit, and return it in words; undone in one step."""
    from scout.services.garden import set_circumstance

    row = next((one for one in size_rows(context, plant) if one.id == size), None)
    if row is None:
        raise BadInput(f"The size of {plant.crop.name.lower()} is not told like that.")
    before = size_of(context, plant)
    with context.write():
        if before is not None and before != size:
            set_circumstance(context, plant.planting_id, before, False)
        set_circumstance(context, plant.planting_id, size, True)
    return f"The odd fruit: {row.text}."


def keep_typed(context: Context, plant: Planted, text: str) -> str:
    """Keep a size given in words or as a length such as "12 cm", and return it in words."""
    word = text.strip().casefold()
    for row in size_rows(context, plant):
        if word and word == row.id.removeprefix("fruit_"):
            return keep_size(context, plant, row.id)
    return keep_size(context, plant, _by_length(context, plant, word).size)


def _by_length(context: Context, plant: Planted, word: str) -> "FruitAge":
    from scout.diagnosis.fruit import size_by_length
    from scout.intake.decimals import read_decimal
    from scout.science.units import mm_from_inch

    found = _LENGTH.fullmatch(word)
    if found is None or not takes_length(plant):
        length = " or a length such as 12 cm" if takes_length(plant) else ""
        raise BadInput(f"“{word[:24]}” is no size; say small, half, full or ripe{length}.")
    us = site_of(context).units == "us"
    number, unit = read_decimal(found["number"]), found["unit"] or ("in" if us else "cm")
    length_cm = {"cm": number, "mm": number / 10}.get(unit, mm_from_inch(number) / 10)
    size = size_by_length(plant.crop, length_cm)
    if size is None or not 0.1 <= length_cm <= 200:
        raise BadInput(f"{length_cm:.0f} cm is no length of a fruit.")
    return size


def size_question(context: Context, plant: Planted, evidence: "Evidence", causes: Sequence[str]) -> bool:
    """Return whether to ask for the size: an odd fruit was seen, nobody said, and it would move the days.

    Only where the weather of those days speaks of one of these causes.
    """
    from scout.diagnosis.backdate import asks_the_past
    from scout.diagnosis.conditions import records_until
    from scout.diagnosis.fruit import pace_of, size_narrows

    if evidence.size is not None or evidence.on is None or plant.crop.growth is None:
        return False
    if not any(symptom.startswith("fruit.") for symptom in evidence.seen):
        return False
    if not any(asks_the_past(context.knowledge, plant.crop, context.knowledge.causes[key]) for key in causes):
        return False
    pace = pace_of(plant.crop, evidence.on, records_until(evidence.on, evidence.days))
    return size_narrows(plant.crop, evidence.on, pace)


def _text(one: "FruitAge", sizes: "tuple[FruitAge, ...]", units: str) -> str:
    below = max((s.up_to_cm for s in sizes if s.up_to_cm), default=None)
    if one.up_to_cm is not None:
        return f"{one.name}, up to {_length(one.up_to_cm, units)}"
    return f"{one.name}, over {_length(below, units)}" if below and one.size == "fruit_full" else one.name


def _length(length_cm: float, units: str) -> str:
    from scout.science.units import inch_from_mm

    return f"{inch_from_mm(length_cm * 10):.0f} inches" if units == "us" else f"{length_cm:g} cm"
