"""The person's heat caution hour by hour, and from when to when it is dangerous."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from scout.science.day_curve import humidity_at_pct, temperature_at_c
from scout.science.heat_index import HeatClass, heat_class, heat_index_c, in_full_sun_c
from scout.science.humidity import dew_point_c

HourBasis = Literal["measured", "forecast", "estimated"]
DANGER: frozenset[HeatClass] = frozenset({"danger", "extreme_danger"})
FIRST_H, LAST_H = 5, 21
"""Hours in which anybody walks a garden."""


@dataclass(frozen=True)
class AirAt:
    """Air at one clock hour, as somebody measured or forecast it."""

    temp_c: float
    rh_pct: float
    basis: HourBasis


@dataclass(frozen=True)
class HeatAt:
    """Heat of one clock hour for a person at light work in the shade, and at worst in full sun."""

    clock_h: int
    index_c: float
    sun_c: float
    level: HeatClass
    sun_level: HeatClass
    basis: HourBasis


def heat_by_hour(
    known: Mapping[int, AirAt], tmin_c: float | None, tmax_c: float | None, hours: Sequence[int] = ()
) -> tuple[HeatAt, ...]:
    """Return the heat of every hour that is known, and an estimate of the others where the day's low and high are.

    An estimated hour takes the air's moisture, and half of what the curve missed for every hour since, from the newest
    known hour before it; without one the day's low stands for the dew point. Hours of which nothing can be said are
    left out.
    """
    found = []
    for clock_h in hours or range(FIRST_H, LAST_H + 1):
        air = known.get(clock_h) or _estimated(clock_h, known, tmin_c, tmax_c)
        if air is not None:
            found.append(_heat(clock_h, air))
    return tuple(found)


def _estimated(clock_h: int, known: Mapping[int, AirAt], tmin_c: float | None, tmax_c: float | None) -> AirAt | None:
    if tmin_c is None or tmax_c is None or tmin_c > tmax_c:
        return None
    temp, dew = temperature_at_c(clock_h, tmin_c, tmax_c), tmin_c
    before = max((h for h in known if h < clock_h and known[h].rh_pct > 0.0), default=None)
    if before is not None:
        missed = known[before].temp_c - temperature_at_c(before, tmin_c, tmax_c)
        temp += missed * 0.5 ** (clock_h - before)
        dew = dew_point_c(known[before].temp_c, known[before].rh_pct)
    return AirAt(temp, humidity_at_pct(temp, dew), "estimated")


def _heat(clock_h: int, air: AirAt) -> HeatAt:
    index = heat_index_c(air.temp_c, air.rh_pct)
    sun = in_full_sun_c(index)
    return HeatAt(clock_h, index, sun, heat_class(index), heat_class(sun), air.basis)


def dangerous_from_until(heat: Sequence[HeatAt]) -> tuple[int, int] | None:
    """Return the clock hours from which to which the shade is dangerous, the last one counted to its end; None: never.

    Hours between two dangerous ones count as dangerous: nobody goes out for one that is a little better. Where nothing
    is known after the last dangerous hour, it counts as dangerous to the end of the day.
    """
    hours = [one.clock_h for one in heat if one.level in DANGER]
    if not hours:
        return None
    known_after = any(one.clock_h > max(hours) for one in heat)
    return min(hours), max(hours) + 1 if known_after else LAST_H + 1


def worst(heat: Sequence[HeatAt]) -> HeatAt | None:
    """Return the hottest hour, the first of equals; None of no hours."""
    return max(heat, key=lambda one: (one.index_c, -one.clock_h), default=None)
