"""What the weather since the last visit asks to be looked at, with the day from which something can be seen."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from scout.diagnosis.due import STAKES, Reason
from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause
from scout.knowledge.crop_file import Crop
from scout.knowledge.schema import StageId
from scout.plain import day_text

WET_NIGHTS_N = 3
"""Wet nights since the last visit that ask for a look; two belong to any summer week. Our choice."""
SEVERITY_N = 8
"""Severity values for tomato leaf spots since the last visit: two days at the top of the scale of 0 to 4. Our choice;
the 15 to 20 of the growers' bulletins are a week and more between sprays and no order for a garden."""
DOWNY_NIGHTS_N = 2
"""Nights fit for downy mildew since the last visit: it needs one, and one may have been misjudged. Our choice."""
HOT_DAYS_N = 3
HOT_C = 33.0
"""A hot day for a crop whose flowers have no known limit. Our choice, as in knowledge/conditions.toml."""
TUB_HOT_C = 32.0
"""A tub may be dry by noon on such a day. Common practice, no source."""
TUB_MUST_C = 35.0
QUICK_FRUIT_D, QUICK_HOT_C, QUICK_HOT_DAYS_N = 20, 32.0, 2
"""Fruit picked within three weeks of its flower, and the hot days that hurry it. Common practice, no source: in hot
weeks such crops are gone over every day or every second day."""
INCUBATION_D = 5
"""Days from infection to the first spots where the knowledge has no figure. Our choice."""
_WET_CLUES = frozenset({"wet_leaves_lately", "wet_mornings_lately", "wet_nights_lately", "rainy_fortnight"})
_OFTEN = frozenset({"almost_always", "usually", "often"})
_DOWNY = "downy_mildew_cucurbit"
"""The rule of downy nights was made on cucumber leaves; it is told of the gourd family's own downy mildew alone."""
_LEAF_SPOT_CROPS = frozenset({"tomato"})
"""The severity table was made for early blight and Septoria on tomato and says nothing of other crops."""


@dataclass(frozen=True)
class RiskDay:
    """One day and the night that led into it; None where nothing is known."""

    on: date
    wet_night: bool | None = None
    leaf_spot_n: int | None = None
    """How favourable for tomato leaf spots, 0 to 4."""
    downy_night: bool | None = None
    tmax_c: float | None = None
    forecast: bool = False
    """A forecast is no record: it speaks only of the water in tubs on the day itself."""


@dataclass(frozen=True)
class CropRisk:
    """What wet weather brings to one crop."""

    crop: Crop
    wet: Cause | None
    """The leaf disease of wet weather that shows soonest."""
    downy: Cause | None
    where: str
    """Where to look, such as "lower tomato leaves"."""


def crop_risk(knowledge: Knowledge, crop: Crop) -> CropRisk:
    """Return which of the crop's causes wet nights bring; draft or not, but never a rare one."""
    wet = [cause for cause in knowledge.causes.values() if _wet_disease(cause, crop)]
    downy = next((cause for cause in wet if cause.id == _DOWNY), None)
    soonest = min(wet, key=lambda cause: (incubation_d(cause), cause.id), default=None)
    return CropRisk(crop, soonest, downy, _where(crop))


def _wet_disease(cause: Cause, crop: Crop) -> bool:
    if cause.kind not in ("fungal", "oomycete", "bacterial") or cause.contagion not in ("splash", "air"):
        return False
    if cause.status == "retired" or cause.common.get(crop.id, "rare") not in ("very_common", "common", "occasional"):
        return False
    clues = (c for c in cause.clues if c.condition in _WET_CLUES and (not c.crops or crop.id in c.crops))
    return cause.stake != "none" and any(clue.how_often in _OFTEN for clue in clues)


def _where(crop: Crop) -> str:
    name, low = crop.name.lower(), "lower " if any(look.place == "lowest_leaves" for look in crop.looks) else ""
    return f"{low}{name} leaves" if name.isalpha() else f"{low}leaves of {name}"


def incubation_d(cause: Cause) -> int:
    """Return the days from infection to the first symptom at the quickest, else our stated default."""
    return max(1, int(cause.incubation_d[0])) if cause.incubation_d is not None else INCUBATION_D


def weather_reasons(risk: CropRisk, days: Sequence[RiskDay], last: date, stage: StageId | None) -> list[Reason]:
    """Return what the recorded weather since the last visit asks for, dated by when something can be seen.

    Each holds once enough nights are on record; nights without a record count as nothing.
    """
    since = [day for day in days if day.on > last and not day.forecast]
    found: list[Reason] = []
    if risk.downy is not None:
        nights = [day.on for day in since if day.downy_night]
        told = _Told(len(nights), "downy mildew night", last, f"undersides of {risk.crop.name.lower()} leaves")
        found += _from_nights(nights, DOWNY_NIGHTS_N, risk.downy, told)
    if risk.wet is not None and stage != "seedling" and not (found and risk.wet is risk.downy):
        nights = [day.on for day in since if day.wet_night]
        found += _from_nights(nights, WET_NIGHTS_N, risk.wet, _Told(len(nights), "wet night", last, risk.where))
        found += _leaf_spot(risk, since, last)
    return found


