"""How long a stop takes: a stated default, until this garden has timed enough stops of its own."""

import math
from collections.abc import Sequence
from statistics import median

from scout.diagnosis.due import Pass
from scout.diagnosis.route import SICK

BASE_MIN: dict[Pass, float] = {"seedlings": 1.0, "clean": 1.0, "insects": 2.5, "spotted": 4.0, "suspect": 4.0}
"""Minutes of a stop before any plant is counted, the wash between sick beds in it. Our choice; common practice speaks
of five to ten seconds a quiet bed and two to five minutes a bed that matters."""
PLANT_MIN = 0.1
"""Six seconds a plant, the shortest glance of the scouting guides; our choice within 5 to 20 seconds."""
PICK_PLANT_MIN = 0.15
PLANTS_COUNTED = 30
"""Of a longer row some spots are looked at, not every plant."""
ENOUGH_STOPS = 12
"""Stops on record of one kind before their median replaces the default. Our choice."""
LONGEST_MIN = 20.0
"""A longer gap between two stops was a rest, a job or a conversation."""
SHORTEST_MIN = 0.5
TYPED_MIN = 0.1
"""Stops that took less than six seconds on average were typed in afterwards: nobody walks between beds so fast."""


def default_minutes(group: Pass, *, picked: bool, plants_n: int | None) -> float:
    """Return the minutes of one stop by what is open there, whether it is picked over, and how many plants stand there.

    An uncounted planting counts as six plants. Rounded up to the half minute.
    """
    plants = min(6 if plants_n is None else plants_n, PLANTS_COUNTED)
    minutes = BASE_MIN[group] + plants * (PLANT_MIN + (PICK_PLANT_MIN if picked else 0.0))
    return math.ceil(round(2.0 * minutes, 6)) / 2.0


def measured_minutes(gaps_min: Sequence[float]) -> float | None:
    """Return the median minutes from one stop's end to the next, rounded up to the half minute; None of too few,
    or where the walks were typed in afterwards.

    gaps_min: of one kind of stop, newest walks only; pauses are left out here.
    """
    walked = [gap for gap in gaps_min if 0.0 <= gap <= LONGEST_MIN]
    if len(walked) < ENOUGH_STOPS or sum(walked) < TYPED_MIN * len(walked):
        return None
    return max(SHORTEST_MIN, math.ceil(round(2.0 * median(walked), 6)) / 2.0)


def is_slow(group: Pass) -> bool:
    """Return whether stops of this pass are timed with the slow ones, at which something was found or measured."""
    return group in SICK or group == "insects"
