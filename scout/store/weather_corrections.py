"""Figures of the weather that a later file or line corrected: what stood there, what stands now, since when."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from scout.store.asking import Door, rows

_FIGURES = ("tmax_c", "tmin_c", "rain_mm", "wet_h", "wet_morning", "rh_mean_pct")
_HOUR_FIGURES = ("temp_c", "rh_pct", "rain_mm", "wind_ms", "wet")


@dataclass(frozen=True)
class Correction:
    """One figure of one day or hour."""

    at: str
    """The day, or the hour by the wall clock."""
    name: str
    """tmax_c, rain_mm and the like."""
    before: float | bool | None
    after: float | bool | None


@dataclass(frozen=True)
class Noted(Correction):
    """A correction as the history holds it."""

    station: str
    corrected_at: str
    """The instant, in UTC."""


def corrections_of(names: Sequence[str], differing: Mapping[Any, tuple[Any, Any]]) -> tuple[Correction, ...]:
    """Return each figure that changed between the two rows of a key; the first part of a key is its day or hour."""
    return tuple(
        Correction(key[0], name, was, now)
        for key, pair in differing.items()
        for name, was, now in zip(names, *pair, strict=True)
        if was != now
    )


def noted_corrections(*, session: Door, garden_id: str) -> tuple[Noted, ...]:
    """Return every figure of the weather that was changed after it had been kept, newest change first."""
    sql = """
        SELECT entity, row_id, before, after, at FROM change
        WHERE garden_id = :garden AND entity IN ('weather_day', 'weather_hour')
        AND before IS NOT NULL AND after IS NOT NULL ORDER BY seq DESC
    """
    found: list[Noted] = []
    for entity, row_id, before, after, at in list(rows(session, sql, garden=garden_id)):
        reader = _of_day if entity == "weather_day" else _of_hours
        found.extend(reader(session, row_id, json.loads(before), json.loads(after), at))
    return tuple(found)


def _of_day(session: Door, row_id: str, before: Any, after: Any, at: str) -> Iterator[Noted]:
    for on, station in list(rows(session, 'SELECT "on", station FROM weather_day WHERE id = :id', id=row_id)):
        for name in (name for name in _FIGURES if name in before):
            yield Noted(on, name, before[name], after[name], station, at)


def _of_hours(session: Door, row_id: str, before: Any, after: Any, at: str) -> Iterator[Noted]:
    for (station,) in list(rows(session, "SELECT station FROM weather_series WHERE id = :id", id=row_id)):
        for old, new in zip(before["hours"], after["hours"], strict=True):
            moved = corrections_of(_HOUR_FIGURES, {tuple(old[:2]): (old[2:], new[2:])})
            yield from (Noted(one.at, one.name, one.before, one.after, station, at) for one in moved)
