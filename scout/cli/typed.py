"""Values typed after a flag: numbers with a decimal comma or point, whole numbers, days, shares of leaf area."""

import re
from collections.abc import Callable
from datetime import date

from scout.errors import BadInput
from scout.plain import shortened

Thirds = tuple[float | None, float | None, float | None]
"""Shares by canopy third, lowest first; None was not judged."""

_SHARES = "write three shares in per cent for lowest, middle and top, like 5,2,0 (or 1.5 0.5 -)"


def _named(flag: str, read: Callable[[], object]) -> object:
    try:
        return read()
    except BadInput as problem:
        raise BadInput(f"{flag}: {problem}") from None


def count(flag: str) -> Callable[[str], int]:
    """Return a reader of whole numbers from 0 that names the flag in its complaint."""

    def read(text: str) -> int:
        from scout.intake.decimals import read_count

        return _named(flag, lambda: read_count(text))  # type: ignore[return-value]

    return read


def decimal(flag: str) -> Callable[[str], float]:
    """Return a reader of numbers: 1,5 is one and a half."""

    def read(text: str) -> float:
        from scout.intake.decimals import read_decimal

        return _named(flag, lambda: read_decimal(text))  # type: ignore[return-value]

    return read


def clock(flag: str) -> Callable[[str], int]:
    """Return a reader of times of day such as 6:30, as minutes since midnight."""

    def read(text: str) -> int:
        found = re.fullmatch(r"\s*(\d{1,2})[:.](\d{2})\s*", text, re.ASCII)
        if found is None or int(found[1]) > 23 or int(found[2]) > 59:
            raise BadInput(f"{flag}: write the time like 6:30 or 18:05, not {shortened(text, 20)!r}.")
        return 60 * int(found[1]) + int(found[2])

    return read


def day(flag: str) -> Callable[[str], date]:
    """Return a reader of days."""

    def read(text: str) -> date:
        from scout.intake.dates import read_date

        return _named(flag, lambda: read_date(text))  # type: ignore[return-value]

    return read


def shares(flag: str) -> Callable[[str], Thirds]:
    """Return a reader of leaf area by canopy third, 0-100 %; "-" is not judged, one number is the lowest third."""

    def read(text: str) -> Thirds:
        return _named(flag, lambda: _thirds(text))  # type: ignore[return-value]

    return read


def _thirds(text: str) -> Thirds:
    """Blanks or semicolons part the shares, so that a comma may be a decimal sign; else two commas part three."""
    parts = re.split(r"[;\s]+", text.strip()) if re.search(r"[;\s]", text.strip()) else text.strip().split(",")
    parts = [part.strip(",") for part in parts if part.strip(",")]
    if len(parts) not in (1, 3):
        raise BadInput(f"“{shortened(text, 24)}” is not clear; {_SHARES}.")
    given = [_share(part) for part in parts]
    return (given[0], given[1], given[2]) if len(given) == 3 else (given[0], None, None)


def _share(text: str) -> float | None:
    from scout.intake.decimals import read_decimal

    if text in ("-", "–"):
        return None
    value = read_decimal(text.removesuffix("%"))
    if not 0 <= value <= 100:
        raise BadInput(f"{value:g} % of the leaf area cannot be; it is 0 to 100.")
    return value
