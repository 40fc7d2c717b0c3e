"""The times of a file turned to the garden's wall clock with its offset from UTC; no hour is lost or doubled."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta, timezone, tzinfo
from itertools import repeat
from typing import cast
from zoneinfo import ZoneInfo

from scout.errors import BadInput
from scout.intake.columns import Problems
from scout.plain import shortened

_OFFSET = re.compile(r"(?:UTC|GMT)? ?([+-])(\d{1,2})(?::?(\d{2}))?", re.IGNORECASE | re.ASCII)
_MIDNIGHT = time()
_CLOCK = r"\d{4}-\d\d-\d\d[ T](?:[01]\d|2[0-3]):[0-5]\d"
_WRITTEN = {
    length: re.compile(f"{one}(?:\n{one})*", re.ASCII) for length, one in ((16, _CLOCK), (19, _CLOCK + r":\d\d"))
}


@dataclass(slots=True)
class WallTimes:
    """Columns of wall-clock times such as 2026-07-01T14:00 and offsets in minutes, and what was odd about them."""

    at: list[str]
    offset_min: list[int]
    problems: Problems
    notes: list[str]


@dataclass(slots=True)
class _Clock:
    """One zone's clock; days on which it is never put forward or back are answered once a day."""

    zone: tzinfo
    known: dict[date, int | None] = field(default_factory=dict)

    def all_day(self, day: date) -> int | None:
        """Return the offset that holds all day, None on a day when the clock is put forward or back."""
        if day not in self.known:
            first = self.at(datetime.combine(day, _MIDNIGHT))
            same = first == self.at(datetime.combine(day, _MIDNIGHT) + timedelta(days=1))
            self.known[day] = first if same else None
        return self.known[day]

    def at(self, wall: datetime, fold: int = 0) -> int:
        return _minutes(self.zone.utcoffset(wall.replace(fold=fold)))


def read_zone(text: str, garden: ZoneInfo) -> tzinfo:
    """Return the zone named by "garden", "standard", "UTC", "+02:00" or "Europe/Rome". Errors: BadInput.

    "standard" is the garden's standard time all the year, as loggers keep it that know no summer time.
    """
    word = text.strip()
    if word.lower() == "garden":
        return garden
    if word.lower() == "standard":
        return timezone(timedelta(minutes=_standard_min(garden)))
    if word.lower() in ("utc", "gmt", "z"):
        return UTC
    if found := _OFFSET.fullmatch(word):
        minutes = int(found[2]) * 60 + int(found[3] or 0)
        if minutes <= 14 * 60:
            return timezone(timedelta(minutes=minutes if found[1] == "+" else -minutes))
    try:
        return ZoneInfo(word)
    except (KeyError, OSError, ValueError):
        raise BadInput(
            f"“{shortened(word)}” is no time zone; write garden, standard, UTC, +02:00 or a name like Europe/Rome."
        ) from None


def _standard_min(garden: ZoneInfo) -> int:
    """Return the lesser of the offsets in January and July, which is standard time on both halves of the globe."""
    return min(_minutes(garden.utcoffset(datetime(2025, month, 1))) for month in (1, 7))


def wall_times(instants: Sequence[datetime], file: tzinfo, garden: ZoneInfo, cells: Sequence[str] = ()) -> WallTimes:
    """Return the instants by the garden's clock; those without an offset are read in the zone of the file.

    A time that the clock skipped in spring is a problem. One that it showed twice in autumn is the earlier when it
    is met first, and the later when it is met again; a file may run forwards or backwards. `cells` are the texts
    that were read, which are used as they are where that is quicker.
    """
    if instants and instants[0].tzinfo is not None:
        naive = [instant.astimezone(UTC).replace(tzinfo=None) for instant in instants]
        return _from_utc(naive, garden)
    offsets, problems, notes = _offsets(instants, _Clock(file))
    if file == garden:
        return WallTimes(_as_written(cells) or _texts(instants), offsets, problems, notes)
    steps = {minutes: timedelta(minutes=minutes) for minutes in set(offsets)}
    found = _from_utc([wall - steps[minutes] for wall, minutes in zip(instants, offsets, strict=True)], garden)
    return WallTimes(found.at, found.offset_min, problems, notes)


def _from_utc(instants: Sequence[datetime], garden: ZoneInfo) -> WallTimes:
    days = {instant.date() for instant in instants}
    whole = {day: _all_utc_day(day, garden) for day in days}
    offsets = [
        minutes if (minutes := whole[instant.date()]) is not None else _at_instant(instant, garden)
        for instant in instants
    ]
    steps = {minutes: timedelta(minutes=minutes) for minutes in set(offsets)}
    walls = [instant + steps[minutes] for instant, minutes in zip(instants, offsets, strict=True)]
    return WallTimes(_texts(walls), offsets, {}, [])


def _all_utc_day(day: date, garden: ZoneInfo) -> int | None:
    start = datetime.combine(day, _MIDNIGHT)
    first = _at_instant(start, garden)
    return first if first == _at_instant(start + timedelta(days=1), garden) else None


def _at_instant(instant: datetime, garden: ZoneInfo) -> int:
    return _minutes(instant.replace(tzinfo=UTC).astimezone(garden).utcoffset())


def _offsets(walls: Sequence[datetime], clock: _Clock) -> tuple[list[int], Problems, list[str]]:
    days = [wall.date() for wall in walls]
    offset_of = {day: clock.all_day(day) for day in set(days)}
    found = [offset_of[day] for day in days]
    if None not in offset_of.values():
        return cast("list[int]", found), {}, []
    backwards = walls[0] > walls[-1]
    problems: Problems = {}
    met: dict[datetime, int] = {}
    changing = [place for place, offset in enumerate(found) if offset is None]
    for place in reversed(changing) if backwards else changing:
        found[place] = _on_a_changing_day(walls[place], clock, met, problems, place)
    return cast("list[int]", found), problems, _told(met)


def _on_a_changing_day(wall: datetime, clock: _Clock, met: dict[datetime, int], problems: Problems, place: int) -> int:
    before, after = clock.at(wall), clock.at(wall, fold=1)
    if before < after:
        problems[place] = (
            f"{wall:%Y-%m-%d %H:%M} was skipped when the clock went forward; for a logger without summer time"
            " give the zone as standard"
        )
    if before > after:
        met[wall] = met.get(wall, 0) + 1
        return before if met[wall] == 1 else after
    return before


def _told(met: dict[datetime, int]) -> list[str]:
    days = sorted({wall.date() for wall in met})
    once = sorted({wall.date() for wall, times in met.items() if times == 1})
    notes = []
    if len(days) > len(once):
        notes.append("Where the clock went back and an hour came twice, the first is summer time.")
    if once:
        notes.append(f"Clock back on {once[0]}: the repeated hour is in the file once, read as the first of the two.")
    return notes


def _as_written(cells: Sequence[str]) -> list[str] | None:
    """Return the texts cut to the minute when all of them are written like 2026-07-01 14:00."""
    lengths = set(map(len, cells))
    written = _WRITTEN.get(lengths.pop()) if len(lengths) == 1 else None
    if written is None or not written.fullmatch("\n".join(cells)):
        return None
    return "\n".join([cell[:16] for cell in cells]).replace(" ", "T").split("\n")


def _texts(walls: Sequence[datetime]) -> list[str]:
    return list(map(datetime.isoformat, walls, repeat("T"), repeat("minutes")))


def _minutes(offset: timedelta | None) -> int:
    return int(offset.total_seconds() // 60) if offset else 0
