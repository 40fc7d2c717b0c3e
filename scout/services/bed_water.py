"""Water in the soil of each bed and tub, reckoned from rain, heat and the watering log; else why it is not known."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Literal

from scout.diagnosis.evidence import Day
from scout.services.context import Context
from scout.services.garden import Planted, planted
from scout.services.site import latitude_of

if TYPE_CHECKING:
    from scout.store.records import WateringView

BACK_D = 45
"""So far back the account begins; a filling on the way makes it known."""
State = Literal["enough", "going", "short", "unknown"]


@dataclass(frozen=True)
class BedWater:
    """The soil under one planting. An estimate: no sensor, no finger."""

    bed: str
    label: str
    kind: str
    state: State
    share: float | None
    """Share of the water within reach that is left, 0-1."""
    left_mm: float | None
    holds_mm: float
    easy_share: float
    """Below this share the crop feels the lack, on a day that asks for 5 mm."""
    on: date | None
    """The day whose end is told."""
    watered_on: date | None
    """The last noted watering."""
    why_not: str | None


@dataclass(frozen=True)
class _Known:
    """What is read once for all beds."""

    today: date
    days: tuple[Day, ...]
    noted: "tuple[WateringView, ...]"
    latitude_deg: float | None


def bed_waters(context: Context) -> tuple[BedWater, ...]:
    """Return the water of every planting in walking order."""
    known = _known(context)
    return tuple(_told(plant, known) for plant in planted(context))


def soil_of_beds(context: Context) -> list[dict[date, float]]:
    """Return, for every planting, the filled share of each day on which it is known."""
    from scout.services.weather_features import noted_of, soil_shares

    known = _known(context)
    return [
        soil_shares(known.days, noted_of(plant, known.noted), plant, known.latitude_deg) for plant in planted(context)
    ]


def _known(context: Context) -> _Known:
    from scout.services.weather import days_between
    from scout.services.weather_features import waterings

    first = context.today - timedelta(days=BACK_D)
    days = days_between(context, first, context.today)
    return _Known(context.today, days, waterings(context, first, context.today), latitude_of(context))


def _told(plant: Planted, known: _Known) -> BedWater:
    from scout.services.crop_water import crop_water
    from scout.services.weather_features import noted_of, soil_shares

    water = crop_water(plant)
    noted = noted_of(plant, known.noted)
    shares = soil_shares(known.days, noted, plant, known.latitude_deg)
    filled = max((on for on, outcome in noted if outcome == "watered"), default=None)
    on = max(shares, default=None)
    fresh = on is not None and on >= known.today - timedelta(days=1)
    share = shares[on] if on is not None and fresh else None
    easy = 1.0 - water.store.easy_frac
    return BedWater(
        bed=plant.bed,
        label=plant.label,
        kind=plant.bed_kind,
        state=_state(share, easy),
        share=None if share is None else round(share, 2),
        left_mm=None if share is None else round(share * water.store.total_mm, 1),
        holds_mm=round(water.store.total_mm, 1),
        easy_share=round(easy, 2),
        on=on if fresh else None,
        watered_on=None if filled is None else date.fromisoformat(filled),
        why_not=None if share is not None else _why_not(known, bool(noted)),
    )


def _state(share: float | None, easy_share: float) -> State:
    if share is None:
        return "unknown"
    if share < easy_share:
        return "short"
    return "going" if share < (1.0 + easy_share) / 2.0 else "enough"


def _why_not(known: _Known, noted: bool) -> str:
    if known.latitude_deg is None:
        return "the garden's latitude is not set (a whole degree is enough)"
    if not noted:
        return "nobody noted water there in the last weeks (note it at a stop)"
    yesterday = known.today - timedelta(days=1)
    last = {day.on: day for day in known.days}.get(yesterday)
    if last is None or last.tmax_c is None or last.tmin_c is None or last.rain_mm is None:
        return "yesterday's high, low or rain is missing"
    if _frozen(last):
        return "near freezing the account does not hold"
    return "since the last gap in the records no watering or soaking rain was noted"


def _frozen(day: Day) -> bool:
    from scout.services.weather_features import thawed

    return not thawed(day)
