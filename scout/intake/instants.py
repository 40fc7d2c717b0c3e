"""Dates with a time of day, a whole column at once."""

import re
from collections.abc import Sequence
from datetime import UTC, date, datetime, time, timedelta, timezone

from scout.errors import BadInput
from scout.intake.columns import Problems
from scout.intake.dates import Order, find_order, read_date
from scout.plain import shortened

_SPLIT = re.compile(
    r"(.+?)(?:[ T]+|, *)(\d{1,2}(?::\d{2}){0,2}(?:\.\d+)?|\d{4})\s*([AaPp]\.?[Mm]\.?)?"
    r"(?:\s*([A-Z]{1,4}|[+-]\d{2}:?\d{2}))?",
    re.ASCII,
)
_CLOCK = re.compile(r"(\d{1,2})(?::(\d{2}))?(?::\d{2}(?:\.\d+)?)?|(\d{2})(\d{2})", re.ASCII)
_UNUSABLE = datetime(1970, 1, 1)  # stands where a cell could not be read


def read_instants(cells: Sequence[str], order: Order | None, name: str) -> tuple[list[datetime], Problems, Order]:
    """Return the instants, the cells that are none, and how the dates are written. Errors: BadInput.

    A place with a problem holds a filler. 24:00 is midnight of the next day.
    """
    try:
        instants = list(map(datetime.fromisoformat, cells))
    except ValueError:
        return _one_by_one(cells, order, name)
    _refuse_mixed(instants, name)
    problems = _unlikely(instants, cells)
    for place in problems:
        instants[place] = _UNUSABLE.replace(tzinfo=instants[place].tzinfo)
    return instants, problems, "ymd"


def _one_by_one(cells: Sequence[str], order: Order | None, name: str) -> tuple[list[datetime], Problems, Order]:
    split = [_SPLIT.fullmatch(cell.strip()) for cell in cells]
    found = order or _order([parts[1] for parts in split if parts], name)
    days: dict[str, date] = {}
    clocks: dict[tuple[str, str | None], timedelta] = {}
    problems: Problems = {}
    instants: list[datetime] = []
    for at, (cell, parts) in enumerate(zip(cells, split, strict=True)):
        try:
            instants.append(_instant(cell, parts, found, days, clocks))
        except BadInput as problem:
            problems[at] = str(problem).rstrip(".")
            instants.append(_UNUSABLE)
    _refuse_mixed([instant for instant in instants if instant is not _UNUSABLE], name)
    return instants, problems, found


def _instant(
    cell: str,
    parts: re.Match[str] | None,
    order: Order,
    days: dict[str, date],
    clocks: dict[tuple[str, str | None], timedelta],
) -> datetime:
    """Return one instant; dates and times already met are looked up, for they repeat a thousandfold."""
    if parts is None:
        return _iso(cell)
    day = days.get(parts[1])
    if day is None:
        day = days[parts[1]] = read_date(parts[1], order)
    key = (parts[2], parts[3])
    clock = clocks.get(key)
    if clock is None:
        clock = clocks[key] = _since_midnight(parts[2], parts[3])
    return datetime.combine(day, time(), _zone(parts[4])) + clock


def _zone(text: str | None) -> timezone | None:
    if text is None:
        return None
    if text in ("Z", "UTC", "GMT"):
        return UTC
    if text[0] in "+-":
        minutes = int(text[1:3]) * 60 + int(text[-2:])
        return timezone(timedelta(minutes=minutes if text[0] == "+" else -minutes))
    raise BadInput(f"“{text}” can mean several time zones; leave it out and name the zone of the file.")


def _iso(cell: str) -> datetime:
    try:
        return datetime.fromisoformat(cell.strip())
    except ValueError:
        raise BadInput(f"“{shortened(cell)}” is not a date with a time; write it like 2026-07-01 14:00.") from None


def _since_midnight(text: str, half: str | None) -> timedelta:
    parts = _CLOCK.fullmatch(text)
    hour = int((parts[1] or parts[3]) if parts else "99")
    minute = int((parts[2] or parts[4] or "0") if parts else "0")
    if half is not None and 1 <= hour <= 12:
        hour = hour % 12 + (12 if half[0] in "Pp" else 0)
    elif half is not None:
        hour = 99
    if minute > 59 or hour > 24 or (hour == 24 and minute):
        raise BadInput(f"“{shortened(text)}” is not a time of day; write it like 14:00.")
    return timedelta(hours=hour, minutes=minute)


def _order(texts: list[str], name: str) -> Order:
    try:
        return find_order(texts)
    except BadInput as problem:
        raise BadInput(f"“{name}”: {problem}") from None


def _refuse_mixed(instants: list[datetime], name: str) -> None:
    if len({instant.tzinfo is None for instant in instants}) > 1:
        raise BadInput(f"“{name}” mixes times with and without an offset from UTC; export it again one way.")


def _unlikely(instants: list[datetime], cells: Sequence[str]) -> Problems:
    if not instants or (min(instants).year >= 1900 and max(instants).year <= 2100):
        return {}
    return {
        at: f"“{shortened(cells[at])}” is not in this century or the last; check the year"
        for at, instant in enumerate(instants)
        if not 1900 <= instant.year <= 2100
    }
