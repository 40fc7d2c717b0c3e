"""Which stage a planting is in, by the crop's own calendar or as the grower set it."""

from datetime import date

from scout.knowledge.crop_file import Crop
from scout.knowledge.schema import StageId


def stage_on(
    crop: Crop, on: date, sown_on: date | None, set_out_on: date | None, set_by_hand: str | None = None
) -> StageId | None:
    """Return the stage of a planting on a day; None when it was neither sown nor set out yet, or no date is known.

    A stage set by hand holds. A set-out crop with only a sowing date is counted from sowing, and the reverse.
    """
    for stage in crop.stages:
        if stage.id == set_by_hand:
            return stage.id
    first, second = (sown_on, set_out_on) if crop.counted_from == "sowing" else (set_out_on, sown_on)
    begun = first or second
    if begun is None or begun > on:
        return None
    age = (on - begun).days
    return [stage.id for stage in crop.stages if stage.from_day <= age][-1]
