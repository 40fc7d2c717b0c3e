"""Questions about weather, and one day typed in by hand."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from scout.store.asking import Door, end_of, found, rows, select
from scout.store.ids import weather_id

if TYPE_CHECKING:
    from scout.store.history import Transaction

_BEST_FIRST = "CASE {column} WHEN 'measured' THEN 0 WHEN 'station' THEN 1 WHEN 'typed' THEN 2 ELSE 3 END"


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


def set_day(tx: "Transaction", **values: Any) -> str:
    """Add or correct one day, with its change row, and return its id; fields not named stay as they were."""
    from scout.store.checking import checked
    from scout.store.tables_weather import WeatherDay

    day = checked(WeatherDay, values)
    day_id = weather_id(tx.stamp.garden_id, day.station, day.on, day.kind, source_of(day.basis, day.issued_at))
    if tx.row("weather_day", day_id) is None:
        return tx.add(WeatherDay, row_id=day_id, **values)
    tx.update(WeatherDay, day_id, **values)
    return day_id


def days(
    *, session: Door, garden_id: str, since: str, until: str, station: str | None = None, kind: str = "observed"
) -> tuple[DayView, ...]:
    """Return the days from `since` to `until`, in order; several records of one day come best basis first.

    Best is measured, then station, typed, estimated; of forecasts the newest issue.
    """
    of_one = "" if station is None else "AND station = :station"
    sql = f"""
        {select(DayView, "weather_day")}
        WHERE garden_id = :garden AND kind = :kind AND "on" >= :since AND "on" <= :until {of_one}
        ORDER BY "on", issued_at DESC, {_BEST_FIRST.format(column="basis")}, station
    """
    return found(session, DayView, sql, garden=garden_id, kind=kind, since=since, until=until, station=station)


_HOURS = f"""
    JOIN weather_series series ON series.id = weather_hour.series_id
    WHERE series.garden_id = :garden AND series.station = :station AND series.kind = :kind
    AND weather_hour.at >= :since AND weather_hour.at < :until
    ORDER BY weather_hour.at, weather_hour.offset_min DESC, series.issued_at DESC,
        {_BEST_FIRST.format(column="series.basis")}
"""
HourRow = tuple[str, int, float | None, float | None, float | None, float | None, bool | None]
"""at, offset_min, temp_c, rh_pct, rain_mm, wind_ms, wet."""


def hours(
    *, session: Door, garden_id: str, station: str, since: str, until: str, kind: str = "observed"
) -> tuple[HourView, ...]:
    """Return the hours of a station from the day `since` to the day `until`, in order.

    Of an hour that the clock shows twice the earlier comes first; of several records of one hour the best basis.
    """
    sql = f"{select(HourView, 'weather_hour', basis='series.basis')} {_HOURS}"
    about = {"garden": garden_id, "station": station, "kind": kind}
    return found(session, HourView, sql, **about, since=since, until=end_of(until))


def observed_hours(*, session: Door, garden_id: str, station: str, since: str, until: str) -> list[HourRow]:
    """Return the observed hours of `hours` as plain tuples, for whoever reads thousands."""
    sql = f"SELECT at, offset_min, temp_c, rh_pct, rain_mm, wind_ms, wet FROM weather_hour {_HOURS}"
    about = {"garden": garden_id, "station": station, "kind": "observed"}
    return [tuple(row) for row in rows(session, sql, **about, since=since, until=end_of(until))]


def stations(*, session: Door, garden_id: str) -> tuple[str, ...]:
    """Return the names of the stations with days or hours, sorted."""
    sql = """
        SELECT station FROM weather_day WHERE garden_id = :garden
        UNION SELECT station FROM weather_series WHERE garden_id = :garden
    """
    return tuple(sorted(str(name) for (name,) in rows(session, sql, garden=garden_id)))


@dataclass(frozen=True)
class Kept:
    """What is kept of one station, of one kind and source."""

    station: str
    kind: str
    basis: str
    of: str
    """days or hours"""
    first: str
    last: str
    rows_n: int


def kept(*, session: Door, garden_id: str) -> tuple[Kept, ...]:
    """Return what is kept of each station, in the order of their names."""
    sql = """
        SELECT station, kind, basis, 'days', min("on"), max("on"), count(*) FROM weather_day
        WHERE garden_id = :garden GROUP BY station, kind, basis
        UNION ALL
        SELECT series.station, series.kind, series.basis, 'hours', min(hour.at), max(hour.at), count(*)
        FROM weather_hour hour JOIN weather_series series ON series.id = hour.series_id
        WHERE series.garden_id = :garden GROUP BY series.station, series.kind, series.basis
        ORDER BY 1, 2, 3, 4
    """
    return found(session, Kept, sql, garden=garden_id)
