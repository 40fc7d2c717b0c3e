"""Checks the records of a weather file by column; what a column cannot vouch for goes through its class."""

import math
from collections.abc import Iterable, Mapping, Sequence
from operator import itemgetter
from typing import Any, NamedTuple

from pydantic import TypeAdapter, ValidationError

from scout.errors import BadInput
from scout.store.checking import checked
from scout.store.fields import Day, Hour
from scout.store.rows import Plain
from scout.store.tables_weather import LIMITS, WeatherDay, WeatherHour

_DAYS: TypeAdapter[list[str]] = TypeAdapter(list[Day])
_HOUR: TypeAdapter[str] = TypeAdapter(Hour)
_DAY_PART, _CLOCK_PART = itemgetter(slice(0, 10)), itemgetter(slice(10, 16))


class DayIn(NamedTuple):
    """One day of a file; None is not in it."""

    on: str
    tmax_c: float | None = None
    tmin_c: float | None = None
    rain_mm: float | None = None
    wet_h: float | None = None
    wet_morning: bool | None = None
    rh_mean_pct: float | None = None


class HourIn(NamedTuple):
    """One hour of a file, by the wall clock with its offset from UTC."""

    at: str
    offset_min: int
    temp_c: float | None = None
    rh_pct: float | None = None
    rain_mm: float | None = None
    wind_ms: float | None = None
    wet: bool | None = None


def check_days(rows: Sequence[DayIn], shared: Mapping[str, Any]) -> None:
    """Raise BadInput naming the first day that `WeatherDay` would refuse; `shared` are its other fields."""
    if not (_are_days({row.on for row in rows}) and _columns_hold(DayIn, rows) and _spans_hold(rows)):
        _name_the_bad_one(WeatherDay, rows, shared)


def check_hours(rows: Sequence[HourIn], some_id: str) -> None:
    """Raise BadInput naming the first hour that `WeatherHour` would refuse; `some_id` stands for its links."""
    if rows and not (_are_hours([row[0] for row in rows]) and _columns_hold(HourIn, rows)):
        _name_the_bad_one(WeatherHour, rows, {"series_id": some_id, "import_id": some_id})


def _name_the_bad_one(noun: type[Plain], rows: Iterable[Any], shared: Mapping[str, Any]) -> None:
    for row in rows:
        try:
            checked(noun, dict(shared) | row._asdict())
        except BadInput as refused:
            raise BadInput(f"{str(row[0])[:16]}: {refused}") from None


def _are_days(days: Iterable[Any]) -> bool:
    return _accepts(_DAYS, list(days))


def _are_hours(moments: list[Any]) -> bool:
    if not set(map(type, moments)) <= {str} or not set(map(len, moments)) <= {16}:
        return False
    days, clocks = set(map(_DAY_PART, moments)), set(map(_CLOCK_PART, moments))
    return _are_days(days) and all(_accepts(_HOUR, f"2000-01-01{clock}") for clock in clocks)


def _accepts(shape: TypeAdapter[Any], value: Any) -> bool:
    try:
        shape.validate_python(value, strict=True)
    except ValidationError:
        return False
    return True


def _columns_hold(kind: type[Any], rows: Sequence[Any]) -> bool:
    if set(map(len, rows)) - {len(kind._fields)}:
        return False
    return all(_column_holds(name, list(map(itemgetter(at), rows))) for at, name in enumerate(kind._fields))


def _column_holds(name: str, column: Sequence[Any]) -> bool:
    """Return True for a column without fault; False sends every record through its class, which decides."""
    met = set(map(type, column))
    types = met - {type(None)}
    if name in ("wet", "wet_morning"):
        return types <= {bool}
    if name == "offset_min":
        return types == {int} and None not in column and -840 <= min(column) <= max(column) <= 840
    if name not in LIMITS or not types:
        return True
    present = column if type(None) not in met else [value for value in column if value is not None]
    if not types <= {float, int} or math.isnan(sum(present)):
        return False
    low, high = LIMITS[name]
    return bool(low <= min(present) and max(present) <= high)


def _spans_hold(rows: Sequence[DayIn]) -> bool:
    return not any(row.tmin_c is not None and row.tmax_c is not None and row.tmin_c > row.tmax_c for row in rows)
