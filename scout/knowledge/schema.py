"""What each kind of knowledge file may say: strict, frozen, no unknown keys."""

from datetime import date
from typing import Annotated, Literal

from pydantic import Field, model_validator

from scout.knowledge.growth import Growth
from scout.knowledge.strict import Id, Span, Strict, Text
from scout.knowledge.warmth import Chill, DegreeDays

Frequency = Literal["almost_always", "usually", "often", "sometimes", "seldom", "never"]
Commonness = Literal["very_common", "common", "occasional", "uncommon", "rare"]
Background = Literal["usual", "everyday", "now_and_then", "unusual", "telltale"]
Effort = Literal["glance", "turn_leaf", "count", "lens", "cut", "wait", "dawn", "dark"]
Part = Literal["leaf", "flower", "fruit", "stem", "root", "whole_plant", "insect", "ground"]
CauseKind = Literal[
    "normal", "heat", "cold", "water", "sun", "pollination", "nutrition", "herbicide", "injury", "genetic",
    "fungal", "oomycete", "bacterial", "phytoplasma", "viral", "nematode", "protist", "insect", "mite",
    "mollusc", "vertebrate",
]  # fmt: skip
LIVING: frozenset[str] = frozenset(
    {
        "fungal",
        "oomycete",
        "bacterial",
        "phytoplasma",
        "viral",
        "nematode",
        "protist",
        "insect",
        "mite",
        "mollusc",
        "vertebrate",
    }
)
StageId = Literal["seedling", "leafy", "flowering", "fruiting", "finishing"]
Place = Literal[
    "growing_tip",
    "newest_leaf",
    "underside",
    "lowest_leaves",
    "stem_base",
    "flowers",
    "fruit",
    "ground",
    "whole_plant",
]
Status = Literal["draft", "reviewed", "retired"]
Stake = Literal["none", "low", "medium", "high", "person"]
ControlKind = Literal["cultural", "physical", "biological", "labelled"]
EppoStatus = Literal["confirmed", "third_party", "memory"]


class Source(Strict):
    """One publication; every fact elsewhere cites its key."""

    title: Text
    by: Text
    """Institution or authors."""
    year: int | None = Field(default=None, ge=1800, le=2100)
    """None: the page shows no year."""
    basis: Literal["looked_up", "memory", "practice"]
    """looked_up: read on `checked_on`; memory: named from memory; practice: common practice, no source."""
    checked_on: date | None = None

    @model_validator(mode="after")
    def _looked_up_has_a_day(self) -> "Source":
        if (self.basis == "looked_up") != (self.checked_on is not None):
            raise ValueError("a looked_up source has checked_on, any other has none")
        return self


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
    family: Text
    aliases: tuple[Text, ...] = ()
    eppo: str | None = None
    eppo_status: EppoStatus | None = None
    counted_from: Literal["sowing", "setting_out"]
    habit: Literal["indeterminate", "determinate", "not_counted"] = "not_counted"
    bitter_stop: bool = False
    """True for every squash, pumpkin, gourd and melon: a bitter taste is a stop, never a clue."""
    days_to_maturity_d: Span
    flower_to_pick_d: Span | None = None
    """None: nothing is picked that grew from a flower."""
    pick_every_d: int | None = Field(default=None, ge=1, le=30)
    """Days between picks while it bears; None: harvested once or at leisure."""
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
    kind: Literal["watering", "feeding", "site", "source", "pattern", "pace"]
    usual: Frequency
    """How often it is so in any garden, whatever the cause."""
    axis: Id | None = None
    """Circumstances of one axis are about the same thing: for each cause only the one that tells most acts."""
    implies: Id | None = None
    """Where this is so, that is so too."""
    lasts_d: int | None = Field(default=None, ge=1, le=400)
    """An answer older than this counts no more; None: it holds until it is given anew."""
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
        "leaf_spot_n",
        "blight_day",
        "downy_night",
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


