"""Readings a few minutes apart, put together by hour."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from scout.intake.sheet import Intake

if TYPE_CHECKING:
    from scout.intake.weather_hours_csv import HourRow

_REGULAR = 0.8
"""Share of hours with equally many readings from which their rain is added up. Our choice."""
_RISES = 3


def by_hour(read: "Intake[HourRow]") -> "Intake[HourRow]":
    """Return one row an hour: mean temperature, humidity and wind, rain added up, wet when half the readings are.

    Rain is added up where nearly every hour has equally many readings; where their number changes, each may tell
    the rain of its hour so far, and rain that is not nought is left out. So it is where the rain only grows from
    midnight on, which is a running total. A file with one reading an hour comes back at the minute of its readings.
    """
    if _is_running_total(read.rows):
        rows = tuple(row._replace(rain_mm=None if row.rain_mm else row.rain_mm) for row in read.rows)
        note = "Its rain only grows through each day, as a running total does: not used but where it is nought."
        read = replace(read, rows=rows, understood=(*read.understood, note))
    if len({row.at[14:] for row in read.rows}) <= 1:
        return read  # all at the same minute of their hours, and no hour is in a file twice
    grouped: dict[tuple[str, int], list[HourRow]] = {}
    for row in read.rows:
        grouped.setdefault((row.at[:13], row.offset_min), []).append(row)
    if len(grouped) == len(read.rows):
        return read
    return _together(read, grouped)


def _together(read: "Intake[HourRow]", grouped: "dict[tuple[str, int], list[HourRow]]") -> "Intake[HourRow]":
    usual, hours_n = Counter(map(len, grouped.values())).most_common(1)[0]
    regular = usual > 1 and hours_n >= _REGULAR * len(grouped)
    rows = tuple(rows[0] if len(rows) == 1 else _one(key, rows, regular) for key, rows in grouped.items())
    rain = "rain added up" if regular else "rain used only where it is nought"
    many = str(usual) if regular else "Several"
    note = f"{many} readings an hour put together: {rain}, the rest as a mean. {len(rows)} hours."
    return replace(read, rows=rows, understood=(*read.understood, note))


def _is_running_total(rows: "Sequence[HourRow]") -> bool:
    """Tell whether rain never falls back within a day and rises at least three times in one of them."""
    rises, day, before = 0, "", 0.0
    most = 0
    for row in rows if not rows or rows[0].at <= rows[-1].at else reversed(rows):
        if row.rain_mm is None:
            continue
        if row.at[:10] != day:
            day, before, rises = row.at[:10], row.rain_mm, 0
            continue
        if row.rain_mm < before:
            return False
        rises += row.rain_mm > before
        most, before = max(most, rises), row.rain_mm
    return most >= _RISES


def _one(key: tuple[str, int], rows: "Sequence[HourRow]", regular: bool) -> "HourRow":
    rain = [row.rain_mm for row in rows if row.rain_mm is not None]
    wet = [row.wet for row in rows if row.wet is not None]
    total = round(sum(rain), 3) if regular or not any(rain) else None
    return rows[0]._replace(
        at=f"{key[0]}:00",
        temp_c=_mean([row.temp_c for row in rows]),
        rh_pct=_mean([row.rh_pct for row in rows]),
        rain_mm=total if rain else None,
        wind_ms=_mean([row.wind_ms for row in rows]),
        wet=2 * sum(wet) >= len(wet) if wet else None,
    )


def _mean(values: Sequence[float | None]) -> float | None:
    present = [value for value in values if value is not None]
    return round(sum(present) / len(present), 3) if present else None
