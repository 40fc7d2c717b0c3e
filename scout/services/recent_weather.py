"""The weather of the last two weeks and of today, read once for everything the plan asks of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Day
from scout.services.context import Context

if TYPE_CHECKING:
    from scout.store.weather import HourView

BACK_D = 14


@dataclass(frozen=True)
class RecentWeather:
    """Records and today's forecast, each of its own kind."""

    hours: "list[HourView]"
    """Observed today, of the first station that has any."""
    coming: "list[HourView]"
    """Forecast for today."""
    days: dict[date, Day]
    forecast: Day | None
    """Today's."""


def recent_weather(context: Context) -> RecentWeather:
    """Return what is known of the last two weeks; inside one read it is asked for once."""
    return context.once(f"recent weather {context.today}", lambda: _read(context))


def _read(context: Context) -> RecentWeather:
    from scout.services.weather import days_between
    from scout.services.weather_stations import in_order
    from scout.store import weather

    today = context.today
    with context.read() as session:
        stations = in_order(context, weather.stations(session=session, garden_id=str(context.garden_id)))
        return RecentWeather(
            hours=_hours_today(context, stations, "observed"),
            coming=_hours_today(context, stations, "forecast"),
            days={day.on: day for day in days_between(context, today - timedelta(days=BACK_D), today)},
            forecast=next(iter(days_between(context, today, today, "forecast")), None),
        )


def _hours_today(context: Context, stations: Sequence[str], kind: str) -> "list[HourView]":
    from scout.store import weather

    today, garden = context.today.isoformat(), str(context.garden_id)
    with context.read() as session:
        for station in stations:
            found = weather.hours(
                session=session, garden_id=garden, station=station, since=today, until=today, kind=kind
            )
            if found:
                return list(found)
    return []
