"""What can be done and what must be said with it: controls, cautions, stop screens, ties, enemies, action marks."""

from typing import Literal

from pydantic import Field, model_validator

from scout.knowledge.schema import ControlKind, StageId
from scout.knowledge.strict import Id, Span, Strict, Text

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
