"""What stands in the beds, shown bed by bed, and what changes there: counted again, a stage set by hand."""

from dataclasses import dataclass

from scout.errors import BadInput
from scout.plain import counted
from scout.services.context import Context
from scout.services.garden import Planted, bed_names, planted, set_stage
from scout.services.named import listed, said


@dataclass(frozen=True)
class PlantingShown:
    """One planting as a script reads it."""

    id: str
    crop: str
    crop_name: str
    variety: str | None
    plants_n: int | None
    stage: str | None
    sown_on: str | None
    set_out_on: str | None
    origin: str
    identity: str

    @property
    def line(self) -> str:
        """Return it as one line."""
        variety = f" {self.variety}" if self.variety else ""
        count = f", {counted(self.plants_n, 'plant')}" if self.plants_n is not None else ", not counted"
        begun = f", sown {self.sown_on}" if self.sown_on else f", set out {self.set_out_on}" if self.set_out_on else ""
        return f"{self.crop_name}{variety}{count}, {self.stage or 'stage not known'}{begun}"


@dataclass(frozen=True)
class BedShown:
    """One bed with what stands in it."""

    name: str
    kind: str
    plantings: tuple[PlantingShown, ...]


def beds_shown(context: Context) -> tuple[BedShown, ...]:
    """Return the beds in use in walking order, each with its plantings today."""
    plants = planted(context)
    return tuple(
        BedShown(name, kind, tuple(_shown(plant) for plant in plants if plant.bed_id == bed_id))
        for bed_id, name, kind in bed_names(context)
    )


def _shown(plant: Planted) -> PlantingShown:
    return PlantingShown(
        plant.planting_id,
        plant.crop.id,
        plant.crop.name,
        plant.variety,
        plant.plants_n,
        plant.stage,
        plant.sown_on,
        plant.set_out_on,
        plant.origin,
        plant.identity,
    )


def count_plants(context: Context, planting_id: str, plants_n: int) -> None:
    """Keep how many plants stand today; earlier counts stay as they were."""
    from scout.store.tables_garden import PlantCount

    if plants_n < 1:
        raise BadInput("No plant left is a pulled planting; note it with: bedwalk garden pull.")
    with context.write() as tx:
        tx.add(PlantCount, planting_id=planting_id, counted_on=context.today.isoformat(), plants_n=plants_n)


def set_stage_named(context: Context, plant: Planted, words: str) -> str:
    """Set a planting's stage by hand, by the id or name the crop has for it; return the id."""
    key = words.strip().casefold()
    for stage in plant.crop.stages:
        if key in (stage.id, stage.name.casefold()):
            set_stage(context, plant.planting_id, stage.id)
            return stage.id
    stages = listed(stage.id for stage in plant.crop.stages)
    raise BadInput(f"{plant.crop.name} has no stage {said(words)}; there are: {stages}.")
