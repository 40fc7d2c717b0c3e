"""Clock times of a walk: clean beds at once, sick beds when leaves are dry, nobody out while it is dangerously hot."""

from collections.abc import Sequence
from dataclasses import dataclass

from scout.diagnosis.budget import Room, chosen
from scout.diagnosis.route import Visit, walking_order

DUSK_MIN = 20 * 60 + 30
"""What can wait is not put off to an evening hour later than half past eight. Our choice."""


@dataclass(frozen=True)
class DayHours:
    """The day's limits as minutes since midnight; None where unknown or where there is no such limit."""

    start: int
    """When the walk begins."""
    dry_from: int | None = None
    """When leaves are likely dry; sick beds are not touched before. None: dry already, or not known."""
    hot_from: int | None = None
    """From when the heat is dangerous."""
    hot_until: int | None = None

    @property
    def hot_now(self) -> bool:
        """Return whether the walk would begin in dangerous heat."""
        return self.hot_from is not None and self.hot_from <= self.start < (self.hot_until or 24 * 60)


@dataclass(frozen=True)
class Timed:
    """One stop with its beginning, minutes since midnight."""

    visit: Visit
    at: int


@dataclass(frozen=True)
class Walked:
    """A walk laid out: what is made, and what is left out."""

    stops: tuple[Timed, ...]
    left: tuple[Visit, ...]
    wait_min: int
    """Minutes to wait for dry leaves between the passes."""
    only_musts: bool
    """Too hot now: only what cannot wait."""


def laid_out(visits: Sequence[Visit], day: DayHours, minutes: float | None = None) -> Walked:
    """Return the walk within the minutes given and before the heat.

    In dangerous heat only what cannot wait is left, begun once it is cooler. Sick beds come after the clean ones and
    not before leaves are dry; where that leaves no room before the heat, they are left out.
    """
    if day.hot_now:
        return _in_heat(visits, day)
    room = _room(day, minutes)
    keys = frozenset(v.key for v in visits) if room is None else chosen(visits, room)
    stops, wait = _timed([v for v in visits if v.key in keys], day.start, day.dry_from)
    left = walking_order(v for v in visits if v.key not in keys)
    return Walked(stops, left, wait, False)


def end_of(day: DayHours, minutes: float | None) -> float | None:
    """Return when the walk has to be over, minutes since midnight; None: as long as it takes."""
    ends = [] if minutes is None else [day.start + minutes]
    if day.hot_from is not None and day.hot_from > day.start:
        ends.append(float(day.hot_from))
    return min(ends, default=None)


def _room(day: DayHours, minutes: float | None) -> Room | None:
    """Return the minutes there are; None: as many as it takes."""
    end = end_of(day, minutes)
    if end is None:
        return None
    return Room(end - day.start, max(0.0, end - max(day.start, day.dry_from or 0)))


def _in_heat(visits: Sequence[Visit], day: DayHours) -> Walked:
    musts = [visit for visit in visits if visit.must]
    left = walking_order(visit for visit in visits if not visit.must)
    stops, _ = _timed(musts, day.start if day.hot_until is None else day.hot_until, None)
    return Walked(stops, left, 0, True)


def _timed(visits: Sequence[Visit], start: int, dry_from: int | None) -> tuple[tuple[Timed, ...], int]:
    now, wait = float(start), 0
    stops = []
    for visit in walking_order(visits):
        if visit.sick and dry_from is not None and now < dry_from:
            wait, now = round(dry_from - now), float(dry_from)
        stops.append(Timed(visit, round(now)))
        now += visit.minutes
    return tuple(stops), wait


def clock_text(minute: int) -> str:
    """Return minutes since midnight as "9:40"."""
    return f"{minute // 60 % 24}:{minute % 60:02d}"
