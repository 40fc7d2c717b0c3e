"""Pull the plant, or keep it apart and confirm within a day: the loss of a wrong pull against that of waiting.

A pull is never weighed before a sign that proves the cause was seen; the stop rules come before all of this.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import Model, build_model
from scout.diagnosis.reasons import Variants, solve_variants
from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause

if TYPE_CHECKING:
    from scout.diagnosis.network import Flags

Verdict = Literal["pull", "isolate_and_confirm"]


@dataclass(frozen=True)
class Pull:
    """What the expected losses say about pulling for one cause; losses are on the scale of the stakes, 0-1."""

    verdict: Verdict
    proof_seen: tuple[str, ...]
    """Signs seen that prove the cause: shown before any pull."""
    proof: tuple[str, ...]
    """Every sign that would prove it; empty: none is known that a grower can see."""
    in_vain: float
    """Chance that no cause is at work for which a plant is pulled."""
    loss_pull: float
    """Expected loss of pulling now: a plant that would have grown on."""
    loss_wait: float
    """Expected loss of one day kept apart, if it is the cause."""


def pulled_for(knowledge: Knowledge, cause: Cause) -> bool:
    """Return True when the cause's controls include pulling plants, which needs proof."""
    return cause.id in knowledge.pulled_for


def pulled(knowledge: Knowledge, model: Model) -> "Flags":
    """Return which causes of a model plants are pulled for, (n,)."""
    import numpy as np

    return np.array([pulled_for(knowledge, cause) for cause in model.causes], dtype=bool)


def pulls(knowledge: Knowledge, evidence: Evidence, variants: Variants | None = None) -> dict[str, Pull]:
    """Return the verdict for every cause of the crop for which plants are pulled.

    variants: of this evidence, where they are known already; those causes are its last group.
    """
    if variants is None:
        model = build_model(knowledge, evidence)
        variants = solve_variants(model, pulled(knowledge, model)[None])
    model, chances = variants.model, variants.chances
    pulling = pulled(knowledge, model)
    in_vain = min(1.0, float((1.0 - model.prior()[pulling]).prod()) * variants.without_group(-1))
    return {
        cause.id: _weighed(knowledge, cause, evidence, float(chances[i]), in_vain)
        for i, cause in enumerate(model.causes)
        if pulling[i]
    }


def _weighed(knowledge: Knowledge, cause: Cause, evidence: Evidence, chance: float, in_vain: float) -> Pull:
    scales = knowledge.scales
    travels = "person" if cause.stake == "person" else cause.contagion
    loss_pull = in_vain * scales.wrong_pull.words["good_plant"]
    loss_wait = chance * scales.stake.words[cause.stake] * scales.one_day.words[travels]
    seen = tuple(sign for sign in cause.proof if sign in evidence.seen)
    proven = bool(seen) or not cause.proof
    verdict: Verdict = "pull" if proven and loss_pull < loss_wait else "isolate_and_confirm"
    return Pull(verdict, seen, cause.proof, in_vain, loss_pull, loss_wait)
