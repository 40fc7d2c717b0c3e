"""How much water a planting can reach and how fast it drinks, by its crop, its age and what it stands in."""

from dataclasses import dataclass
from datetime import date

from scout.knowledge.crop_file import CropWater as Figures
from scout.science.soil_water import Store
from scout.services.garden import Planted

LOAM_MM_PER_M = 150.0
"""Water that a metre of garden loam holds for roots; FAO-56 table 19 gives 130 to 180 (span from memory)."""
TUB_MM = 25.0
"""Water within reach in a tub, whatever the crop could root: a sixth of a metre of soil. Our choice."""
USUAL = Figures(factor=(0.6, 1.05, 0.9), root_m=0.5, easy_frac=0.40, source="our_choice")
"""For a crop whose figures are not known: the middle of the vegetables listed in FAO-56 tables 12 and 22."""


@dataclass(frozen=True)
class CropWater:
    """What the water account of one planting needs."""

    plant: Planted
    figures: Figures
    store: Store

    def factor(self, on: date) -> float:
        """Return how much more than grass the planting drinks on a day; full cover where its age is not known."""
        begin, full, end = self.figures.factor
        stage = self.plant.stage_by_age(on)
        if stage == "seedling":
            return begin
        if stage == "leafy" and self.plant.crop.flower_to_pick_d is not None:
            return (begin + full) / 2.0
        return end if stage == "finishing" else full


def crop_water(plant: Planted) -> CropWater:
    """Return the water figures of a planting."""
    figures = plant.crop.water or USUAL
    reach = LOAM_MM_PER_M * figures.root_m
    total = min(TUB_MM, reach) if plant.bed_kind == "tub" else reach
    return CropWater(plant, figures, Store(total, figures.easy_frac))
