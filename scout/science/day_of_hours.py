"""One day told by its hours: extremes, rain, wet hours, humid hours, bee hours. What the hours lack stays None."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from scout.science.bee_weather import bee_hours_h
from scout.science.leaf_wetness import WET_FROM_C, WET_TO_C, humid_hours_h, wet_hour

WHOLE_DAY_H = 20
"""Hours with records from which a whole day is told; a gap of a few hours seldom changes it. Our choice."""
WHOLE_NIGHT_H = 13
"""The same of the fifteen hours of a night."""
NIGHT_FROM_H, NIGHT_TO_H = 18, 9
"""A wet night runs from six in the evening to nine in the morning, when dew has gone in most summers. Our choice."""
BEE_MORNING_H = (6, 12)
"""Cucumber and squash flowers are open for bees from early morning to noon."""
_DAY_H = 24


class AirHour(NamedTuple):
    """One hour by the wall clock; None where it was not measured. A tuple, as years of them are made."""

    clock_h: int
    t_c: float | None = None
    rh_pct: float | None = None
    rain_mm: float | None = None
    wind_ms: float | None = None
    wet: bool | None = None
    """What a leaf-wetness sensor said; it goes before any estimate."""


@dataclass(frozen=True)
class WetSpan:
    """Hours of wet leaves, and their mean temperature; None of no wet hour, or of one without a temperature."""

    wet_h: int
    mean_c: float | None


@dataclass(frozen=True)
class DayOfHours:
    """What the hours of one day tell."""

    tmax_c: float | None
    tmin_c: float | None
    rain_mm: float | None
    rh_mean_pct: float | None
    wet: WetSpan | None
    humid_h: int | None
    humid_mean_c: float | None
    bee_hours_h: int | None


def day_of_hours(hours: Sequence[AirHour], *, dry_day: bool | None = None) -> DayOfHours:
    """Return what the hours of one calendar day tell; None where too few were recorded.

    dry_day says that the rain gauge of the day was empty: then hours without a rain reading count as dry.
    Rain is added up only over a day without a gap. A day of 25 hours (autumn) counts at most 24 of them as wet.
    """
    temps, humid = _known(hour.t_c for hour in hours), _known(hour.rh_pct for hour in hours)
    rain = _known(hour.rain_mm for hour in hours)
    both = [(h.t_c, h.rh_pct) for h in hours if h.t_c is not None and h.rh_pct is not None]
    whole = len(temps) >= WHOLE_DAY_H
    damp_h, damp_c = humid_hours_h([t for t, _ in both], [rh for _, rh in both])
    told = len(both) >= WHOLE_DAY_H
    return DayOfHours(
        tmax_c=max(temps) if whole else None,
        tmin_c=min(temps) if whole else None,
        rain_mm=sum(rain) if len(rain) == len(hours) >= _DAY_H - 1 else None,
        rh_mean_pct=sum(humid) / len(humid) if len(humid) >= WHOLE_DAY_H else None,
        wet=_wet_span(hours, WHOLE_DAY_H),
        humid_h=min(damp_h, _DAY_H) if told else None,
        humid_mean_c=damp_c if told else None,
        bee_hours_h=_bees(hours, dry_day),
    )


def night_of_hours(evening: Sequence[AirHour], morning: Sequence[AirHour]) -> WetSpan | None:
    """Return the wet hours of the night between two days; None where too few hours were recorded."""
    late = [hour for hour in evening if hour.clock_h >= NIGHT_FROM_H]
    early = [hour for hour in morning if hour.clock_h < NIGHT_TO_H]
    return _wet_span([*late, *early], WHOLE_NIGHT_H)


def _wet_span(hours: Sequence[AirHour], least_n: int) -> WetSpan | None:
    told = [(hour, is_wet) for hour in hours if (is_wet := _is_wet(hour)) is not None]
    if len(told) < least_n:
        return None
    wet = [hour.t_c for hour, is_wet in told if is_wet]
    temps = _known(wet)
    mean = sum(temps) / len(temps) if temps and len(temps) == len(wet) else None
    return WetSpan(min(len(wet), _DAY_H), mean)


def _is_wet(hour: AirHour) -> bool | None:
    if hour.wet is not None:
        return hour.wet
    if hour.rain_mm is not None and hour.rain_mm > 0.0:
        return True
    if hour.t_c is None or hour.rh_pct is None or not WET_FROM_C <= hour.t_c <= WET_TO_C:
        return None
    return wet_hour(hour.t_c, hour.rh_pct, hour.rain_mm)


def _bees(hours: Sequence[AirHour], dry_day: bool | None) -> int | None:
    first, last = BEE_MORNING_H
    morning = [(h.t_c, h.rain_mm, h.wind_ms) for h in hours if first <= h.clock_h < last]
    if len(morning) < last - first:
        return None
    temps = _known(t for t, _, _ in morning)
    if len(temps) < len(morning):
        return None
    rain = [0.0 if fell is None and dry_day else fell for _, fell, _ in morning]
    return bee_hours_h(temps, rain, [wind for _, _, wind in morning])


def _known(values: Iterable[float | None]) -> list[float]:
    return [value for value in values if value is not None]
