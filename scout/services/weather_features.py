"""What the days did to leaves, bees and soil, worked out where nobody measured it; missing records stay missing."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Day
from scout.services.context import Context
from scout.services.garden import Planted, latitude_of

if TYPE_CHECKING:
    from scout.store.weather import HourView

WHOLE_DAY_H = 20
"""Hours with records from which a day's wet hours are told. Our choice."""
BEE_MORNING_H = (6, 12)
"""Cucumber and squash flowers are open for bees from early morning to noon."""
BED_MM, TUB_MM = 75.0, 25.0
"""Water within reach of the roots when full: half a metre of garden loam, and a tub. Our choice."""
EASY_FRAC = 0.40
CROP_FACTOR = 1.05
"""A full crop uses a little more than grass; FAO-56 table 12 gives 1.0-1.15 for most vegetables at full leaf."""
LOGGED_WITHIN_D = 30
"""A bed whose water nobody noted for so long may have been watered unseen: nothing is told of its soil."""


def with_features(context: Context, plant: Planted, days: Sequence[Day]) -> tuple[Day, ...]:
    """Return the days with wet hours, bee hours and soil water filled in where the records allow it."""
    if not days:
        return ()
    return _with_soil_water(context, plant, _with_hours(context, days))


def _with_hours(context: Context, days: Sequence[Day]) -> list[Day]:
    hours = _hours_by_day(context, days[0].on, days[-1].on)
    return [_from_hours(day, hours[day.on.isoformat()]) if day.on.isoformat() in hours else day for day in days]


def _hours_by_day(context: Context, first: date, last: date) -> "dict[str, list[HourView]]":
    """Return the hours of the first station that has any, by day."""
    from scout.store import weather

    garden = str(context.garden_id)
    by_day: dict[str, list[HourView]] = defaultdict(list)
    with context.read() as session:
        for station in weather.stations(session=session, garden_id=garden):
            found = weather.hours(
                session=session, garden_id=garden, station=station, since=first.isoformat(), until=last.isoformat()
            )
            for hour in found:
                by_day[hour.at[:10]].append(hour)
            if found:
                break
    return dict(by_day)


def _from_hours(day: Day, hours: "list[HourView]") -> Day:
    from scout.science.leaf_wetness import fit_for_bees, wet_hours_h

    known = [(h.temp_c, h.rh_pct, h.rain_mm) for h in hours if h.temp_c is not None and h.rh_pct is not None]
    wet = day.wet_h
    if wet is None and len(known) >= WHOLE_DAY_H:
        wet = float(wet_hours_h([k[0] for k in known], [k[1] for k in known], [k[2] for k in known])[0])
    first, last = BEE_MORNING_H
    morning = [h for h in hours if first <= int(h.at[11:13]) < last and h.temp_c is not None]
    bees = None
    if len(morning) == last - first:
        bees = float(sum(fit_for_bees(h.temp_c, h.rain_mm, h.wind_ms) for h in morning if h.temp_c is not None))
    return replace(day, wet_h=wet, bee_hours_h=bees)


def _with_soil_water(context: Context, plant: Planted, days: list[Day]) -> tuple[Day, ...]:
    from scout.science.soil_water import Store, WaterDay, filled_shares_frac

    latitude = latitude_of(context)
    waterings = _waterings(context, plant, days[0].on, days[-1].on)
    if latitude is None or not waterings:
        return tuple(days)
    store = Store(TUB_MM if plant.bed_kind == "tub" else BED_MM, EASY_FRAC)
    filled = sorted(on for on, outcome in waterings if outcome == "watered")
    noted = {on for on, _ in waterings}
    told: dict[date, float] = {}
    missing: float | None = None
    before = days[0].on - timedelta(days=1)
    for day in days:
        watered = day.on.isoformat() in filled
        if day.on != before + timedelta(days=1) or not _near_a_note(day.on, noted):
            missing = None
        before = day.on
        if day.tmax_c is None or day.tmin_c is None or day.rain_mm is None:
            missing = None
            continue
        if missing is None and not watered and day.rain_mm < store.total_mm:
            continue  # how full the soil was is known again from the next filling on
        use = WaterDay(day.rain_mm, _crop_use_mm(latitude, day.on, day.tmax_c, day.tmin_c), watered)
        (share,) = filled_shares_frac(store, [use], missing or 0.0)
        told[day.on] = share
        missing = store.total_mm * (1.0 - share)
    return tuple(replace(day, soil_water=told.get(day.on)) for day in days)


def _crop_use_mm(latitude_deg: float, on: date, tmax_c: float, tmin_c: float) -> float:
    from scout.science.evapotranspiration import reference_et_hargreaves_mm
    from scout.science.radiation import extraterrestrial_radiation_mj

    above = extraterrestrial_radiation_mj(latitude_deg, on.timetuple().tm_yday)
    return CROP_FACTOR * reference_et_hargreaves_mm(max(tmax_c, tmin_c), tmin_c, above)


def _near_a_note(on: date, noted: set[str]) -> bool:
    """Return whether somebody noted the water of this bed within the days before."""
    return any((on - timedelta(days=back)).isoformat() in noted for back in range(LOGGED_WITHIN_D + 1))


def _waterings(context: Context, plant: Planted, first: date, last: date) -> list[tuple[str, str]]:
    """Return day and outcome of what was noted of this bed's water: its own, its zone's, the whole garden's."""
    from scout.store import records

    since = (first - timedelta(days=LOGGED_WITHIN_D)).isoformat()
    garden = str(context.garden_id)
    with context.read() as session:
        noted = records.waterings(session=session, garden_id=garden, since=since, until=last.isoformat())
    zone = plant.water_zone
    return [
        (one.observed_at[:10], one.outcome)
        for one in noted
        if one.bed_id == plant.bed_id
        or (one.bed_id is None and (one.water_zone is None or (zone is not None and one.water_zone == zone)))
    ]
