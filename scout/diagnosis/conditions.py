"""What the weather did, condition by condition, as knowledge/conditions.toml declares it: true, false or unknown."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from scout.diagnosis.evidence import Day
from scout.diagnosis.fruit import flowering_of, pace_of
from scout.knowledge.base import Knowledge
from scout.knowledge.crop_file import Crop
from scout.knowledge.growth import SizeId
from scout.knowledge.vocabulary import Condition
from scout.science import spells
from scout.science.windows import Window, bud_window, last_n_days


def conditions_on(
    knowledge: Knowledge, crop: str, on: date, days: Sequence[Day], size: SizeId | None = None
) -> dict[str, bool | None]:
    """Return every declared condition for the crop on that day; None where records are missing.

    Forecast days and days after `on` are left out: a forecast never serves as a record. `size` of the odd fruit
    tells how long ago it flowered; None: it is taken to be of picking size.
    """
    records = records_until(on, days)
    plant = knowledge.crops[crop]
    flowering = flowering_of(plant, on, pace_of(plant, on, records), size)
    return {key: _holds(condition, plant, on, flowering, records) for key, condition in knowledge.conditions.items()}


def records_until(on: date, days: Sequence[Day]) -> dict[date, Day]:
    """Return the recorded days up to `on`, by day."""
    return {day.on: day for day in days if not day.forecast and day.on <= on}


def window_of(condition: Condition, crop: Crop, on: date, flowering: Window | None) -> Window | None:
    """Return the days a condition looks at; None where the crop has no such window."""
    if condition.window.startswith("last_"):
        return last_n_days(on, int(condition.window.removeprefix("last_")))
    if flowering is None or condition.window == "flowering":
        return flowering
    if condition.window == "filling":
        return Window(flowering.first, on)
    if condition.window == "young":
        return _young(crop, flowering, on)
    if condition.bud_days is not None:
        most, least = condition.bud_days
        return Window(flowering.first - timedelta(days=most), flowering.last - timedelta(days=least))
    return bud_window(flowering, crop.fruit_set.before_flower_d if crop.fruit_set else 10)


def _young(crop: Crop, flowering: Window, on: date) -> Window:
    """Return the days on which the fruit can have been of the age at which its end is starved; else all since."""
    age = crop.growth.young_d if crop.growth else None
    if age is None:
        return Window(flowering.first, on)
    first = flowering.first + timedelta(days=int(age[0]))
    return Window(min(first, on), min(flowering.last + timedelta(days=int(age[1])), on))


def season_on(knowledge: Knowledge, on: date, last_frost: str | None, first_frost: str | None) -> str | None:
    """Return the part of the season by the site's own frost dates ("MM-DD"); None when one is missing.

    A first frost that comes before the last frost in the calendar is a southern garden's: years wrap.
    """
    early, late = knowledge.seasons.get("early"), knowledge.seasons.get("late")
    if not (last_frost and first_frost and early and late):
        return None
    begins = _before(on, last_frost)
    ends = _after(begins, first_frost)
    if (on - begins).days <= (early.days_after_last_frost or 0):
        return "early"
    return "late" if (ends - on).days <= (late.days_before_first_frost or 0) else "high"


def _before(on: date, month_day: str) -> date:
    this_year = _dated(on.year, month_day)
    return this_year if this_year <= on + timedelta(days=60) else _dated(on.year - 1, month_day)


def _after(begins: date, month_day: str) -> date:
    this_year = _dated(begins.year, month_day)
    return this_year if this_year > begins else _dated(begins.year + 1, month_day)


def _dated(year: int, month_day: str) -> date:
    month, day = (int(part) for part in month_day.split("-"))
    return date(year, month, min(day, 28) if month == 2 else day)


def _holds(
    condition: Condition, crop: Crop, on: date, flowering: Window | None, records: Mapping[date, Day]
) -> bool | None:
    window = window_of(condition, crop, on, flowering)
    limit = limit_of(condition, crop)
    if window is None or limit is None:
        return None
    values = [value_of(records.get(day), condition.feature) for day in window.days()]
    if condition.test == "days_at_least":
        return spells.days_at_least(values, limit, condition.min_days)
    if condition.test == "days_at_most":
        return spells.days_at_most(values, limit, condition.min_days)
    if condition.test == "run_at_least":
        return spells.run_at_least(values, limit, condition.min_days)
    if condition.test == "sum_at_least":
        return spells.sum_at_least(values, limit)
    if condition.test == "sum_at_most":
        return spells.sum_at_most(values, limit)
    if condition.test == "swing":
        return spells.swings(values, limit)
    return spells.dry_then_wet(values, limit, condition.min_days)


def limit_of(condition: Condition, crop: Crop) -> float | None:
    """Return the value a day is held against: the condition's own, or the crop's; None where the crop has none."""
    if condition.crop_limit is None:
        return condition.threshold
    return getattr(crop.fruit_set, condition.crop_limit, None) if crop.fruit_set else None


def value_of(day: Day | None, feature: str) -> float | None:
    """Return one feature of a day as a number; None where it was not recorded."""
    value = getattr(day, feature, None) if day else None
    return None if value is None else float(value)
