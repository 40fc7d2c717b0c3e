"""What a crop file holds: stages, limits, water, looks, and what is normal."""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from scout.knowledge.growth import Growth
from scout.knowledge.schema import Effort, EppoStatus, Place, StageId
from scout.knowledge.strict import Id, Span, Strict, Text
from scout.knowledge.warmth import Chill


class Stage(Strict):
    """A stretch of a crop's life in which the same looks are made."""

    id: StageId
    name: Text
    from_day: int = Field(ge=0, le=400)
    """Days after sowing (after setting out for set-out crops) at which it usually begins."""
    bbch: str | None = None
    """Range of BBCH codes, such as "51-69"; None where no key was read."""


class FruitSet(Strict):
    """Temperatures outside which flowers of the crop fail, °C."""

    day_max_c: float | None = None
    night_max_c: float | None = None
    night_min_c: float | None = None
    before_flower_d: int = Field(default=10, ge=0, le=30)
    """Days before opening in which heat already harms the bud."""
    source: Id


class Comfort(Strict):
    """Mean temperatures of day and night, over some weeks, at which the crop grows and tastes as it should, °C."""

    best_c: Span
    limits_c: Span
    """Outside these growth or quality suffers, though the plant lives."""
    source: Id

    @model_validator(mode="after")
    def _limits_lie_around(self) -> "Comfort":
        if not self.limits_c[0] <= self.best_c[0] <= self.best_c[1] <= self.limits_c[1]:
            raise ValueError("limits_c must lie around best_c")
        return self


class CropWater(Strict):
    """How a crop uses water, for the account of a bed's soil."""

    factor: tuple[
        Annotated[float, Field(gt=0, le=1.5)],
        Annotated[float, Field(gt=0, le=1.5)],
        Annotated[float, Field(gt=0, le=1.5)],
    ]
    """What it drinks of what grass would: young, at full cover, at the end."""
    root_m: float = Field(gt=0, le=3)
    """Depth its roots draw from under watering, in an open bed."""
    easy_frac: float = Field(gt=0, lt=1)
    """Share of the water within reach that is taken without stress, at 5 mm a day."""
    source: Id


class Look(Strict):
    """One thing to check at a stop."""

    id: Id
    place: Place
    ask: Text
    stages: tuple[StageId, ...] = Field(min_length=1)
    effort: Effort
    symptoms: tuple[Id, ...] = Field(min_length=1)
    """What the look can show; "clear" speaks against exactly these."""
    why: Text
    source: Id


class Crop(Strict):
    """One crop: its stages, limits, looks, and what is normal for it."""

    id: Id
    name: Text
    latin: Text
    family: str = Field(pattern=r"^[a-z]+ family \([A-Z][a-z]+aceae\)$")
    """As a grower says it, and its Latin name: a sign on two families is on several sorts."""
    aliases: tuple[Text, ...] = ()
    eppo: str | None = None
    eppo_status: EppoStatus | None = None
    counted_from: Literal["sowing", "setting_out"]
    habit: Literal["indeterminate", "determinate", "not_counted"] = "not_counted"
    rosette: bool = False
    """True where leaves stand around a heart, as on leaf and root crops: their thirds go from the outside in."""
    bitter_stop: bool = False
    """True for every squash, pumpkin, gourd and melon: a bitter taste is a stop, never a clue."""
    days_to_maturity_d: Span
    flower_to_pick_d: Span | None = None
    """None: nothing is picked that grew from a flower."""
    pick_every_d: int | None = Field(default=None, ge=1, le=30)
    """Days between picks while it bears; None: harvested once or at leisure."""
    comfort: Comfort | None = None
    """None: no table read holds the crop."""
    fruit_set: FruitSet | None = None
    water: CropWater | None = None
    """None: no figures are known."""
    chill: Chill | None = None
    """None: none is needed, or no figure is known."""
    growth: Growth | None = None
    """None: the span from flower to pick is taken as it is, whatever the size and the weather."""
    stages: tuple[Stage, ...] = Field(min_length=2)
    looks: tuple[Look, ...] = Field(min_length=3)
    normal: tuple[Text, ...] = ()
    """Sentences for what looks alarming and is not."""
    ready: Text
    overmature: Text
    sources: tuple[Id, ...] = Field(min_length=1)
