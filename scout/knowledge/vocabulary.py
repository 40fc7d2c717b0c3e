"""What can be seen and said: symptoms, circumstances, conditions of the weather, seasons, words for one thing."""

from typing import Literal

from pydantic import Field, model_validator

from scout.knowledge.schema import Background, Effort, Frequency, Part, Status
from scout.knowledge.strict import Id, Strict, Text


class Symptom(Strict):
    """A vocabulary entry: what can be seen, in words a grower would use."""

    id: Id
    name: Text
    kind: Literal["symptom", "sign", "pest", "quality"]
    question: Text
    how: Text | None = None
    """How to look, where that is not obvious."""
    effort: Effort
    background: Background
    """How often it is seen with none of our causes at work."""
    crops: tuple[Id, ...] = ()
    """Empty: any crop."""
    ask_first: Id | None = None
    """The circumstance to ask for before anything else where this is seen: what to do on the spot hangs on it."""
    synonyms: tuple[Text, ...] = ()
    status: Status = "draft"
    replaced_by: Id | None = None


class SymptomFile(Strict):
    """symptoms/<part>.toml."""

    part: Part
    symptoms: tuple[Symptom, ...]


class WordGroup(Strict):
    """Words that growers use for one thing."""

    word: Text
    same: tuple[Text, ...] = Field(min_length=1)


class WordFile(Strict):
    """words.toml."""

    groups: tuple[WordGroup, ...]


class Circumstance(Strict):
    """How a planting is grown, or how the trouble lies in the bed."""

    id: Id
    name: Text
    question: Text
    kind: Literal["watering", "soil", "feeding", "site", "source", "pattern", "pace"]
    usual: Frequency
    """How often it is so in any garden, whatever the cause."""
    axis: Id | None = None
    """Circumstances of one axis are about the same thing: for each cause only the one that tells most acts."""
    implies: Id | None = None
    """Where this is so, that is so too."""
    lasts_d: int | None = Field(default=None, ge=1, le=400)
    """An answer older than this counts no more; None: it holds until it is given anew."""
    asked: bool = True
    """False: never offered as a question, since the records of earlier visits tell it."""
    synonyms: tuple[Text, ...] = ()


class Condition(Strict):
    """What the weather did, as the knowledge base may ask for it."""

    id: Id
    name: Text
    window: Literal["buds", "flowering", "young", "filling", "last_2", "last_3", "last_7", "last_14"]
    feature: Literal[
        "tmax_c",
        "tmin_c",
        "rain_mm",
        "wet_h",
        "wet_night_h",
        "wet_morning",
        "soil_water",
        "bee_hours_h",
        "blight_day",
    ]
    test: Literal[
        "days_at_least",
        "days_at_most",
        "run_at_least",
        "sum_at_least",
        "sum_at_most",
        "dry_then_wet",
        "swing",
    ]
    threshold: float | None = None
    crop_limit: Literal["day_max_c", "night_max_c", "night_min_c"] | None = None
    """The threshold is the crop's own fruit-set limit."""
    min_days: int = Field(default=1, ge=1)
    bud_days: tuple[int, int] | None = None
    """For buds: most and least days before the flower opened; None: the crop's own days up to the opening."""
    usual: Frequency
    meaning: Text
    source: Id

    @model_validator(mode="after")
    def _one_threshold(self) -> "Condition":
        if (self.threshold is None) == (self.crop_limit is None):
            raise ValueError("give either threshold or crop_limit")
        return self


class Season(Strict):
    """A part of the frost-free season, counted from the site's own frost dates."""

    id: Literal["early", "high", "late"]
    name: Text
    meaning: Text
    days_after_last_frost: int | None = None
    """Ends this many days after the last spring frost (early)."""
    days_before_first_frost: int | None = None
    """Begins this many days before the first autumn frost (late)."""


class ConditionFile(Strict):
    """conditions.toml."""

    conditions: tuple[Condition, ...]
    seasons: tuple[Season, ...]
