"""Days from sowing to seedlings by the warmth of the soil.

Printed for nine temperatures, 0 to 40 °C (32 to 104 °F in steps of 9 °F), seed half an inch deep. Between two printed
figures a straight line is drawn; nothing is said beyond them.
"""

from dataclasses import dataclass
from typing import Literal

from scout.science.limits import require_within

_STEP_C, _COLUMNS_N = 5.0, 9

# NG: little or no germination; a dash: not tested.
_DAYS = {
    "asparagus": "NG NG 53 24 15 10 12 20 28",
    "lima_bean": "- - NG 31 18 7 7 NG -",
    "snap_bean": "NG NG NG 16 11 8 6 NG NG",  # 6 d are printed for 35 °C, another copy says none; 39 % were sound
    "beet": "- 42 17 10 6 5 5 5 -",
    "cabbage": "- - 15 9 6 5 4 - -",
    "carrot": "NG 51 17 10 7 6 6 9 NG",
    "cauliflower": "- - 20 10 6 5 5 - -",
    "celery": "NG 41 16 12 7 NG NG NG -",
    "sweet_corn": "NG NG 22 12 7 4 4 3 NG",
    "cucumber": "NG NG NG 13 6 4 3 3 -",
    "eggplant": "- - - - 13 8 5 - -",
    "lettuce": "49 15 7 4 3 2 3 NG NG",
    "melon": "- - - - 8 4 3 - -",
    "okra": "NG NG NG 27 17 13 7 6 7",
    "onion": "136 31 13 7 5 4 4 13 NG",
    "parsley": "- - 29 17 14 13 12 - -",
    "parsnip": "172 57 27 19 14 15 32 NG NG",
    "pea": "- 36 14 9 8 6 6 - -",
    "pepper": "NG NG NG 25 13 8 8 9 NG",
    "radish": "NG 29 11 6 4 4 3 - -",
    "spinach": "63 23 12 7 6 5 6 NG NG",
    "tomato": "NG NG 43 14 8 6 6 9 NG",
    "turnip": "NG NG 5 3 2 1 1 1 3",
    "watermelon": "- NG - - 12 5 4 3 -",
    "squash": "- - - - 15 6 4 3 -",
    "broccoli": "- - 20 10 6 5 5 - -",
}

_SAME_AS = {"sweet_pepper": "pepper", "hot_pepper": "pepper", "summer_squash": "squash", "winter_squash": "squash"}


@dataclass(frozen=True)
class Emergence:
    """Days until seedlings show; None with the reason why none are told."""

    days_d: float | None
    told: Literal["yes", "too_cold", "too_hot", "not_tested"]


def emergence(crop: str, soil_c: float) -> Emergence:
    """Return the days from sowing to seedlings in soil of this temperature.

    Units: soil_c °C at seed depth; result days.
    Valid: 0 to 40 °C, the crops and temperatures of the table; beyond them the reason stands in place of a figure.
    Copies of the table differ by a day here and there.
    Raises: ValueError outside -60 to 80 °C.
    Source: Harrington & Minges 1954, in Knott's Handbook for Vegetable Growers; a university teaching manual's copy.
    Squash and broccoli from a seed seller's copy.
    """
    require_within("soil_c", soil_c, -60.0, 80.0)
    cells = _cells(_DAYS, crop)
    if cells is None:
        return Emergence(None, "not_tested")
    if "NG" in (around := _around(cells, soil_c)):
        warm = [at for at, cell in enumerate(cells) if cell.isdigit()]
        return Emergence(None, "too_cold" if soil_c / _STEP_C < min(warm) else "too_hot")
    days = _between(around, soil_c)
    return Emergence(days, "not_tested" if days is None else "yes")


def _cells(table: dict[str, str], crop: str) -> list[str] | None:
    row = table.get(_SAME_AS.get(crop, crop))
    return None if row is None else row.split()


def _around(cells: list[str], soil_c: float) -> tuple[str, str]:
    """Return the printed cells on both sides; twice the same on a printed temperature; dashes beyond the table."""
    place = soil_c / _STEP_C
    if not 0.0 <= place <= _COLUMNS_N - 1:
        return "-", "-"
    below = int(place)
    return cells[below], cells[below if place == below else below + 1]


def _between(around: tuple[str, str], soil_c: float) -> float | None:
    if not all(cell.isdigit() for cell in around):
        return None
    low, high = (float(cell) for cell in around)
    return low + (high - low) * (soil_c / _STEP_C % 1.0)
