"""Takes in a whole file of weather: without doubles, and with a history of corrections."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select

from scout.errors import BadInput, Refused
from scout.store.checking import checked
from scout.store.history import Transaction, Values
from scout.store.ids import weather_id
from scout.store.tables import table_of
from scout.store.tables_weather import WeatherDay, WeatherHour, WeatherSeries
from scout.store.weather import source_of
from scout.store.weather_columns import DayIn, HourIn, check_days, check_hours

Key = tuple[Any, ...]
Figures = tuple[Any, ...]


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


@dataclass(frozen=True)
class _Sorted:
    fresh: dict[Key, Figures]
    differing: dict[Key, tuple[Figures, Figures]]
    """Figures before and after."""

    def counted(self, total: int) -> Imported:
        return Imported(len(self.fresh), total - len(self.fresh) - len(self.differing), len(self.differing))


def import_days(tx: Transaction, rows: Sequence[DayIn], *, series: Series) -> Imported:
    """Add new days, correct those that differ, leave the rest; return how many of each.

    A figure the file does not have (None) never wipes out one that is there. Every day added or corrected has
    its change row. Raises BadInput naming the first record that cannot be.
    """
    shared = checked(WeatherSeries, vars(series)).model_dump()
    check_days(rows, shared)
    table = table_of("weather_day")
    same = [table.c[name].is_not_distinct_from(value) for name, value in shared.items()]
    where = [table.c.garden_id == tx.stamp.garden_id, *same]
    found = _sorted_out(rows, 1, _held(tx, "weather_day", DayIn._fields, 1, where, rows))
    _add_days(tx, shared, found)
    _correct_days(tx, shared, found)
    return found.counted(len(rows))


def import_hours(tx: Transaction, rows: Sequence[HourIn], *, series: Series) -> Imported:
    """Add new hours, correct those that differ, leave the rest, as `import_days` does.

    One change row stands for the whole import; it holds every figure that was corrected.
    """
    shared = checked(WeatherSeries, vars(series)).model_dump()
    check_hours(rows, tx.group_id)
    if not rows:
        return Imported(0, 0, 0)
    source = source_of(series.basis, series.issued_at)
    series_id = weather_id(tx.stamp.garden_id, shared["station"], "hours", series.kind, source)
    if tx.row("weather_series", series_id) is None:
        tx.add(WeatherSeries, row_id=series_id, **shared)
    table = table_of("weather_hour")
    found = _sorted_out(rows, 2, _held(tx, "weather_hour", HourIn._fields, 2, [table.c.series_id == series_id], rows))
    _add_hours(tx, series_id, found.fresh)
    for key, (_, now) in found.differing.items():
        _set_hour(tx, series_id, key, now)
    _note_hours(tx, series_id, found)
    return found.counted(len(rows))


def take_back_hours(tx: Transaction, series_id: str, before: Values | None, after: Values) -> None:
    """Undo one import of hours; raises Refused when a corrected hour no longer stands as it left it."""
    table = table_of("weather_hour")
    for old, new in zip((before or {"hours": []})["hours"], after["hours"], strict=True):
        query = select(*(table.c[name] for name in HourIn._fields[2:])).where(*_hour(series_id, new[:2]))
        stands = tx.session.connection().execute(query).first()
        if stands is None or list(stands) != new[2:]:
            raise Refused(f"This cannot be undone: the weather of {new[0]} was changed again later.")
        _set_hour(tx, series_id, tuple(old[:2]), tuple(old[2:]))
    gone = table.delete().where(table.c.series_id == series_id, table.c.import_id == after["import_id"])
    tx.session.connection().execute(gone)


def _held(
    tx: Transaction, entity: str, names: Sequence[str], keys: int, where: list[Any], rows: Sequence[Any]
) -> dict[Key, Figures]:
    if not rows:
        return {}
    table = table_of(entity)
    first, last = min(row[0] for row in rows), max(row[0] for row in rows)
    span = (table.c[names[0]] >= first, table.c[names[0]] <= last)
    query = select(*(table.c[name] for name in names)).where(*where, *span)
    return {tuple(row[:keys]): tuple(row[keys:]) for row in tx.session.connection().execute(query)}


def _sorted_out(rows: Sequence[Any], keys: int, held: dict[Key, Figures]) -> _Sorted:
    found = _Sorted({}, {})
    for row in rows:
        key, figures = row[:keys], row[keys:]
        old = held.get(key)
        if old is None:
            held[key] = found.fresh[key] = figures
            continue
        merged = tuple(was if now is None else now for was, now in zip(old, figures, strict=True))
        if merged == old:
            continue
        if key in found.fresh or key in found.differing:
            raise BadInput(f"{row[0]} is in the file twice with different figures; keep one of them.")
        found.differing[key] = old, merged
        held[key] = merged
    return found


def _day_id(tx: Transaction, shared: Values, on: str) -> str:
    source = source_of(shared["basis"], shared["issued_at"])
    return weather_id(tx.stamp.garden_id, shared["station"], on, shared["kind"], source)


def _add_days(tx: Transaction, shared: Values, found: _Sorted) -> None:
    stamped = tx.stamp_values() | shared
    added = [
        stamped | {"id": _day_id(tx, shared, key[0])} | dict(zip(DayIn._fields, (*key, *figures), strict=True))
        for key, figures in found.fresh.items()
    ]
    if added:
        tx.session.connection().execute(table_of("weather_day").insert(), added)
    tx.note_many([("weather_day", row["id"], None, row) for row in added])


def _correct_days(tx: Transaction, shared: Values, found: _Sorted) -> None:
    changes = []
    for (on,), (was, now) in found.differing.items():
        checked(WeatherDay, shared | {"on": on} | dict(zip(DayIn._fields[1:], now, strict=True)))
        moved = [trio for trio in zip(DayIn._fields[1:], was, now, strict=True) if trio[1] != trio[2]]
        before, after = {name: old for name, old, _ in moved}, {name: new for name, _, new in moved}
        tx.change("weather_day", _day_id(tx, shared, on), after)
        changes.append(("weather_day", _day_id(tx, shared, on), before, after))
    tx.note_many(changes)


def _add_hours(tx: Transaction, series_id: str, fresh: dict[Key, Figures]) -> None:
    if not fresh:
        return
    connection = tx.session.connection()
    names = ("series_id", "import_id", *HourIn._fields)
    mark = "?" if connection.dialect.paramstyle == "qmark" else "%s"
    sql = f"INSERT INTO weather_hour ({', '.join(names)}) VALUES ({', '.join(mark for _ in names)})"
    shared = (series_id, tx.group_id)
    # straight to the driver: the statement builder would double the time of ten years of hours
    connection.exec_driver_sql(sql, [(*shared, *key, *figures) for key, figures in fresh.items()])


def _set_hour(tx: Transaction, series_id: str, key: Key, figures: Figures) -> None:
    values = dict(zip(HourIn._fields[2:], figures, strict=True))
    checked(
        WeatherHour, {"series_id": series_id, "at": key[0], "offset_min": key[1], "import_id": tx.group_id} | values
    )
    update = table_of("weather_hour").update().where(*_hour(series_id, key)).values(values)
    tx.session.connection().execute(update)


def _hour(series_id: str, key: Sequence[Any]) -> tuple[Any, ...]:
    table = table_of("weather_hour")
    return table.c.series_id == series_id, table.c.at == key[0], table.c.offset_min == key[1]


def _note_hours(tx: Transaction, series_id: str, found: _Sorted) -> None:
    if not found.fresh and not found.differing:
        return
    old = [[*key, *was] for key, (was, _) in found.differing.items()]
    new = [[*key, *now] for key, (_, now) in found.differing.items()]
    after: Values = {"import_id": tx.group_id, "added": len(found.fresh), "hours": new}
    tx.note("weather_hour", series_id, {"hours": old} if old else None, after)
