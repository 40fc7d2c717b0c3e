"""Whose weather is kept, and whose speaks for the garden."""

from collections.abc import Iterable
from dataclasses import dataclass

from scout.plain import clean_text
from scout.services.context import Context

HERE = "here"
"""The station of values measured or typed in the garden itself; it is asked first."""


@dataclass(frozen=True)
class StationView:
    """What is kept of one station, of one kind and source."""

    station: str
    kind: str
    basis: str
    of: str
    first: str
    last: str
    rows_n: int
    speaks: bool
    """Whether it tells of this garden; the settings say so."""

    @property
    def line(self) -> str:
        """Return it as one line."""
        kind = "" if self.kind == "observed" else " forecast"
        tail = "" if self.speaks else "; not asked about this garden"
        span = f"{self.first[:10]} to {self.last[:10]}"
        return f"{self.station}: {self.rows_n}{kind} {self.of}, {self.basis}, {span}{tail}"


def in_order(context: Context, names: Iterable[str]) -> list[str]:
    """Return the stations that speak for the garden, best first.

    The settings name them; where they name none all of them do, the garden's own before the others.
    """
    named = chosen(context)
    if named is None:
        return sorted(names, key=lambda name: (name != HERE, name))
    found = set(names)
    return [name for name in named if name in found]


def chosen(context: Context) -> tuple[str, ...] | None:
    """Return the stations the settings name, best first; None when they leave it open."""
    given = context.settings.stations
    if given is None:
        return None
    return tuple(name for part in given.split(",") if (name := clean_text(part)))


def kept(context: Context) -> tuple[StationView, ...]:
    """Return what is kept of each station."""
    from scout.store import weather

    named = chosen(context)
    with context.read() as session:
        found = weather.kept(session=session, garden_id=str(context.garden_id))
    return tuple(StationView(**vars(one), speaks=named is None or one.station in named) for one in found)
