"""Daily weather: typed, imported, read back; what it means for the person; what it means for the leaves."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

from scout.diagnosis.evidence import Day
from scout.plain import day_text
from scout.services import weather_stations, weather_told
from scout.services.context import Context
from scout.services.site import site_of
from scout.services.weather_merge import FIELDS, FROM_HOURS, Merged, merged

HERE = weather_stations.HERE
HEAT_AHEAD_C = 35.0
"""A forecast day at or above this is heat ahead: no leaf that shades green fruit comes off."""


@dataclass(frozen=True)
class DayLineView:
    """One day as a row; None where nothing was recorded."""

    on: date
    tmax_c: float | None
    tmin_c: float | None
    rain_mm: float | None
    wet_h: float | None
    wet_morning: bool | None
    wet_night_h: float | None
    """Hours of wet leaves from the evening before to this morning."""
    wet_worked_out: bool
    """The wet hours were worked out from the air; False: a record of the day says them, or there are none."""
    basis: str | None
    """Where it comes from: measured, station, typed, estimated; "hours": added up from them. None: nothing known."""
    sources: dict[str, str] = field(default_factory=dict)
    """Where each figure comes from, in words: "measured here", "typed", "from the hours"."""
    elsewhere: bool = False
    """Whether a figure is another station's."""


def days_between(context: Context, first: date, last: date, kind: str = "observed") -> tuple[Day, ...]:
    """Return the recorded days from `first` to `last`; where several records tell of a day, the best basis holds.

    A figure the best record lacks is filled from the next best, and in the end from the day's hours. Days without any
    record are left out.
    """
    days = _recorded(context, first, last, kind)
    return tuple((days if kind == "forecast" else weather_told.with_hours(context, days, first, last)).values())


def highs_and_lows(context: Context, first: date, last: date) -> dict[date, tuple[float, float]]:
    """Return low and high of each day on which both are known; hours are read for the days that lack one.

    A low above the high, which two stations can give, counts as not known.
    """
    days = _recorded(context, first, last, "observed")
    for begins, ends in _gaps(days, first, last):
        days = weather_told.with_hours(context, days, begins, ends)
    return {
        day.on: (day.tmin_c, day.tmax_c)
        for day in days.values()
        if day.tmin_c is not None and day.tmax_c is not None and day.tmin_c <= day.tmax_c
    }


def _gaps(days: Mapping[date, Day], first: date, last: date) -> list[tuple[date, date]]:
    """Return first and last day of every run of days without a high or a low."""
    runs: list[tuple[date, date]] = []
    for step in range((last - first).days + 1):
        on = first + timedelta(days=step)
        day = days.get(on)
        if day is None or day.tmin_c is None or day.tmax_c is None:
            joined = runs and runs[-1][1] == on - timedelta(days=1)
            runs[-1:] = [(runs[-1][0], on)] if joined else [*runs[-1:], (on, on)]
    return runs


def _recorded(context: Context, first: date, last: date, kind: str) -> dict[date, Day]:
    return {
        date.fromisoformat(on): Day(on=date.fromisoformat(on), forecast=kind == "forecast", **one.figures)  # type: ignore[arg-type]
        for on, one in merged(context, first, last, kind).items()
    }


def last_days(context: Context, days_n: int = 14) -> tuple[DayLineView, ...]:
    """Return the last days including today, newest first; a day without a record is a row of None."""
    today = context.today
    first = today - timedelta(days=days_n - 1)
    with context.read():
        known = {day.on: day for day in days_between(context, first, today)}
        recorded = merged(context, first, today)
    dates = [today - timedelta(days=back) for back in range(days_n)]
    return tuple(_line(known.get(on), on, recorded.get(on.isoformat())) for on in dates)


def _line(day: Day | None, on: date, record: Merged | None) -> DayLineView:
    if day is None:
        return DayLineView(on, None, None, None, None, None, None, False, None)
    written = record.sources if record else {}
    worked_out = day.wet_h is not None and "wet_h" not in written
    temps = (day.tmax_c, day.tmin_c, day.rain_mm, day.wet_h, day.wet_morning, day.wet_night_h)
    figures = {name: getattr(day, name) for name in FIELDS if name != "rh_mean_pct"}
    sources = {name: written.get(name, FROM_HOURS) for name, value in figures.items() if value is not None}
    return DayLineView(
        on, *temps, worked_out, record.basis if record else "hours", sources, bool(record and record.elsewhere)
    )


def type_line(context: Context, text: str) -> str:
    """Keep one typed line of weather such as "34 22 3 wet"; return what was understood, as a sentence."""
    from scout.intake.weather_line import read_line
    from scout.store.weather import set_day

    site = site_of(context)
    line = read_line(text, "us" if site.units == "us" else "metric", today=context.today)
    on = line.on or context.today
    values = {
        "tmax_c": line.tmax_c,
        "tmin_c": line.tmin_c,
        "rain_mm": line.rain_mm,
        "wet_morning": line.wet_morning,
    }
    given = {name: value for name, value in values.items() if value is not None}
    with context.write() as tx:
        set_day(tx, station=HERE, on=on.isoformat(), kind="observed", basis="typed", **given)
    return f"{day_text(on)}: {_said(context, line.tmax_c, line.tmin_c, line.rain_mm, line.wet_morning)}"


def type_forecast(context: Context, on: date, tmax_c: float) -> None:
    """Keep a forecast maximum for a day to come: a record of its own kind, never used as a measurement."""
    from scout.store.weather import set_day

    with context.write() as tx:
        set_day(
            tx,
            station=HERE,
            on=on.isoformat(),
            kind="forecast",
            issued_at=context.moment()[0],
            basis="typed",
            tmax_c=tmax_c,
        )


def _said(context: Context, tmax_c: float | None, tmin_c: float | None, rain_mm: float | None, wet: bool | None) -> str:
    units = site_of(context).units
    parts = [f"max {temperature_text(tmax_c, units)}", f"min {temperature_text(tmin_c, units)}"]
    if rain_mm is not None:
        parts.append(f"rain {rain_text(rain_mm, units)}")
    if wet is not None:
        parts.append("wet morning" if wet else "dry morning")
    return ", ".join(parts)


def temperature_text(value_c: float | None, units: str) -> str:
    """Return a temperature in the grower's unit; a dash where it is missing."""
    from scout.science.units import f_from_c

    if value_c is None:
        return "–"
    return f"{f_from_c(value_c):.0f} °F" if units == "us" else f"{value_c:g} °C"


def rain_text(value_mm: float | None, units: str) -> str:
    """Return rain in the grower's unit; a dash where it is missing."""
    from scout.science.units import inch_from_mm

    if value_mm is None:
        return "–"
    return f"{inch_from_mm(value_mm):.2f} in" if units == "us" else f"{value_mm:g} mm"


def heat_ahead(context: Context) -> bool | None:
    """Return whether 35 °C or more is forecast until the day after tomorrow; None: a day to come is not known.

    One hot day is enough to say so; that none comes is said only where both days to come are known.
    """
    today = context.today
    days = days_between(context, today, today + timedelta(days=2), kind="forecast")
    highs = {day.on: day.tmax_c for day in days if day.tmax_c is not None}
    if any(high >= HEAT_AHEAD_C for high in highs.values()):
        return True
    return False if all(today + timedelta(days=n) in highs for n in (1, 2)) else None
