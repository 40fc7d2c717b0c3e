"""How much water the days left in the soil of a bed or tub, from rain, heat and the watering log; else unknown."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Day
from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.site import latitude_of

if TYPE_CHECKING:
    from scout.science.soil_water import Store
    from scout.services.crop_water import CropWater
    from scout.store.records import WateringView

LOGGED_WITHIN_D = 30
"""A bed whose water nobody noted for so long may have been watered unseen: nothing is told of its soil."""
CLOSE_ENOUGH_FRAC = 0.05
"""How far apart a soil that began full and one that began dry may still be for their middle to be told. Our choice."""
Noted = list[tuple[str, str]]
"""Day and outcome."""


def with_features(context: Context, plant: Planted, days: Sequence[Day]) -> tuple[Day, ...]:
    """Return the days with the soil water of the planting's bed filled in where the records allow it."""
    if not days:
        return ()
    noted = noted_of(plant, waterings(context, days[0].on, days[-1].on))
    told = soil_shares(days, noted, plant, latitude_of(context))
    return tuple(replace(day, soil_water=told.get(day.on)) for day in days) if told else tuple(days)


def soil_shares(days: Sequence[Day], noted: Noted, plant: Planted, latitude_deg: float | None) -> dict[date, float]:
    """Return the filled share of the planting's soil on each day on which it is known."""
    from scout.services.crop_water import crop_water

    if latitude_deg is None or not noted or not days:
        return {}
    return _soil_by_day(days, noted, crop_water(plant), latitude_deg)


def _soil_by_day(days: Sequence[Day], noted: Noted, crop: "CropWater", latitude_deg: float) -> dict[date, float]:
    """Return the filled share of each day on which it is known.

    Two accounts run side by side, one that began full and one that began dry; a filling or enough rain brings them
    together, a day without records tears them apart again.
    """
    store = crop.store
    watered = {on for on, outcome in noted if outcome == "watered"}
    heard = {on for on, _ in noted}
    unknown = (0.0, store.total_mm)
    told: dict[date, float] = {}
    lacks, before = unknown, days[0].on
    for day in days:
        if day.on - before > timedelta(days=1) or not _near_a_note(day.on, heard):
            lacks = unknown
        before = day.on
        use = _use_mm(day, crop, latitude_deg)
        if use is None or day.rain_mm is None:
            lacks = unknown
            continue
        lacks = _after(store, lacks, day.rain_mm, use, day.on.isoformat() in watered)
        if lacks[1] - lacks[0] <= CLOSE_ENOUGH_FRAC * store.total_mm:
            told[day.on] = 1.0 - (lacks[0] + lacks[1]) / 2.0 / store.total_mm
    return told


def _after(
    store: "Store", lacks: tuple[float, float], rain_mm: float, use_mm: float, watered: bool
) -> tuple[float, float]:
    from scout.science.soil_water import WaterDay, balances

    day = WaterDay(rain_mm, use_mm, watered)
    least, most = sorted(balances(store, [day], lack)[0].depletion_mm for lack in lacks)
    return least, most


def _use_mm(day: Day, crop: "CropWater", latitude_deg: float) -> float | None:
    from scout.science.evapotranspiration import reference_et_hargreaves_mm
    from scout.science.radiation import extraterrestrial_radiation_mj

    if day.tmax_c is None or day.tmin_c is None or not thawed(day):
        return None
    above = extraterrestrial_radiation_mj(latitude_deg, day.on.timetuple().tm_yday)
    return crop.factor(day.on) * reference_et_hargreaves_mm(max(day.tmax_c, day.tmin_c), day.tmin_c, above)


def thawed(day: Day) -> bool:
    """Return whether the account of soil water holds: it knows neither snow nor frozen ground (mean above 0 °C)."""
    return day.tmax_c is None or day.tmin_c is None or day.tmax_c + day.tmin_c > 0.0


def _near_a_note(on: date, noted: set[str]) -> bool:
    """Return whether somebody noted the water of this bed within the days before."""
    return any((on - timedelta(days=back)).isoformat() in noted for back in range(LOGGED_WITHIN_D + 1))


def waterings(context: Context, first: date, last: date) -> "tuple[WateringView, ...]":
    """Return what was noted of the garden's water, from so long before `first` on that it tells of that day."""
    from scout.store import records

    since = (first - timedelta(days=LOGGED_WITHIN_D)).isoformat()
    with context.read() as session:
        return records.waterings(session=session, garden_id=str(context.garden_id), since=since, until=last.isoformat())


def noted_of(plant: Planted, noted: "Sequence[WateringView]") -> Noted:
    """Return day and outcome of what was noted of this planting's bed: its own, its zone's, the whole garden's."""
    zone = plant.water_zone
    return [
        (one.observed_at[:10], one.outcome)
        for one in noted
        if one.bed_id == plant.bed_id
        or (one.bed_id is None and (one.water_zone is None or (zone is not None and one.water_zone == zone)))
    ]
