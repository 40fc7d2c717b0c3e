"""How the trouble lies in the bed, from numbers and places as they were given: circumstances, or nothing.

What the numbers leave open is left out: an absent number is unknown, never false.
"""

import re
from itertools import pairwise

SURE_FRAC = 0.9
"""Confidence with which the plants looked at speak for all of them. Our choice."""
FEW_N = 4
"""From so many plants looked at, one alone counts as one plant only. Our choice."""
_RANGE = re.compile(r"(\d{1,3})\s*(?:-|–|to)\s*(\d{1,3})")
_NUMBER = re.compile(r"\d{1,3}")


def share_circumstances(looked: int | None, affected: int | None, plants_n: int | None = None) -> dict[str, bool]:
    """Return what "4 of 6 plants" says: one plant only, more than half of them.

    plants_n: how many stand there; where all were looked at, the count itself speaks, else its score interval.
    """
    if not looked or not affected or affected > looked:
        return {}
    said: dict[str, bool] = {}
    if affected > 1:
        said["one_plant_only"] = False
    elif looked >= FEW_N or (plants_n is not None and looked >= plants_n > 1):
        said["one_plant_only"] = True
    low, high = _share(looked, affected, plants_n)
    if low > 0.5:
        said["most_plants"] = True
    elif high <= 0.5:
        said["most_plants"] = False
    return said


def _share(looked: int, affected: int, plants_n: int | None) -> tuple[float, float]:
    from scout.science.sampling import wilson_interval

    if plants_n is not None and looked >= plants_n:
        return affected / looked, affected / looked
    return wilson_interval(affected, looked, SURE_FRAC)


def place_circumstances(which: str | None) -> dict[str, bool]:
    """Return what "3rd, 4th and 5th from the path" says: neighbours, or scattered with healthy ones between.

    Only numbers are read, two at least; neighbours beside a stray one say nothing.
    """
    plants = plants_named(which or "")
    if len(plants) < 2:
        return {}
    gaps = [after - before for before, after in pairwise(plants)]
    if all(gap == 1 for gap in gaps):
        return {"neighbours_in_a_row": True, "scattered_plants": False}
    if all(gap > 1 for gap in gaps):
        return {"neighbours_in_a_row": False, "scattered_plants": True}
    return {}


def plants_named(which: str) -> list[int]:
    """Return the numbers of the plants in a grower's words, in order: "3rd and 5-7" names 3, 5, 6, 7."""
    named: set[int] = set()
    for first, last in _RANGE.findall(which):
        if int(first) < int(last) <= int(first) + 200:
            named.update(range(int(first), int(last) + 1))
    named.update(int(number) for number in _NUMBER.findall(_RANGE.sub(" ", which)))
    return sorted(named - {0})


def leaf_circumstances(lowest_pct: float | None, middle_pct: float | None, top_pct: float | None) -> dict[str, bool]:
    """Return what the share of spotted leaf by canopy third says: old leaves only, or the newest only.

    Units: per cent of the leaf area; thirds from the oldest leaves to the youngest.
    """
    if lowest_pct is None or top_pct is None:
        return {}
    middle = middle_pct or 0.0
    if lowest_pct > 0.0 and not top_pct and not middle:
        return {"old_leaves_only": True, "new_leaves_only": False}
    if top_pct > 0.0 and not lowest_pct and not middle:
        return {"old_leaves_only": False, "new_leaves_only": True}
    if lowest_pct > 0.0 and top_pct > 0.0:
        return {"old_leaves_only": False, "new_leaves_only": False}
    return {}
