"""Which few looks are made at a stop: those an open problem asks for, then those not made for longest."""

from collections.abc import Mapping
from datetime import date

from scout.knowledge.cause_file import Cause
from scout.knowledge.crop_file import Crop, Look
from scout.knowledge.schema import Place, StageId

MOST_LOOKS = 4
"""A grower has seconds at a quiet bed. Our choice."""
NEVER_MADE_D = 30
"""Days that a look never made yet counts as waiting. Our choice."""
_PLACE_WORTH: dict[Place, float] = {
    "fruit": 6.0,
    "lowest_leaves": 5.0,
    "newest_leaf": 4.0,
    "underside": 4.0,
    "stem_base": 3.0,
    "growing_tip": 3.0,
    "whole_plant": 3.0,
    "flowers": 2.0,
    "ground": 1.0,
}
"""What a place is worth in days of waiting: fruit is in the hand anyway, leaf spots begin low. Our choice."""
_DAWN_UNTIL_H = 8
_DARK_FROM_H = 20


def looks_for(
    crop: Crop,
    stage: StageId | None,
    open_causes: tuple[Cause, ...],
    last_made: Mapping[str, date],
    on: date,
    hour: int,
) -> tuple[Look, ...]:
    """Return the looks of a stop in the crop file's order; dawn and dark looks only at their hours.

    A stage that is not known counts as leafy. A look that shows signs of an open problem always comes in.
    """
    signs = {clue.symptom for cause in open_causes for clue in cause.clues if clue.symptom}

    def worth(look: Look) -> float:
        waited = (on - last_made[look.id]).days if look.id in last_made else NEVER_MADE_D
        asked_for = 1000.0 if signs & set(look.symptoms) else 0.0
        return asked_for + waited + _PLACE_WORTH[look.place]

    fitting = [look for look in crop.looks if (stage or "leafy") in look.stages and _at_hour(look, hour)]
    best = sorted(fitting, key=lambda look: -worth(look))[:MOST_LOOKS]
    return tuple(look for look in crop.looks if look in best)


def _at_hour(look: Look, hour: int) -> bool:
    if look.effort == "dawn":
        return hour < _DAWN_UNTIL_H
    if look.effort == "dark":
        return hour >= _DARK_FROM_H
    return look.effort != "wait"
