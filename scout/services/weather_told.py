"""Fills days from the hours of a station: extremes and rain that no daily record has, wet nights, bees, infection.

What a daily record says goes before what its hours add up to; what neither has stays None.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import groupby
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Day
from scout.services.context import Context
from scout.services.weather_stations import in_order

if TYPE_CHECKING:
    from scout.science.day_of_hours import AirHour, DayOfHours, WetSpan
    from scout.store.weather import HourRow

    HoursOf = dict[date, list[AirHour]]


def with_hours(context: Context, days: Mapping[date, Day], first: date, last: date) -> dict[date, Day]:
    """Return the days from `first` to `last` with what the hours add; days known by their hours alone are among them.

    Of several stations the garden's own comes first; what it lacks is filled from the next.
    """
    told = dict(days)
    for hours in _by_station(context, first - timedelta(days=1), last):
        for step in range((last - first).days + 1):
            on = first + timedelta(days=step)
            if on in hours or on - timedelta(days=1) in hours:
                day = _told(told.get(on, Day(on)), hours, on)
                if on in told or day != Day(on):
                    told[on] = day
    return dict(sorted(told.items()))


def _by_station(context: Context, first: date, last: date) -> "list[HoursOf]":
    from scout.store import weather

    garden = str(context.garden_id)
    since, until = first.isoformat(), last.isoformat()
    with context.read() as session:
        names = in_order(context, weather.stations(session=session, garden_id=garden))
        found = [
            weather.observed_hours(session=session, garden_id=garden, station=name, since=since, until=until)
            for name in names
        ]
    return [_by_day(rows) for rows in found if rows]


def _by_day(rows: "Sequence[HourRow]") -> "HoursOf":
    """Return the hours by day; of several records of one hour the first, which has the best basis, holds."""
    by_day: HoursOf = defaultdict(list)
    for (hour, _), readings in groupby(rows, key=lambda row: (row[0][:13], row[1])):
        by_day[date.fromisoformat(hour[:10])].append(_hour(hour, list(readings)))
    return dict(by_day)


def _hour(hour: str, readings: "Sequence[HourRow]") -> "AirHour":
    """Return one hour; rain of several readings within it is told only where it was none at all.

    A station that reports every few minutes may give each reading's own rain or a running total: which is not known.
    """
    from scout.science.day_of_hours import AirHour

    at, _, temp_c, rh_pct, rain, wind_ms, wet = readings[0]
    if len(readings) > 1 and any(one[0] != at for one in readings):
        rain = 0.0 if all(one[4] == 0.0 for one in readings) else None
    return AirHour(int(hour[11:]), temp_c, rh_pct, rain, wind_ms, None if wet is None else bool(wet))


def _told(day: Day, hours: "HoursOf", on: date) -> Day:
    from scout.science.day_of_hours import day_of_hours, night_of_hours

    today = hours.get(on, [])
    found = day_of_hours(today, dry_day=None if day.rain_mm is None else day.rain_mm == 0.0)
    night = night_of_hours(hours.get(on - timedelta(days=1), []), today)
    filled = replace(
        day,
        tmax_c=_first(day.tmax_c, found.tmax_c),
        tmin_c=_first(day.tmin_c, found.tmin_c),
        rain_mm=_first(day.rain_mm, found.rain_mm),
        rh_mean_pct=_first(day.rh_mean_pct, found.rh_mean_pct),
        wet_h=_first(day.wet_h, None if found.wet is None else float(found.wet.wet_h)),
        bee_hours_h=_first(day.bee_hours_h, found.bee_hours_h),
        wet_night_h=_first(day.wet_night_h, None if night is None else float(night.wet_h)),
    )
    return _infected(filled, found, night)


def _infected(day: Day, found: "DayOfHours", night: "WetSpan | None") -> Day:
    """Return the day with what its wet and humid hours were worth to leaf diseases."""
    from scout.science.severity import humid_day

    humid = None
    if day.tmin_c is not None and found.humid_h is not None:
        humid = humid_day(day.tmin_c, float(found.humid_h))
    return replace(
        day,
        leaf_spot_n=_first(day.leaf_spot_n, _leaf_spot(day.wet_h, found)),
        blight_day=day.blight_day if day.blight_day is not None else humid,
        downy_night=day.downy_night if day.downy_night is not None else _downy(night),
    )


def _leaf_spot(wet_h: float | None, found: "DayOfHours") -> float | None:
    from scout.science.severity import leaf_spot_severity_n

    if wet_h is None:
        return None
    if wet_h < 1.0:
        return 0.0
    mean = found.wet.mean_c if found.wet is not None else None
    return None if mean is None else float(leaf_spot_severity_n(int(wet_h), mean))


def _downy(night: "WetSpan | None") -> bool | None:
    from scout.science.severity import downy_mildew_night

    if night is None:
        return None
    if night.wet_h < 2:
        return False
    return None if night.mean_c is None else downy_mildew_night(float(night.wet_h), night.mean_c)


def _first(mine: float | None, other: float | None) -> float | None:
    return mine if mine is not None else other
