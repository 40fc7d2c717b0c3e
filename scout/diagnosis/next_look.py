"""The next observation: what each unasked symptom is expected to tell, weighed by effort and by what is at stake."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import Model, build_model, symptom_links
from scout.knowledge.base import Knowledge
from scout.knowledge.schema import Effort, Symptom

if TYPE_CHECKING:
    from scout.diagnosis.network import Array

COST: dict[Effort, float] = {
    "glance": 1.0,
    "turn_leaf": 1.3,
    "count": 1.5,
    "lens": 1.6,
    "cut": 2.0,
    "dawn": 3.0,
    "dark": 3.5,
    "wait": 4.0,
}
"""Effort of an observation relative to a glance. Our choice."""
STAKE_WEIGHT = 2.0
"""How much more a bit about a cause with full stake is worth. Our choice."""
SPLITS = 0.05
"""Change of a cause's chance between yes and no from which a question is said to split it."""


@dataclass(frozen=True)
class NextLook:
    """One question worth asking, and what it would tell."""

    symptom: Symptom
    gain_bits: float
    """Expected information about each cause in question by itself, summed; never negative."""
    worth: float
    """The gain weighed by stakes and divided by effort: the order of asking."""
    splits: tuple[str, ...]
    """Causes whose chance a yes and a no would move apart, the most first."""


def next_looks(knowledge: Knowledge, evidence: Evidence, most: int = 3) -> tuple[NextLook, ...]:
    """Return the `most` unasked symptoms of the crop that are worth most, best first."""
    model = build_model(knowledge, evidence)
    asked = set(evidence.seen) | set(evidence.not_seen)
    open_symptoms = _open(knowledge, evidence.crop, asked)
    if not open_symptoms or not model.causes:
        return ()
    now, chance_no, given_no, given_yes = _answers(knowledge, model, evidence.crop, open_symptoms)
    bits = _bits(now) - chance_no[:, None] * _bits(given_no) - (1.0 - chance_no)[:, None] * _bits(given_yes)
    bits = bits * _in_question(model)
    stakes = [1.0 + STAKE_WEIGHT * knowledge.scales.stake.words[cause.stake] for cause in model.causes]
    looks = []
    for row, symptom in enumerate(open_symptoms):
        moved = abs(given_yes[row] - given_no[row])
        order = sorted(range(len(model.causes)), key=lambda i: -moved[i])
        looks.append(
            NextLook(
                symptom,
                max(0.0, float(bits[row].sum())),
                float((bits[row] * stakes).sum()) / COST[symptom.effort],
                tuple(model.causes[i].id for i in order[:3] if moved[i] >= SPLITS),
            )
        )
    looks.sort(key=lambda look: (-look.worth, look.symptom.id))
    return tuple(look for look in looks[:most] if look.worth > 1e-6)


def _in_question(model: Model) -> "Array":
    """Return 1 for the causes that could explain something seen, else 0; with nothing seen, 1 for all.

    A question is asked about what was seen, not about everything that might be wrong in a garden.
    """
    import numpy as np

    if not model.positive:
        return np.ones(len(model.causes))
    linked: Array = model.strength.any(axis=1).astype(float)
    return linked


def _open(knowledge: Knowledge, crop: str, asked: set[str]) -> list[Symptom]:
    linked = {s for cause in knowledge.causes_of(crop) for s in symptom_links(knowledge, cause, crop)}
    return [s for s in knowledge.symptoms_of(crop) if s.id in linked and s.id not in asked and s.kind != "quality"]


def _answers(
    knowledge: Knowledge, model: Model, crop: str, symptoms: list[Symptom]
) -> tuple["Array", "Array", "Array", "Array"]:
    """Return the chances now (n,), P(no) (k,), and the chances after a no and after a yes (k, n)."""
    import numpy as np

    from scout.diagnosis.network import solve

    links = [symptom_links(knowledge, cause, crop) for cause in model.causes]
    strength = np.array([[link.get(s.id, 0.0) for link in links] for s in symptoms])
    leak = np.array([knowledge.scales.background.words[s.background] for s in symptoms])
    keep = model.miss.prod(axis=1)[None] * np.vstack([np.ones(len(links)), 1.0 - strength])
    prior = np.repeat(model.prior()[None], len(keep), axis=0)
    required = np.ones((len(keep), len(model.positive)), dtype=bool)
    solved = solve(prior, keep, model.strength, model.leak, required)
    now = solved.marginals[0]
    chance_no = np.clip((1.0 - leak) * solved.evidence[1:] / solved.evidence[0], 1e-12, 1.0 - 1e-12)
    given_no = solved.marginals[1:]
    given_yes = (now[None] - chance_no[:, None] * given_no) / (1.0 - chance_no)[:, None]
    return now, chance_no, given_no, np.clip(given_yes, 0.0, 1.0)


def _bits(chance: "Array") -> "Array":
    import numpy as np

    safe = np.clip(chance, 1e-15, 1.0 - 1e-15)
    result: Array = -(safe * np.log2(safe) + (1.0 - safe) * np.log2(1.0 - safe))
    return result
