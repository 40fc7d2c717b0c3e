"""One day from several records: each figure from the best record that has it, with its source."""

from dataclasses import dataclass, field
from datetime import date
from itertools import groupby
from typing import TYPE_CHECKING

from scout.services.context import Context
from scout.services.weather_stations import HERE, chosen

if TYPE_CHECKING:
    from scout.store.weather import DayView

FIELDS = ("tmax_c", "tmin_c", "rain_mm", "wet_h", "wet_morning", "rh_mean_pct")
FROM_HOURS = "from the hours"
_BASES = {"measured": "measured", "station": "station", "typed": "typed", "estimated": "estimated"}


@dataclass
class Merged:
    """One day; None where no record has the figure."""

    basis: str
    """Of the best record."""
    figures: dict[str, float | bool | None] = field(default_factory=lambda: dict.fromkeys(FIELDS))
    sources: dict[str, str] = field(default_factory=dict)
    """Where each figure comes from, in words."""
    elsewhere: bool = False
    """Whether a figure is another station's."""


def merged(context: Context, first: date, last: date, kind: str = "observed") -> dict[str, Merged]:
    """Return the recorded days by date; observed and forecast are never mixed.

    Best is measured, then station, typed, estimated, and of equals the garden's own; where the settings name
    stations, those alone are asked, in their order. Of forecasts the newest is the best.
    """
    from scout.store import weather

    with context.read() as session:
        rows = weather.days(
            session=session,
            garden_id=str(context.garden_id),
            since=first.isoformat(),
            until=last.isoformat(),
            kind=kind,
        )
    found: dict[str, Merged] = {}
    for row in _best_first(context, rows):
        day = found.setdefault(row.on, Merged(row.basis))
        source = source_text(row.basis, row.station)
        for name in FIELDS:
            value = getattr(row, name)
            if day.figures[name] is None and value is not None:
                day.figures[name] = value
                day.sources[name] = source
                day.elsewhere = day.elsewhere or row.station != HERE
    return found


def _best_first(context: Context, rows: "tuple[DayView, ...]") -> "list[DayView]":
    named = chosen(context)
    if named is not None:
        rank = {name: place for place, name in enumerate(named)}
        return sorted((row for row in rows if row.station in rank), key=lambda row: (row.on, rank[row.station]))
    ordered: list[DayView] = []
    for _, equals in groupby(rows, key=lambda row: (row.on, row.issued_at, row.basis)):
        ordered.extend(sorted(equals, key=lambda row: row.station != HERE))
    return ordered


def source_text(basis: str, station: str) -> str:
    """Return where a figure comes from: "measured here", "station Airport", "typed"."""
    words = _BASES[basis]
    if station == HERE:
        return f"{words} here" if basis == "measured" else words
    return f"{words} {station}" if basis == "station" else f"{words} at {station}"
