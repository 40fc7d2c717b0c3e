"""Pull the plant, or keep it apart and confirm within a day: the loss of a wrong pull against that of waiting.

A pull is never weighed before a sign that proves the cause was seen; the stop rules come before all of this.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import Model, build_model
from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause

if TYPE_CHECKING:
    from scout.diagnosis.network import Array

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
    return any("proof_seen" in knowledge.controls[action.control].needs for action in cause.do)


def pulls(
    knowledge: Knowledge, evidence: Evidence, model: Model | None = None, chances: "Array | None" = None
) -> dict[str, Pull]:
    """Return the verdict for every cause of the crop for which plants are pulled.

    model, chances: of this evidence, where they are known already.
    """
    model = model or build_model(knowledge, evidence)
    pulling = [pulled_for(knowledge, cause) for cause in model.causes]
    if not any(pulling):
        return {}
    now, in_vain = _chances(model, pulling, chances)
    return {
        cause.id: _weighed(knowledge, cause, evidence, float(now[i]), in_vain)
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


def _chances(model: Model, pulling: list[bool], chances: "Array | None") -> "tuple[Array, float]":
    """Return the chance of each cause, and the chance that none for which plants are pulled is at work, exactly."""
    import numpy as np

    from scout.diagnosis.network import solve

    prior = model.prior()
    without = np.where(pulling, 0.0, prior)
    keep = np.repeat(model.miss.prod(axis=1)[None], 2, axis=0)
    required = np.ones((2, len(model.positive)), dtype=bool)
    solved = solve(np.vstack([prior, without]), keep, model.strength, model.leak, required)
    none = float((1.0 - prior[np.array(pulling)]).prod() * solved.evidence[1] / solved.evidence[0])
    return (solved.marginals[0] if chances is None else chances), min(1.0, none)
