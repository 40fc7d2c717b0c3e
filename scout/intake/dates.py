"""Dates as files and people write them; the order of day and month is found from the data or asked for."""

import re
from collections.abc import Iterable, Sequence
from datetime import date
from itertools import pairwise
from typing import Literal

from scout.errors import BadInput
from scout.plain import shortened

Order = Literal["ymd", "dmy", "mdy", "words"]
ORDER_WORDS = {
    "ymd": "year-month-day",
    "dmy": "day/month/year",
    "mdy": "month/day/year",
    "words": "with the month in letters",
}

_YMD = re.compile(r"(\d{4})([-/.]?)(\d{2})\2(\d{2})|(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})", re.ASCII)
_THREE = re.compile(r"(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})", re.ASCII)
_DAY_FIRST = re.compile(r"(\d{1,2})[ .-]+([A-Za-z]{3,9})[ .,-]+(\d{4})", re.ASCII)
_MONTH_FIRST = re.compile(r"([A-Za-z]{3,9})[ .]+(\d{1,2}),?[ ]+(\d{4})", re.ASCII)
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def read_date(text: str, order: Order | None = None) -> date:
    """Return the date in `text`. Without an `order` only unmistakable forms are read. Errors: BadInput."""
    token = text.strip()
    for reader in (_ymd, _with_letters):
        found = reader(token)
        if found is not None:
            return found
    parts = _THREE.fullmatch(token)
    if parts:
        return _numbered(token, parts, order)
    raise _unknown(text)


def find_order(texts: Sequence[str]) -> Order:
    """Return how the dates of one column are written. Errors: BadInput when the data leave it open.

    Points mean day.month.year. With slashes or dashes a number over 12 settles it, or else days that follow
    one another in one order and not in the other.
    """
    different = dict.fromkeys(texts)  # in the order of the file; an hourly file repeats each date
    numbered = [parts for text in different if (parts := _THREE.fullmatch(text.strip()))]
    if not numbered:
        lettered = any(_with_letters(text.strip()) for text in texts[:50])
        return "words" if lettered else "ymd"
    unsettled = [parts for parts in numbered if parts[2] != "."]
    return _settled(unsettled) if unsettled else "dmy"


def _settled(numbered: list[re.Match[str]]) -> Order:
    day_first = any(int(parts[1]) > 12 for parts in numbered)
    month_first = any(int(parts[3]) > 12 for parts in numbered)
    if day_first and month_first:
        raise BadInput("The dates mix day/month and month/day; write them all like 2026-07-01.")
    if day_first or month_first:
        return "dmy" if day_first else "mdy"
    daily: list[Order] = [order for order in ("dmy", "mdy") if _follow_on(numbered, order)]
    if len(daily) == 1:
        return daily[0]
    first = numbered[0][0]
    raise BadInput(f"“{first}” can be day/month or month/day, and no row settles it; write dates like 2026-07-01.")


def _follow_on(numbered: Iterable[re.Match[str]], order: Order) -> bool:
    """Tell whether at least three dates follow one another without a gap of more than a day."""
    try:
        days = [_numbered(parts[0], parts, order).toordinal() for parts in numbered]
    except BadInput:
        return False
    steps = [later - earlier for earlier, later in pairwise(days)]
    return sum(step != 0 for step in steps) >= 2 and all(0 <= step <= 1 for step in steps)


def _numbered(token: str, parts: re.Match[str], order: Order | None) -> date:
    first, second, year = int(parts[1]), int(parts[3]), int(parts[4])
    if len(parts[4]) == 2:
        year += 2000
    if parts[2] == "." or order == "dmy" or (order is None and (first > 12 or first == second)):
        return _made(token, year, second, first)
    if order == "mdy" or (order is None and second > 12):
        return _made(token, year, first, second)
    raise BadInput(f"“{token}” can be day/month or month/day; write the date like 2026-07-01.")


def _ymd(token: str) -> date | None:
    parts = _YMD.fullmatch(token)
    if parts is None:
        return None
    year, month, day = (parts[1], parts[3], parts[4]) if parts[1] else (parts[5], parts[6], parts[7])
    return _made(token, int(year), int(month), int(day))


def _with_letters(token: str) -> date | None:
    if parts := _DAY_FIRST.fullmatch(token):
        day, month, year = parts[1], parts[2], parts[3]
    elif parts := _MONTH_FIRST.fullmatch(token):
        month, day, year = parts[1], parts[2], parts[3]
    else:
        return None
    key = month[:3].lower()
    if key not in _MONTHS:
        return None
    return _made(token, int(year), _MONTHS.index(key) + 1, int(day))


def _made(token: str, year: int, month: int, day: int) -> date:
    try:
        found = date(year, month, day)
    except ValueError:
        raise BadInput(f"“{shortened(token)}” is no day of the calendar; write the date like 2026-07-01.") from None
    if not 1900 <= year <= 2100:
        raise BadInput(f"“{shortened(token)}” is not in this century or the last; check the year.")
    return found


def _unknown(text: str) -> BadInput:
    return BadInput(f"“{shortened(text)}” is not a date; write it like 2026-07-01.")
