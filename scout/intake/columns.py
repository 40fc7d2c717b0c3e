"""Whole columns of cells turned into numbers, marks and times at once; the few odd cells one by one."""

import re
from collections.abc import Callable, Iterable, Sequence
from typing import cast

from scout.errors import BadInput
from scout.intake.decimals import Sign, read_decimal
from scout.plain import shortened
from scout.science.units import c_from_f, kmh_from_mph, mm_from_inch, ms_from_kmh

Problems = dict[int, str]
"""Place in the column → why the cell cannot be used."""

_ABSENT = frozenset({"", "-", "--", "---", "na", "n/a", "nan", "null", "none", "m", "missing", "?", "*", "nd"})
_SENTINELS = frozenset({-99.0, -99.9, -999.0, -999.9, -9999.0, 9999.0, 99999.0})
"""Figures that loggers write where they have no reading."""
_YES = frozenset({"1", "yes", "y", "true", "wet", "1.0", "on", "x"})
_NO = frozenset({"0", "no", "n", "false", "dry", "0.0", "off"})
_PLAIN_MARKS = re.compile(r"[0-9.+-]*")
_COMMA_DECIMALS = re.compile(r"(?:^|\n)\s*[-+\u2212]?(?:0|[0-9]+),(?:[0-9]{1,2}|[0-9]{4,})\s*(?=\n|$)")
_POINT_DECIMALS = re.compile(r"(?:^|\n)\s*[-+\u2212]?[0-9]+\.[0-9]+\s*(?=\n|$)")

_CONVERSIONS: dict[str, Callable[[float], float]] = {
    "f": c_from_f,
    "in": mm_from_inch,
    "cm": lambda value: value * 10.0,
    "min": lambda value: value / 60.0,
    "kmh": ms_from_kmh,
    "mph": lambda value: ms_from_kmh(kmh_from_mph(value)),
    "kn": lambda value: ms_from_kmh(value * 1.852),
}


def find_sign(columns: Iterable[Sequence[str]]) -> Sign | None:
    """Return the decimal sign these columns use, None when they show none. Errors: BadInput when they mix."""
    joined = "\n".join("\n".join(cells) for cells in columns)
    comma = "," in joined and _COMMA_DECIMALS.search(joined) is not None
    point = "." in joined and _POINT_DECIMALS.search(joined) is not None
    if comma and point:
        raise BadInput("Some numbers have a decimal comma and some a decimal point; write all of them one way.")
    return "," if comma else "." if point else None


def numbers(cells: Sequence[str], sign: Sign | None, unit: str | None) -> tuple[list[float | None], Problems]:
    """Return the column in metric units, None for missing cells, and the cells that are no number."""
    values = _quick(cells, sign)
    problems: Problems = {}
    if values is None:
        values = [_one(cell, sign, at, problems) for at, cell in enumerate(cells)]
    if not _SENTINELS.isdisjoint(values):
        values = [None if value in _SENTINELS else value for value in values]
    convert = _CONVERSIONS.get(unit or "")
    if convert:
        known: dict[float | None, float | None] = {None: None}  # few different figures stand in a long column
        known |= {value: round(convert(value), 3) for value in set(values) if value is not None}
        values = [known[value] for value in values]
    return values, problems


def _quick(cells: Sequence[str], sign: Sign | None) -> list[float | None] | None:
    """Read a column of plain numbers in one go; None when a cell needs a closer look.

    `float` takes more than people mean by a number: 1_0, 1e5, inf, digits of other scripts.
    """
    joined = "".join(cells)
    if sign == "," and "," in joined and "." not in joined:
        cells = [cell.replace(",", ".") for cell in cells]
        joined = joined.replace(",", ".")
    if not _PLAIN_MARKS.fullmatch(joined):
        return None
    try:
        return [*map(float, cells)] if "" not in cells else [float(cell) if cell else None for cell in cells]
    except ValueError:
        return None


def _one(cell: str, sign: Sign | None, at: int, problems: Problems) -> float | None:
    token = cell.strip()
    if token.lower() in _ABSENT:
        return None
    if token.lower() in ("t", "trace"):  # a gauge wetted by less than it can measure
        return 0.0
    try:
        return read_decimal(token, sign=sign)
    except BadInput as problem:
        problems[at] = str(problem).rstrip(".")
        return None


def span_of(values: Sequence[float | None]) -> tuple[float, float] | None:
    """Return the least and the greatest value, None when all are missing."""
    known = cast("Sequence[float]", values)  # a look for None is much quicker than a copy of the column
    if None in values:
        known = [value for value in values if value is not None]
    return (min(known), max(known)) if known else None


def out_of_range(values: Sequence[float | None], low: float, high: float) -> list[int]:
    """Return the places of values outside low to high."""
    return [at for at, value in enumerate(values) if value is not None and not low <= value <= high]


def marks(cells: Sequence[str]) -> tuple[list[bool | None], Problems]:
    """Return a column of yes and no, None for missing cells, and the cells that are neither."""
    known: dict[str, bool | None] = {}
    problems: Problems = {}
    for cell in set(cells):
        token = cell.strip().lower()
        if token in _YES or token in _NO or token in _ABSENT:
            known[cell] = None if token in _ABSENT else token in _YES
    if len(known) < len(set(cells)):
        problems = {
            at: f"“{shortened(cell, 24)}” is neither wet nor dry; write 1 or 0"
            for at, cell in enumerate(cells)
            if cell not in known
        }
    return [known.get(cell) for cell in cells], problems


def is_scale(cells: Sequence[str]) -> bool:
    """Tell whether a column that should say wet or dry holds figures of a sensor's own scale instead."""
    odd = {cell.strip().lower() for cell in set(cells)} - _YES - _NO - _ABSENT
    return bool(odd) and all(re.fullmatch(r"[0-9]+[.,]?[0-9]*", cell) for cell in odd)
