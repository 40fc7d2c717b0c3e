"""Weather from a file: understood and shown first, taken in when told, by its station and its source."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from scout.errors import BadInput
from scout.services.context import Context
from scout.services.site import site_of
from scout.services.weather_stations import HERE

if TYPE_CHECKING:
    from scout.intake.dates import Order
    from scout.intake.sheet import Hints, UnitsHint
    from scout.store.weather_corrections import Correction
    from scout.store.weather_import import Imported

Told = Callable[[float], None]
"""Hears the share that is done, 0 to 1; an exception it raises stops the work and nothing of it is kept."""
CORRECTIONS_SHOWN = 12


def _unheard(share: float) -> None:
    return None


@dataclass(frozen=True)
class Said:
    """What the grower says of a file; None where the file or the garden tells."""

    station: str = HERE
    basis: str | None = None
    """measured, station, typed, estimated; None: measured for the garden's own station, station for another."""
    issued_at: str | None = None
    """When a forecast was issued, as 2026-07-22T06:00; None: what was observed."""
    hourly: bool | None = None
    zone: str | None = None
    """The clock of its times: garden, standard, UTC, +02:00, Europe/Rome."""
    units: "UnitsHint | None" = None
    dates: "Order | None" = None


@dataclass(frozen=True)
class WeatherFile:
    """A file of weather, understood but not yet written."""

    lines: tuple[str, ...]
    """What was understood of each column, and what was refused, as sentences."""
    rows_n: int
    refused_n: int
    hourly: bool
    said: Said
    rows: tuple[Any, ...] = field(repr=False)


@dataclass(frozen=True)
class TakenIn:
    """What became of a file."""

    line: str
    added: int
    unchanged: int
    corrected: int
    corrections: tuple[str, ...]
    """What was corrected, a sentence a figure; all of it stays in the history."""


def holds_hours(file: Path) -> bool:
    """Return whether a weather file holds hours. Errors: BadInput naming the file."""
    from scout.intake import weather_kind

    return weather_kind.holds_hours(file)


def look_into(context: Context, file: Path, said: Said | None = None, told: Told = _unheard) -> WeatherFile:
    """Return what a weather file says before anything is written; days or hours is found from the file."""
    from scout.intake.weather_csv import read_days
    from scout.intake.weather_hours_csv import read_hours

    said = said or Said()
    hints = _hints(context, said)
    hourly = holds_hours(file) if said.hourly is None else said.hourly
    read = read_hours(file, hints, told) if hourly else read_days(file, hints, told)
    refused = tuple(f"Row {bad.row}: {bad.reason}" for bad in read.refused)
    lines = (_headline(said, hourly), *read.understood, *refused)
    return WeatherFile(lines, len(read.rows), len(read.refused), hourly, said, read.rows)


def take_in(context: Context, found: WeatherFile, told: Told = _unheard) -> TakenIn:
    """Write the good rows that were shown; return how many were new, unchanged and corrected."""
    from scout.intake.weather_hours_csv import no_collecting
    from scout.store.weather_import import Series, import_days, import_hours

    said = found.said
    kind = "observed" if said.issued_at is None else "forecast"
    series = Series(said.station, kind, _basis(said), said.issued_at)
    with no_collecting(), context.write() as tx:
        if found.hourly:
            done = import_hours(tx, found.rows, series=series, told=told)
        else:
            done = import_days(tx, _days(found.rows), series=series, told=told)
    return _told(context, found, done)


def corrections(context: Context) -> tuple[str, ...]:
    """Return every figure of the weather that was changed later, newest change first, as lines."""
    from scout.store.weather_corrections import noted_corrections

    with context.read() as session:
        noted = noted_corrections(session=session, garden_id=str(context.garden_id))
    units = site_of(context).units
    return tuple(f"{correction_text(one, units)} ({one.station}, corrected {one.corrected_at[:10]})" for one in noted)


def correction_text(one: "Correction", units: str) -> str:
    """Return one corrected figure as a line, in the grower's units."""
    from scout.services.weather_figures import FIGURES, figure_text

    name = FIGURES.get(one.name, one.name)
    was, now = figure_text(one.name, one.before, units), figure_text(one.name, one.after, units)
    return f"{one.at.replace('T', ' ')} {name}: {was}, now {now}"


def _hints(context: Context, said: Said) -> "Hints":
    from scout.intake.sheet import Hints
    from scout.intake.wall_clock import read_zone

    garden = ZoneInfo(site_of(context).zone)
    zone = None if said.zone is None else read_zone(said.zone, garden)
    until = None if said.issued_at is not None else context.moment()[0]
    return Hints(said.units, said.dates, zone, garden, until, said.issued_at)


def _basis(said: Said) -> str:
    return said.basis or ("measured" if said.station == HERE else "station")


def _headline(said: Said, hourly: bool) -> str:
    what = "Hours" if hourly else "Days"
    whose = "of this garden" if said.station == HERE else f"of the station {said.station}"
    if said.issued_at is not None:
        return (
            f"{what} {whose}: a forecast issued {said.issued_at.replace('T', ' ')}, kept apart from what was measured."
        )
    return f"{what} {whose}, {_basis(said)}."


def _days(rows: Sequence[Any]) -> list[Any]:
    from scout.store.weather_columns import DayIn

    return [DayIn(r.on.isoformat(), r.tmax_c, r.tmin_c, r.rain_mm, r.wet_h, r.wet_morning, r.rh_mean_pct) for r in rows]


def _told(context: Context, found: WeatherFile, done: "Imported") -> TakenIn:
    units = site_of(context).units
    refused = f", {found.refused_n} refused" if found.refused_n else ""
    what = "hours" if found.hourly else "days"
    line = f"{done.added} {what} new, {done.unchanged} unchanged, {done.corrected} corrected{refused}."
    lines = [correction_text(one, units) for one in done.corrections[:CORRECTIONS_SHOWN]]
    more = len(done.corrections) - CORRECTIONS_SHOWN
    if more > 0:
        lines.append(f"and {more} more corrections; all of them: bedwalk weather corrections")
    return TakenIn(line, done.added, done.unchanged, done.corrected, tuple(lines))


def issued(text: str) -> str:
    """Return the time of issue of a forecast as 2026-07-22T06:00. Errors: BadInput."""
    try:
        return datetime.fromisoformat(text.strip()).replace(tzinfo=None).isoformat("T", "minutes")
    except ValueError:
        raise BadInput(f"“{text.strip()[:40]}” is no time of issue; write it like 2026-07-22 06:00.") from None
