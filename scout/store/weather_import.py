"""Takes in a whole file of weather: without doubles, and with a history of corrections."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import chain
from operator import itemgetter
from typing import Any
from uuid import UUID

from sqlalchemy import select

from scout.errors import BadInput, Refused
from scout.store.checking import checked
from scout.store.history import Transaction, Values
from scout.store.ids import weather_id
from scout.store.tables import table_of
from scout.store.tables_weather import WeatherDay, WeatherHour, WeatherSeries
from scout.store.weather import source_of
from scout.store.weather_columns import DayIn, HourIn, check_days, check_hours
from scout.store.weather_corrections import Correction, corrections_of

Key = tuple[Any, ...]
Figures = tuple[Any, ...]
Told = Callable[[float], None]
"""Hears the share that is done, 0 to 1; an exception it raises stops the import and nothing of it is kept."""
_ROWS_A_STATEMENT = 8
_CHUNK = 1_000 * _ROWS_A_STATEMENT


def _unheard(share: float) -> None:
    return None


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
    corrections: tuple[Correction, ...] = ()
    """Each figure that was corrected, in the order of the file."""


@dataclass(frozen=True)
class _Sorted:
    fresh: Sequence[Any]
    """Records that are not there yet."""
    differing: dict[Key, tuple[Figures, Figures]]
    """Figures before and after."""

    def counted(self, total: int, names: Sequence[str]) -> Imported:
        moved = corrections_of(names, self.differing)
        return Imported(len(self.fresh), total - len(self.fresh) - len(self.differing), len(self.differing), moved)


def import_days(tx: Transaction, rows: Sequence[DayIn], *, series: Series, told: Told = _unheard) -> Imported:
    """Add new days, correct those that differ, leave the rest; return how many of each and what was corrected.

    A figure the file does not have (None) never wipes out one that is there. Every day added or corrected has
    its change row. Raises BadInput naming the first record that cannot be.
    """
    shared = checked(WeatherSeries, vars(series)).model_dump()
    check_days(rows, shared)
    table = table_of("weather_day")
    same = [table.c[name].is_not_distinct_from(value) for name, value in shared.items()]
    where = [table.c.garden_id == tx.stamp.garden_id, *same]
    found = _sorted_out(rows, 1, _held(tx, "weather_day", DayIn._fields, 1, where, rows))
    told(0.3)
    _add_days(tx, shared, found)
    told(0.7)
    _correct_days(tx, shared, found)
    return found.counted(len(rows), DayIn._fields[1:])


def import_hours(tx: Transaction, rows: Sequence[HourIn], *, series: Series, told: Told = _unheard) -> Imported:
    """Add new hours, correct those that differ, leave the rest, as `import_days` does.

    One change row stands for the whole import; it holds every figure that was corrected.
    """
    shared = checked(WeatherSeries, vars(series)).model_dump()
    check_hours(rows, tx.group_id)
    if not rows:
        return Imported(0, 0, 0)
    told(0.1)
    source = source_of(series.basis, series.issued_at)
    series_id = weather_id(tx.stamp.garden_id, shared["station"], "hours", series.kind, source)
    held: dict[Key, Figures] = {}
    if tx.row("weather_series", series_id) is None:
        tx.add(WeatherSeries, row_id=series_id, **shared)
    else:
        where = [table_of("weather_hour").c.series_id == series_id]
        held = _held(tx, "weather_hour", HourIn._fields, 2, where, rows)
    found = _sorted_out(rows, 2, held)
    told(0.2)
    _add_hours(tx, series_id, found.fresh, lambda share: told(0.2 + 0.7 * share))
    for key, (_, now) in found.differing.items():
        _set_hour(tx, series_id, key, now)
    _note_hours(tx, series_id, found)
    return found.counted(len(rows), HourIn._fields[2:])


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
    if not held and len({row[0] for row in rows}) == len(rows):
        return _Sorted(rows, {})
    fresh: dict[Key, Any] = {}
    differing: dict[Key, tuple[Figures, Figures]] = {}
    for row in rows:
        key, figures = row[:keys], row[keys:]
        old = held.get(key)
        if old == figures:
            continue
        if old is None:
            held[key], fresh[key] = figures, row
            continue
        merged = tuple(was if now is None else now for was, now in zip(old, figures, strict=True))
        if merged == old:
            continue
        if key in fresh or key in differing:
            raise BadInput(f"{row[0]} is in the file twice with different figures; keep one of them.")
        differing[key] = old, merged
        held[key] = merged
    return _Sorted(list(fresh.values()), differing)


def _day_id(tx: Transaction, shared: Values, on: str) -> str:
    source = source_of(shared["basis"], shared["issued_at"])
    return weather_id(tx.stamp.garden_id, shared["station"], on, shared["kind"], source)


def _add_days(tx: Transaction, shared: Values, found: _Sorted) -> None:
    stamped = tx.stamp_values() | shared
    added = [
        stamped | {"id": _day_id(tx, shared, row[0])} | dict(zip(DayIn._fields, row, strict=True))
        for row in found.fresh
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


def _add_hours(tx: Transaction, series_id: str, fresh: Sequence[Any], told: Told) -> None:
    """Add the rows straight through the driver, several in a statement, without the columns they do not have."""
    if not fresh:
        return
    columns = {name: list(map(itemgetter(at), fresh)) for at, name in enumerate(HourIn._fields)}
    kept = {name: column for name, column in columns.items() if column.count(None) < len(column)}
    figures = list(chain.from_iterable(zip(*kept.values(), strict=True)))
    whole = len(fresh) - len(fresh) % _ROWS_A_STATEMENT
    step, size = _CHUNK * len(kept), _ROWS_A_STATEMENT * len(kept)
    for start in range(0, whole * len(kept), step):
        end = min(start + step, whole * len(kept))
        _insert(tx, series_id, list(kept), [figures[at : at + size] for at in range(start, end, size)])
        told(end / len(figures))
    rest = [figures[at : at + len(kept)] for at in range(whole * len(kept), len(figures), len(kept))]
    _insert(tx, series_id, list(kept), rest)


def _insert(tx: Transaction, series_id: str, names: list[str], statements: list[list[Any]]) -> None:
    if not statements:
        return
    connection = tx.session.connection()
    mark = "?" if connection.dialect.paramstyle == "qmark" else "%s"
    # both ids are made by this program; as text in the statement they are not handed over 87,600 times
    ids = ", ".join(f"'{UUID(one)}'" for one in (series_id, tx.group_id))
    row = f"({ids}, {', '.join(mark for _ in names)})"
    rows = ", ".join([row] * (len(statements[0]) // len(names)))
    sql = f"INSERT INTO weather_hour (series_id, import_id, {', '.join(names)}) VALUES {rows}"
    connection.exec_driver_sql(sql, [tuple(figures) for figures in statements])


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
