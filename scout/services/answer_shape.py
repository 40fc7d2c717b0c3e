"""What an answer holds, for the screen and for scripts: the answer's half of `bedwalk diagnose --schema`."""

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from scout.diagnosis.reasons import ClueKind

Chance = float


class Out(BaseModel):
    """A part of the answer."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class ClueOut(Out):
    """One clue; `log_odds` is what it added to or took from the cause."""

    kind: ClueKind
    id: str
    text: str
    log_odds: float


class ActOut(Out):
    """One control, in the order of resort."""

    control: str
    name: str
    kind: Literal["cultural", "physical", "biological", "labelled"]
    when: Literal["today", "season", "next_season"]
    do: str
    only_if: list[str]
    cautions: list[str]
    look_again_d: list[float]
    worked: str


class LookAlikeOut(Out):
    """A cause it is mistaken for, and what splits the two."""

    cause: str
    split: str


class PullOut(Out):
    """Pull, or keep apart and confirm within a day: shown with the signs seen that prove the cause."""

    verdict: Literal["pull", "isolate_and_confirm"]
    say: list[str]
    proof_seen: list[str]
    proof: list[str]
    in_vain: Chance = Field(ge=0, le=1)
    """Chance that no cause is at work for which a plant is pulled."""
    loss_pull: float = Field(ge=0)
    loss_wait: float = Field(ge=0)
    """Expected losses on the scale of the stakes: of a pull now, and of one day kept apart."""


class CauseOut(Out):
    """One cause with its chance and reasons."""

    id: str
    name: str
    agent: str | None
    kind: str
    aliases: list[str]
    probability: Chance = Field(ge=0, le=1)
    made_on: list[str]
    """Days on which the weather did it, where the fruit was in bud, in flower or filling then."""
    because: list[ClueOut]
    against: list[ClueOut]
    act: list[ActOut]
    dont: list[str]
    confirm: list[str]
    look_alikes: list[LookAlikeOut]
    pull: PullOut | None
    """None: no plant is pulled for this cause."""
    pull_when: str | None
    clinic_when: str | None
    look_again_d: int
    sources: list[str]


class LeaderOut(Out):
    """The cause that would lead after an answer, and its chance then."""

    cause: str
    probability: Chance = Field(ge=0, le=1)


class AskOut(Out):
    """One observation worth making next."""

    id: str
    question: str
    how: str | None
    effort: str
    worth: float = Field(ge=0)
    """The order of asking, among symptoms and circumstances alike."""
    first: bool
    """Asked before all others: what to do on the spot hangs on it."""
    gain: float = Field(ge=0)
    """Expected information about which causes are at work, in bits."""
    splits: list[str]
    if_seen: LeaderOut
    if_not: LeaderOut


class PairOut(Out):
    """Two causes likely at work at once."""

    causes: list[str]
    probability: Chance = Field(ge=0, le=1)


class RuleOutOut(Out):
    """A cause not to be missed, whatever its rank."""

    id: str
    name: str
    at_stake: str | None
    fast_check: str | None


class StopOut(Out):
    """A warning that comes before any ranking."""

    id: str
    title: str
    lines: list[str]


class CannotTellOut(Out):
    """Why no cause is named yet, and what to do meanwhile."""

    say: str
    holding: str
    look_again_d: int
    same_action: bool
    causes: list[str]
    look_for: list[str]
    look_for_names: list[str]
    """The same in a grower's words."""
    clinic: str
    """Where to ask when it stays unclear."""


class WordOut(Out):
    """What the free words were taken to mean."""

    kind: Literal["symptom", "circumstance"]
    id: str
    certainty: float
    seen: bool
    words: str


class Answer(Out):
    """The answer to one case."""

    crop: str
    knowledge: str
    """Hash of the knowledge base that answered."""
    causes: list[CauseOut]
    ask_next: list[AskOut]
    """Symptoms worth looking for next."""
    ask_patterns: list[AskOut]
    """Circumstances worth telling next: how the trouble lies in the bed."""
    also_together: list[PairOut]
    unexplained: list[str]
    rule_out_first: list[RuleOutOut]
    called_sick: Chance | None = Field(ge=0, le=1)
    stop: StopOut | None
    cannot_tell: CannotTellOut | None
    words_matched: list[WordOut]


class Failed(Out):
    """A case that could not be answered."""

    error: str