class Clue(Strict):
    """One observation, and how often it goes with the cause."""

    symptom: Id | None = None
    circumstance: Id | None = None
    condition: Id | None = None
    stage: StageId | None = None
    season: Literal["early", "high", "late"] | None = None
    how_often: Frequency
    crops: tuple[Id, ...] = ()
    """Empty: every crop of the cause."""
    source: Id | None = None
    """None: the first source of the cause."""
    where: str | None = None
    """Page, table or section of the source."""

    @model_validator(mode="after")
    def _one_subject(self) -> "Clue":
        if (self.symptom, self.circumstance, self.condition, self.stage, self.season).count(None) != 4:
            raise ValueError("a clue names exactly one of symptom, circumstance, condition, stage, season")
        return self

    @property
    def subject(self) -> str:
        """Return the id the clue is about."""
        return self.symptom or self.circumstance or self.condition or self.stage or str(self.season)


Contagion = Literal["none", "splash", "air", "touch", "insect", "soil", "seed", "moves"]


class Pattern(Strict):
    """How trouble of a kind usually lies in a bed: a clue for its causes that say nothing else of the circumstance."""

    circumstance: Id
    kinds: tuple[CauseKind, ...] = Field(min_length=1)
    contagion: tuple[Contagion, ...] = ()
    """Empty: however it travels."""
    how_often: Frequency
    source: Id

    def fits(self, cause: "Cause") -> bool:
        """Return True when the pattern speaks of this cause."""
        return cause.kind in self.kinds and (not self.contagion or cause.contagion in self.contagion)


class LookAlike(Strict):
    """Another cause that is mistaken for this one, and the one observation that splits them."""

    cause: Id
    split: Text
    symptom: Id | None = None
    """The symptom that settles it, seen with THIS cause; None where no single symptom does."""


class Action(Strict):
    """A control for the cause, and when."""

    control: Id
    when: Literal["today", "season", "next_season"]


class Warmth(Strict):
    """How temperature bears on the time from infection to first symptom."""

    told_c: Span
    """Daily mean temperatures at which incubation_d and latent_d hold."""
    limits_c: Span
    """Growth stops at these."""
    limits_basis: Literal["looked_up", "memory"]
    source: Id

    @model_validator(mode="after")
    def _limits_lie_around(self) -> "Warmth":
        if not self.limits_c[0] < self.told_c[0] <= self.told_c[1] < self.limits_c[1]:
            raise ValueError("limits_c must lie around told_c")
        return self


