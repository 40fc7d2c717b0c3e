"""Weather by day and by hour; a forecast is a record of its own kind, with its time of issue."""

from typing import Annotated

from sqlmodel import Field

from scout.science.weather_day import HOUR_LIMITS
from scout.science.weather_day import LIMITS as DAY_LIMITS
from scout.store.fields import Across, Between, Day, Hour, Id, Line, Moment, Offset, OneOf, Sorted, not_above
from scout.store.rows import Plain, Stamped

WEATHER_KINDS = ("observed", "forecast")
BASES = ("measured", "station", "typed", "estimated")
LIMITS: dict[str, tuple[float, float]] = {
    **DAY_LIMITS,
    **HOUR_LIMITS,
}
"""Lowest and highest value kept; one table for the field rules and for bulk import."""

_FORECAST = Across(
    "forecast_has_issue",
    "(kind = 'forecast') = (issued_at IS NOT NULL)",
    lambda row: (row.kind == "forecast") != (row.issued_at is not None),
    "needs the time of issue when it is a forecast, and none otherwise",
)


class WeatherDay(Plain):
    """One day at one station. Its id is made from what it is (`scout.store.ids.weather_id`)."""

    station: Line
    on: Day = Field(sa_type=Sorted)
    kind: Annotated[str, OneOf(WEATHER_KINDS)]
    issued_at: Moment | None = Field(default=None, sa_type=Sorted)
    basis: Annotated[str, OneOf(BASES)]
    tmax_c: Annotated[float, Between(*LIMITS["tmax_c"])] | None = None
    tmin_c: Annotated[float, Between(*LIMITS["tmin_c"])] | None = None
    rain_mm: Annotated[float, Between(*LIMITS["rain_mm"])] | None = None
    wet_h: Annotated[float, Between(*LIMITS["wet_h"])] | None = None
    wet_morning: bool | None = None
    rh_mean_pct: Annotated[float, Between(*LIMITS["rh_mean_pct"])] | None = None
    across = (not_above("tmin_c", "tmax_c", "has a minimum above its maximum"), _FORECAST)
    indexed = (("station", "on"),)


class WeatherDayRow(WeatherDay, Stamped, table=True):
    """A stored day."""


class WeatherSeries(Plain):
    """What the hours of one station, kind and basis share. Its id is made from what it is."""

    station: Line
    kind: Annotated[str, OneOf(WEATHER_KINDS)]
    issued_at: Moment | None = Field(default=None, sa_type=Sorted)
    basis: Annotated[str, OneOf(BASES)]
    across = (_FORECAST,)
    indexed = (("station",),)


class WeatherSeriesRow(WeatherSeries, Stamped, table=True):
    """A stored series."""


class WeatherHour(Plain):
    """One hour of a series, by the wall clock with its offset, so that no hour is lost or doubled.

    Ten years are 87,600 of these, so the row is lean: who wrote it stands in the change row of its import.
    """

    series_id: Id = Field(foreign_key="weather_series.id", primary_key=True)
    at: Hour = Field(sa_type=Sorted, primary_key=True)
    offset_min: Offset = Field(primary_key=True)
    temp_c: Annotated[float, Between(*LIMITS["temp_c"])] | None = None
    rh_pct: Annotated[float, Between(*LIMITS["rh_pct"])] | None = None
    rain_mm: Annotated[float, Between(*LIMITS["rain_mm"])] | None = None
    wind_ms: Annotated[float, Between(*LIMITS["wind_ms"])] | None = None
    wet: bool | None = None
    import_id: Id
    """The group of the import that brought it."""


class WeatherHourRow(WeatherHour, table=True):
    """A stored hour."""

    __tablename__ = "weather_hour"
    __table_args__ = {"sqlite_with_rowid": False}  # noqa: RUF012
