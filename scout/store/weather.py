"""Questions about weather, and one day typed in by hand."""

from dataclasses import dataclass
from typing import Any

from sqlalchemy import case, select
from sqlmodel import Session, col

from scout.store.checking import checked
from scout.store.history import Transaction
from scout.store.ids import weather_id
from scout.store.plantings import end_of
from scout.store.tables_weather import BASES, WeatherDay, WeatherDayRow, WeatherHourRow, WeatherSeriesRow
from scout.store.views import select_view, views


@dataclass(frozen=True)
class DayView:
    """One day at one station."""

    id: str
    station: str
    on: str
    kind: str
    issued_at: str | None
    basis: str
    tmax_c: float | None
    tmin_c: float | None
    rain_mm: float | None
    wet_h: float | None
    wet_morning: bool | None
    rh_mean_pct: float | None


@dataclass(frozen=True)
class HourView:
    """One hour at one station."""

    at: str
    offset_min: int
    basis: str
    temp_c: float | None
    rh_pct: float | None
    rain_mm: float | None
    wind_ms: float | None
    wet: bool | None


def source_of(basis: str, issued_at: str | None) -> str:
    """Return the source part of a weather id: the basis, and for a forecast its time of issue."""
    return basis if issued_at is None else f"{basis}@{issued_at}"


def set_day(tx: Transaction, **values: Any) -> str:
    """Add or correct one day, with its change row, and return its id; fields not named stay as they were."""
    day = checked(WeatherDay, values)
    day_id = weather_id(tx.stamp.garden_id, day.station, day.on, day.kind, source_of(day.basis, day.issued_at))
    if tx.row("weather_day", day_id) is None:
        return tx.add(WeatherDay, row_id=day_id, **values)
    tx.update(WeatherDay, day_id, **values)
    return day_id


def days(
    *, session: Session, garden_id: str, since: str, until: str, station: str | None = None, kind: str = "observed"
) -> tuple[DayView, ...]:
    """Return the days from `since` to `until`, in order; several records of one day come best basis first.

    Best is measured, then station, typed, estimated; of forecasts the newest issue.
    """
    row = WeatherDayRow
    query = select_view(DayView, row).where(
        col(row.garden_id) == garden_id, col(row.kind) == kind, col(row.on) >= since, col(row.on) <= until
    )
    if station is not None:
        query = query.where(col(row.station) == station)
    order = (col(row.on), col(row.issued_at).desc(), _best(col(row.basis)), col(row.station))
    return views(session, DayView, query.order_by(*order))


def hours(
    *, session: Session, garden_id: str, station: str, since: str, until: str, kind: str = "observed"
) -> tuple[HourView, ...]:
    """Return the hours of a station from the day `since` to the day `until`, in order.

    Of an hour that the clock shows twice the earlier comes first; of several records of one hour the best basis.
    """
    row, series = WeatherHourRow, WeatherSeriesRow
    query = (
        select_view(HourView, row, basis=col(series.basis))
        .join(series, col(series.id) == col(row.series_id))
        .where(col(series.garden_id) == garden_id, col(series.station) == station, col(series.kind) == kind)
        .where(col(row.at) >= since, col(row.at) < end_of(until))
        .order_by(col(row.at), col(row.offset_min).desc(), col(series.issued_at).desc(), _best(col(series.basis)))
    )
    return views(session, HourView, query)


def stations(*, session: Session, garden_id: str) -> tuple[str, ...]:
    """Return the names of the stations with days or hours, sorted."""
    names: set[str] = set()
    for row in (WeatherDayRow, WeatherSeriesRow):
        found = select(col(row.station)).where(col(row.garden_id) == garden_id).distinct()
        names.update(session.connection().execute(found).scalars())
    return tuple(sorted(names))


def _best(basis: Any) -> Any:
    return case({name: rank for rank, name in enumerate(BASES)}, value=basis)