@dataclass(frozen=True)
class _Told:
    """What happened how often since the last visit, and where to look."""

    times_n: int
    what: str
    last: date
    where: str

    def why(self, newest: date) -> str:
        return f"{_counted(self.times_n, self.what)} since {_since(self.last, newest)}: {self.where}"

    @property
    def alert(self) -> str:
        return f"{self.what.capitalize()}s"


def _from_nights(nights: list[date], least_n: int, cause: Cause, told: _Told) -> list[Reason]:
    if len(nights) < least_n:
        return []
    shows = incubation_d(cause)
    on = max(nights[least_n - 1], nights[0] + timedelta(days=shows))
    return [Reason(on, told.why(nights[-1]), "weather", STAKES[cause.stake], 1.5, shows, alert=told.alert)]


def _leaf_spot(risk: CropRisk, since: list[RiskDay], last: date) -> list[Reason]:
    """Return the look asked for by severity values, on the day their sum reaches the limit or spots can show."""
    if risk.crop.id not in _LEAF_SPOT_CROPS or risk.wet is None:
        return []
    total, first = 0, None
    for day in since:
        if not day.leaf_spot_n:
            continue
        total, first = total + day.leaf_spot_n, first or day.on
        if total >= SEVERITY_N:
            on = max(day.on, first + timedelta(days=incubation_d(risk.wet)))
            why = f"warm and wet enough for leaf spots since {_since(last, on)}: {risk.where}"
            return [Reason(on, why, "weather", STAKES[risk.wet.stake], 1.5, incubation_d(risk.wet))]
    return []


def heat_reasons(
    crop: Crop, stage: StageId | None, days: Sequence[RiskDay], last: date, on: date, *, in_tub: bool
) -> list[Reason]:
    """Return what heat asks for: flowers and fruit after hot days on record, the water of a tub on a hot day."""
    limit = crop.fruit_set.day_max_c if crop.fruit_set and crop.fruit_set.day_max_c is not None else HOT_C
    hot = [d.on for d in days if d.on > last and not d.forecast and d.tmax_c is not None and d.tmax_c >= limit]
    found: list[Reason] = []
    if stage in ("flowering", "fruiting") and crop.flower_to_pick_d is not None and len(hot) >= HOT_DAYS_N:
        why = f"{_counted(len(hot), 'hot day')} since {_since(last, hot[-1])}: flowers, and fruit on the sun side"
        found.append(Reason(hot[HOT_DAYS_N - 1], why, "heat", 1.5, 1.0, HOT_DAYS_N))
    found += _sooner_pick(crop, stage, days, last)
    today = max((d.tmax_c for d in days if d.on == on and d.tmax_c is not None), default=None)
    if in_tub and today is not None and today >= TUB_HOT_C and last < on:
        why = "hot today: a tub can be dry by noon"
        found.append(Reason(on, why, "heat", 2.0, 1.0, 1, must=today >= TUB_MUST_C))
    return found


def _sooner_pick(crop: Crop, stage: StageId | None, days: Sequence[RiskDay], last: date) -> list[Reason]:
    """Return a pick a day sooner where two hot days hurried fruit that ripens within weeks of its flower."""
    every, ripens = crop.pick_every_d, crop.flower_to_pick_d
    if (
        stage not in ("fruiting", "finishing")
        or every is None
        or every < 2
        or ripens is None
        or ripens[1] > QUICK_FRUIT_D
    ):
        return []
    hot = [d.on for d in days if d.on > last and not d.forecast and d.tmax_c is not None and d.tmax_c >= QUICK_HOT_C]
    if len(hot) < QUICK_HOT_DAYS_N:
        return []
    on = max(hot[QUICK_HOT_DAYS_N - 1], last + timedelta(days=every - 1))
    return [Reason(on, "picking, a day sooner in the heat", "picking", 1.5, 1.0, every)]


def _since(last: date, newest: date) -> str:
    """Return the day of the last visit as a weekday, or with its date where a weekday would be read wrongly."""
    return f"{last:%A}" if (newest - last).days < 6 else day_text(last)


_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def _counted(number: int, noun: str) -> str:
    word = _NUMBERS[number] if number < len(_NUMBERS) else str(number)
    return f"{word} {noun}" if number == 1 else f"{word} {noun}s"