class Cause(Strict):
    """One cause: what speaks for and against it, what to do, what not to do."""

    id: Id
    name: Text
    kind: CauseKind
    status: Status
    checked_on: date
    agent: Text | None = None
    """Organism, with its current scientific name; None for what is not living."""
    eppo: str | None = None
    eppo_status: EppoStatus | None = None
    aliases: tuple[Text, ...] = ()
    summary: Text
    common: dict[Id, Commonness] = Field(min_length=1)
    clues: tuple[Clue, ...] = Field(min_length=1)
    excludes: tuple[Id, ...] = ()
    """Symptoms that speak strongly against it when seen."""
    look_alikes: tuple[LookAlike, ...] = ()
    confirm: tuple[Text, ...] = Field(min_length=1)
    proof: tuple[Id, ...] = ()
    """Signs that prove it; shown before any pull."""
    contagion: Contagion
    incubation_d: Span | None = None
    """Infection to first symptom."""
    latent_d: Span | None = None
    """Infection to spores."""
    warmth: Warmth | None = None
    """None: how temperature bears on these times was not found."""
    may_stay_unstripped: bool = False
    """One plant may be left unstripped beside stripped ones, to compare."""
    stake: Stake
    at_stake: Text | None = None
    """What is lost if it is missed; required for high and person."""
    rule_out_first: bool = False
    fast_check: Text | None = None
    do: tuple[Action, ...] = ()
    no_cultural: Text | None = None
    """Why no cultural or physical control is given; required when none is."""
    dont: tuple[Text, ...] = ()
    pull_when: Text | None = None
    clinic_when: Text | None = None
    look_again_d: int = Field(ge=1, le=60)
    degree_days: tuple[DegreeDays, ...] = ()
    """How far a pest has come, by sums of warmth."""
    replaced_by: Id | None = None
    sources: tuple[Id, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _stakes_are_said(self) -> "Cause":
        if self.stake in ("high", "person") and not self.at_stake:
            raise ValueError("stake high or person needs at_stake")
        if self.rule_out_first and not self.fast_check:
            raise ValueError("rule_out_first needs fast_check")
        return self

    @property
    def living(self) -> bool:
        """Return True when the cause is a living thing that attacks the plant."""
        return self.kind in LIVING


def file_of(cause: Cause) -> str:
    """Return the path of the cause's file, from the knowledge folder."""
    return f"causes/{cause.kind}/{cause.id}.toml"


Guard = Literal[
    "dry_leaves",
    "no_heat_ahead",
    "share_rule",
    "not_contagious_by_touch",
    "no_splash_disease",
    "hand_pollinated_kind",
    "soil_dry",
    "proof_seen",
]


class Measure(Strict):
    """What is counted before and after a control, so that its answer can be worked out."""

    way: Literal["share", "number", "picks"]
    """share: so many of those looked at; number: so many on them; picks: odd of all picked, from the pick tally."""
    what: Text
    unit: Text
    """What is looked at, in the plural."""
    looked: int = Field(ge=1, le=100)
    """How many are looked at where nobody says otherwise."""
    better: Literal["fewer", "more"]


class Control(Strict):
    """Something the grower can do."""

    id: Id
    name: Text
    kind: ControlKind
    do: Text
    steps: tuple[Text, ...] = ()
    cautions: tuple[Id, ...] = ()
    needs: tuple[Guard, ...] = ()
    """What must hold at the bed before it may be done."""
    look_again_d: Span
    count: Text
    """What to count at the next look."""
    worked: Text
    """The tell-tale that it worked."""
    measure: Measure | None = None
    """None: the tell-tale is a yes or no, and is judged by eye."""
    sources: tuple[Id, ...] = Field(min_length=1)


class ControlFile(Strict):
    """controls/<kind>.toml."""

    kind: ControlKind
    controls: tuple[Control, ...]


class Caution(Strict):
    """A fixed sentence shown beside a control."""

    text: Text
    source: Id


class Stop(Strict):
    """An observation after which nothing is ranked until the grower has read the warning."""

    id: Id
    symptom: Id
    title: Text
    lines: tuple[Text, ...] = Field(min_length=2)
    source: Id


class Tie(Strict):
    """Causes that nobody can tell apart on what was seen."""

    id: Id
    crop: Id
    causes: tuple[Id, ...] = Field(min_length=2)
    shared: tuple[Id, ...] = Field(min_length=1)
    """Signs that all of these causes share: one of them was seen."""
    settled_by: tuple[Id, ...] = Field(min_length=1)
    """Signs that split them: the tie holds until one of these is seen."""
    same_action: bool
    say: Text
    holding: Text
    look_again_d: int = Field(ge=1, le=14)
    source: Id


class Enemy(Strict):
    """A natural enemy whose presence lowers the urgency of some causes."""

    id: Id
    name: Text
    eats: tuple[Id, ...] = Field(min_length=1)
    """Causes it works against."""
    say: Text
    source: Id


class ActionMark(Strict):
    """A count at which growers of sprayed fields begin to act; in a garden it means "this is not nothing"."""

    id: Id
    causes: tuple[Id, ...] = Field(min_length=1)
    crops: tuple[Id, ...] = Field(min_length=1)
    stages: tuple[StageId, ...] = ()
    """Empty: any stage."""
    what: Text
    """What is counted."""
    unit: Text
    """What is looked at, in the plural: plants, leaves, flowers."""
    way: Literal["share", "number"]
    mark: float = Field(gt=0)
    """share: of those looked at, 0-1; number: for each one looked at."""
    note: Text | None = None
    source: Id

    @model_validator(mode="after")
    def _a_share_is_below_one(self) -> "ActionMark":
        if self.way == "share" and self.mark >= 1:
            raise ValueError("the mark of a share lies under 1")
        return self


class Scale(Strict):
    """A word and the probability it stands for."""

    source: Id
    note: Text
    words: dict[str, Annotated[float, Field(ge=0, le=1)]]


class ScaleFile(Strict):
    """scales.toml: the one place where words become probabilities."""

    frequency: Scale
    commonness: Scale
    background: Scale
    stake: Scale
    wrong_pull: Scale
    one_day: Scale
    """By contagion, and `person`."""
