"""When the fruit in the hand was in flower: from crop, size and the temperature of the days since."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from scout.diagnosis.evidence import Day
from scout.knowledge.crop_file import Crop
from scout.knowledge.growth import FruitAge, SizeId
from scout.science.fruit_pace import flowering_by_pace, pace_per_d, picking_by_pace
from scout.science.windows import Window, flowering_window, picking_window

SIZES: tuple[SizeId, ...] = ("fruit_small", "fruit_half", "fruit_full", "fruit_ripe")
LATELY_D = 14
"""Days whose mean pace stands for days without a record, and for those to come. Our choice."""
NARROWER_D = 2
"""A size is asked for where it takes at least so many days off the window, or moves it by as many. Our choice."""
_SLOWEST = 0.1
"""A pace below this would stretch the days to come without end; so cold a crop is at its end. Our choice."""


@dataclass(frozen=True)
class Pace:
    """How much each day counted for growth, in days at the temperature the crop's ages are told for."""

    by_day: Mapping[date, float]
    usual: float
    """For a day without a record, and for days to come."""
    known: bool
    """False: the crop's growth is not known, or the temperature on fewer than half of the days before, and every day
    counts for one."""


def size_given(circumstances: Mapping[str, bool]) -> SizeId | None:
    """Return the size of the odd fruit among what is known of a planting; None where nobody said."""
    return next((size for size in SIZES if circumstances.get(size)), None)


def pace_of(crop: Crop, on: date, records: Mapping[date, Day]) -> Pace:
    """Return the pace of the crop's fruit on each day with a record of high and low."""
    growth = crop.growth
    if growth is None:
        return Pace({}, 1.0, False)
    told = {}
    for day in records.values():
        if day.tmax_c is not None and day.tmin_c is not None:
            mean = (day.tmax_c + day.tmin_c) / 2
            told[day.on] = pace_per_d(mean, growth.at_c, growth.base_c, growth.points)
    before = [on - timedelta(days=back) for back in range(1, LATELY_D + 1)]
    lately = [told[one] for one in before if one in told]
    usual = sum(lately) / len(lately) if lately else 1.0
    return Pace(told, max(usual, _SLOWEST), len(lately) >= LATELY_D // 2)


def age_of(crop: Crop, size: SizeId | None) -> tuple[float, float] | None:
    """Return least and most age of the fruit in days at the crop's own temperature; of picking size where not said."""
    found = next((one for one in sizes_of(crop) if one.size == size), None)
    return found.age_d if found else crop.flower_to_pick_d


def sizes_of(crop: Crop) -> tuple[FruitAge, ...]:
    """Return the sizes a grower can name for this crop."""
    return crop.growth.sizes if crop.growth else ()


def size_by_length(crop: Crop, length_cm: float) -> FruitAge | None:
    """Return the size a fruit of this length has; None where this crop's size is told by eye alone."""
    by_length = [one for one in sizes_of(crop) if one.size != "fruit_ripe"]
    if not any(one.up_to_cm for one in by_length):
        return None
    return next((one for one in by_length if one.up_to_cm is None or length_cm <= one.up_to_cm), by_length[-1])


def flowering_of(crop: Crop, on: date, pace: Pace, size: SizeId | None = None) -> Window | None:
    """Return the days on which the fruit in the hand can have been in flower; None where nothing grew from one."""
    age = age_of(crop, size)
    if age is None:
        return None
    return flowering_by_pace(on, age, pace.by_day, pace.usual) if pace.known else flowering_window(on, age)


def picking_of(crop: Crop, flower: date, pace: Pace) -> Window | None:
    """Return the days on which fruit of a flower of this day can be of picking size."""
    span = crop.flower_to_pick_d
    if span is None:
        return None
    if not pace.known:
        return picking_window(Window(flower, flower), span)
    return picking_by_pace(flower, span, pace.by_day, pace.usual)


def size_narrows(crop: Crop, on: date, pace: Pace) -> bool:
    """Return whether knowing the size would change which days made the fruit."""
    plain = flowering_of(crop, on, pace)
    if plain is None:
        return False
    by_size = [flowering_of(crop, on, pace, one.size) for one in sizes_of(crop)]
    return any(
        abs((window.first - plain.first).days) >= NARROWER_D or abs((window.last - plain.last).days) >= NARROWER_D
        for window in by_size
        if window is not None
    )


def days_back(crop: Crop) -> int:
    """Return how many days of weather reach back to the buds of the oldest fruit, in a cool season too."""
    ages = [age_of(crop, None), *(one.age_d for one in sizes_of(crop) if one.size != "fruit_ripe")]
    oldest = max((age[1] for age in ages if age), default=0.0)
    return round(oldest * 1.4) + 28 if oldest else 0
