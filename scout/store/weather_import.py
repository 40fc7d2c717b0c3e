"""Takes in a whole file of weather: checked by column, without doubles, with a history of corrections."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from pydantic import TypeAdapter, ValidationError
from sqlalchemy import select

from scout.errors import BadInput
from scout.store.checking import checked
from scout.store.fields import Day, Hour
from scout.store.history import Transaction, Values
from scout.store.ids import weather_ids
from scout.store.rows import Plain
from scout.store.tables import table_of
from scout.store.tables_weather import LIMITS, WeatherDay, WeatherHour
from scout.store.weather import source_of


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


@dataclass(frozen=True)
class Series:
    """What all records of one file share."""

    station: str
    kind: str = "observed"
    basis: str = "measured"
    issued_at: str | None = None
    """When a forecast was issued; None for what was observed."""


@dataclass(frozen=True)
class Imported:
    """What became of the records."""

    added: int
    unchanged: int
    corrected: int


def import_days(tx: Transaction, rows: Sequence[DayIn], *, series: Series) -> Imported:
    """Add new days, correct those that differ, leave the rest; return how many of each.

    A figure the file does not have (None) never wipes out one that is there. Corrections have a change row
    each, the additions one together. Raises BadInput naming the first record that cannot be.
    """
    if not (_are_days({row.on for row in rows}) and _columns_hold(DayIn, rows) and _spans_hold(rows)):
        _name_the_bad_one(WeatherDay, rows, series)
    return _take_in(tx, WeatherDay, rows, [row.on for row in rows], 1, series)


def import_hours(tx: Transaction, rows: Sequence[HourIn], *, series: Series) -> Imported:
    """Add new hours, correct those that differ, leave the rest, as `import_days` does."""
    moments = [row.at for row in rows]
    if not (_are_hours(moments) and _columns_hold(HourIn, rows)):
        _name_the_bad_one(WeatherHour, rows, series)
    return _take_in(tx, WeatherHour, rows, [f"{row.at}{row.offset_min:+05d}" for row in rows], 2, series)


def _take_in(
    tx: Transaction, noun: type[Plain], rows: Sequence[Any], instants: list[str], keys: int, series: Series
) -> Imported:
    if not rows:
        return Imported(0, 0, 0)
    entity = "weather_day" if noun is WeatherDay else "weather_hour"
    shared = checked(noun, _values(rows[0], series)).model_dump(include=set(Series.__dataclass_fields__))
    source = source_of(series.basis, series.issued_at)
    ids = weather_ids(tx.stamp.garden_id, shared["station"], instants, series.kind, source)
    names = rows[0]._fields[keys:]
    held = _held(tx, entity, names, shared, (min(rows)[0], max(rows)[0]), rows[0]._fields[0])
    fresh: dict[str, Any] = {}
    differing: dict[str, tuple[Values, Values]] = {}
    for row_id, row in zip(ids, rows, strict=True):
        old = held.get(row_id)
        if old is None:
            held[row_id], fresh[row_id] = row[keys:], row
            continue
        before, after = _difference(names, old, row[keys:])
        if after and (row_id in fresh or row_id in differing):
            raise BadInput(f"{row[0]} is in the file twice with different figures; keep one of them.")
        if after:
            checked(noun, _values(row, series) | dict(zip(names, old, strict=True)) | after)
            differing[row_id] = before, after
    _add(tx, entity, fresh, shared)
    _correct(tx, entity, differing)
    return Imported(len(fresh), len(rows) - len(fresh) - len(differing), len(differing))


def _held(
    tx: Transaction, entity: str, names: Sequence[str], shared: Values, span: tuple[str, str], key: str
) -> dict[str, tuple[Any, ...]]:
    table = table_of(entity)
    query = select(table.c.id, *(table.c[name] for name in names)).where(
        table.c.garden_id == tx.stamp.garden_id,
        table.c.station == shared["station"],
        table.c[key] >= span[0],
        table.c[key] <= span[1],
    )
    return {row[0]: tuple(row[1:]) for row in tx.session.connection().execute(query)}


def _difference(names: Sequence[str], old: Sequence[Any], new: Sequence[Any]) -> tuple[Values, Values]:
    if old == new:
        return {}, {}
    pairs = [(name, was, now) for name, was, now in zip(names, old, new, strict=True) if now is not None and now != was]
    return {name: was for name, was, _ in pairs}, {name: now for name, _, now in pairs}


def _add(tx: Transaction, entity: str, fresh: dict[str, Any], shared: Values) -> None:
    if not fresh:
        return
    stamped = tx.stamp_values() | shared | {"import_id": tx.group_id}
    names = next(iter(fresh.values()))._fields
    rows = [stamped | dict(zip(names, row, strict=True)) | {"id": row_id} for row_id, row in fresh.items()]
    tx.session.connection().execute(table_of(entity).insert(), rows)
    first, last = min(fresh.values())[0], max(fresh.values())[0]
    said = {"import_id": tx.group_id, "added": len(fresh), "first": first, "last": last} | shared
    tx.note(entity, tx.group_id, None, said)


def _correct(tx: Transaction, entity: str, differing: dict[str, tuple[Values, Values]]) -> None:
    for row_id, (_, after) in differing.items():
        tx.change(entity, row_id, after)
    tx.note_many([(entity, row_id, before, after) for row_id, (before, after) in differing.items()])


def _values(row: Any, series: Series) -> Values:
    return dict(vars(series)) | dict(row._asdict())


def _name_the_bad_one(noun: type[Plain], rows: Iterable[Any], series: Series) -> None:
    for row in rows:
        try:
            checked(noun, _values(row, series))
        except BadInput as refused:
            raise BadInput(f"{str(row[0])[:16]}: {refused}") from None


def _are_days(days: Iterable[Any]) -> bool:
    return all(_accepts(_DAY, day) for day in days)


def _are_hours(moments: list[Any]) -> bool:
    if not all(type(at) is str and len(at) == 16 for at in moments):
        return False
    clocks = {at[10:] for at in moments}
    return _are_days({at[:10] for at in moments}) and all(_accepts(_HOUR, f"2000-01-01{clock}") for clock in clocks)


def _accepts(shape: TypeAdapter[str], value: Any) -> bool:
    try:
        shape.validate_python(value, strict=True)
    except ValidationError:
        return False
    return True


def _columns_hold(kind: type[Any], rows: Sequence[Any]) -> bool:
    columns = zip(*rows, strict=True)
    return all(_column_holds(name, column) for name, column in zip(kind._fields, columns, strict=False))


def _column_holds(name: str, column: Sequence[Any]) -> bool:
    """Return True for a column without fault; False sends every record through its class, which decides."""
    types = set(map(type, column)) - {type(None)}
    if name in ("wet", "wet_morning"):
        return types <= {bool}
    if name == "offset_min":
        return types == {int} and None not in column and -840 <= min(column) <= max(column) <= 840
    if name not in LIMITS or not types:
        return True
    low, high = LIMITS[name]
    present = [value for value in column if value is not None]
    return types <= {float, int} and not math.isnan(sum(present)) and low <= min(present) <= max(present) <= high


def _spans_hold(rows: Sequence[DayIn]) -> bool:
    return not any(row.tmin_c is not None and row.tmax_c is not None and row.tmin_c > row.tmax_c for row in rows)


_DAY: TypeAdapter[str] = TypeAdapter(Day)
_HOUR: TypeAdapter[str] = TypeAdapter(Hour)
