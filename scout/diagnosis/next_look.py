"""The next observation: what each unasked symptom is expected to tell, weighed by effort and by what is at stake."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scout.diagnosis.crop_net import CropNet, crop_net
from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import Model, build_model
from scout.knowledge.base import Knowledge
from scout.knowledge.schema import Effort
from scout.knowledge.vocabulary import Symptom

if TYPE_CHECKING:
    from scout.diagnosis.network import Array, Rows

COST: dict[Effort, float] = {
    "glance": 1.0,
    "turn_leaf": 1.05,
    "count": 1.1,
    "lens": 1.15,
    "cut": 1.2,
    "dawn": 1.3,
    "dark": 1.35,
    "wait": 1.4,
}
"""By how much the effort of an observation lowers its worth against a glance. Our choice, mild: a dear question that
settles the matter is cheaper than three cheap ones that do not."""
STAKE_WEIGHT = 0.25
"""How much more a bit about a cause with full stake is worth. Our choice."""
SETTLED = 0.8
"""Chance from which a cause counts as settled. Our choice."""
SETTLING = 0.5
"""What a question that is sure to settle a cause is worth, in bits. Our choice."""
SPLITS = 0.05
"""Change of a cause's chance between yes and no from which a question is said to split it."""
LIKELIEST = 10
"""Causes over whose combinations the gain is summed exactly; the others count as a part of the leak."""


@dataclass(frozen=True)
class NextLook:
    """One question worth asking, and what it would tell."""

    symptom: Symptom
    gain_bits: float
    """Expected information about which causes are at work; never negative."""
    worth: float
    """What it tells of each cause by itself, weighed by stakes, summed, and its chance to settle one, over effort.

    The order of asking: of several measures this one led to the true cause in the fewest questions, see
    tests/simulators/questions.py.
    """
    splits: tuple[str, ...]
    """Causes whose chance a yes and a no would move apart, the most first."""
    leads_if_seen: tuple[str, float]
    """The cause that would lead after a yes, and its chance then."""
    leads_if_not: tuple[str, float]
    """The cause that would lead after a no, and its chance then."""


def next_looks(
    knowledge: Knowledge, evidence: Evidence, most: int = 3, model: Model | None = None
) -> tuple[NextLook, ...]:
    """Return the `most` unasked symptoms of the crop that are worth most, best first.

    model: of this evidence, where it is known already.
    """
    net, model = crop_net(knowledge, evidence.crop), model or build_model(knowledge, evidence)
    asked = set(evidence.seen) | set(evidence.not_seen)
    columns = [n for n, s in enumerate(net.symptoms) if s.id not in asked and s.kind != "quality"]
    if not columns or not model.causes:
        return ()
    return tuple(_best(knowledge, net, model, columns, most))


def _best(knowledge: Knowledge, net: CropNet, model: Model, columns: list[int], most: int) -> list[NextLook]:
    import numpy as np

    strength, leak = net.strength[:, columns], net.leak[columns]
    now, chance_no, given_no, given_yes = _answers(model, strength, leak)
    apart = bits(now) - chance_no[:, None] * bits(given_no) - (1.0 - chance_no)[:, None] * bits(given_yes)
    stakes = np.array([knowledge.scales.stake.words[cause.stake] for cause in model.causes])
    cost = np.array([COST[net.symptoms[column].effort] for column in columns])
    asked_about = in_question(model)
    settles = chance_no * settled(given_no * asked_about) + (1.0 - chance_no) * settled(given_yes * asked_about)
    told = np.maximum(apart * asked_about, 0.0) @ (1.0 + STAKE_WEIGHT * stakes)
    worth = (told + SETTLING * (settles - settled(now * asked_about))).clip(0.0) / cost
    order = sorted(range(len(columns)), key=lambda row: (-worth[row], net.symptoms[columns[row]].id))
    chosen = [row for row in order[:most] if worth[row] > 1e-6]
    gain = joint_gain(model, now, strength[:, chosen], leak[chosen])
    looks = []
    for number, row in enumerate(chosen):
        moved = abs(given_yes[row] - given_no[row])
        split = sorted(range(len(moved)), key=lambda i: -moved[i])[:3]
        looks.append(
            NextLook(
                net.symptoms[columns[row]],
                float(gain[number]),
                float(worth[row]),
                tuple(model.causes[i].id for i in split if moved[i] >= SPLITS),
                leader(model, given_yes[row]),
                leader(model, given_no[row]),
            )
        )
    return looks


def settled(chances: "Array") -> "Array":
    """Return 1 where a cause stands at SETTLED, else 0, along the last axis."""
    flags: Array = (chances.max(axis=-1) >= SETTLED).astype(float)
    return flags


def leader(model: Model, chances: "Array") -> tuple[str, float]:
    first = int(chances.argmax())
    return model.causes[first].id, float(chances[first])


def in_question(model: Model) -> "Array":
    """Return 1 for the causes that could explain something seen, else 0; with nothing seen, 1 for all.

    A question is asked about what was seen, not about everything that might be wrong in a garden.
    """
    import numpy as np

    if not model.positive:
        return np.ones(len(model.causes))
    linked: Array = model.strength.any(axis=1).astype(float)
    return linked


def _answers(model: Model, strength: "Array", leak: "Array") -> tuple["Array", "Array", "Array", "Array"]:
    """Return the chances now (n,), P(no) (k,), and the chances after a no and after a yes (k, n), exactly."""
    import numpy as np

    from scout.diagnosis.network import solve

    keep = model.miss.prod(axis=1)[None] * np.vstack([np.ones(len(model.causes)), 1.0 - strength.T])
    prior = np.repeat(model.prior()[None], len(keep), axis=0)
    required = np.ones((len(keep), len(model.positive)), dtype=bool)
    solved = solve(prior, keep, model.strength, model.leak, required)
    now = solved.marginals[0]
    chance_no = np.clip((1.0 - leak) * solved.evidence[1:] / solved.evidence[0], 1e-12, 1.0 - 1e-12)
    given_no = solved.marginals[1:]
    given_yes = (now[None] - chance_no[:, None] * given_no) / (1.0 - chance_no)[:, None]
    return now, chance_no, given_no, np.clip(given_yes, 0.0, 1.0)


def joint_gain(model: Model, now: "Array", strength: "Array", leak: "Array") -> "Array":
    """Return the expected information of each question about which causes are at work, in bits, (k,).

    now (n,): chances given everything so far. strength (n, k), leak (k,): of the questions. Exact over all
    combinations of the LIKELIEST causes that could explain something seen; any other enters as a leak of its own
    chance, which leaves out only what the answer tells about it.
    """
    import numpy as np

    chosen = np.argsort(-now * in_question(model), kind="stable")[:LIKELIEST]
    others = np.setdiff1d(np.arange(len(now)), chosen)
    sets = (np.arange(1 << len(chosen))[:, None] >> np.arange(len(chosen)) & 1).astype(float)
    weight = _posterior(model, chosen, others, sets)
    none = (1.0 - leak) * (1.0 - now[others, None] * strength[others]).prod(axis=0)
    log_absent = np.log1p(-np.minimum(strength[chosen], 1.0 - 1e-12))
    no = np.exp(sets @ log_absent) * none
    gain: Array = bits(weight @ no) - weight @ bits(no)
    return np.maximum(gain, 0.0)


def _posterior(model: Model, chosen: "Rows", others: "Rows", sets: "Array") -> "Array":
    """Return the chance of each combination of the chosen causes given the evidence, (2^c,)."""
    import numpy as np

    prior, keep = model.prior(), model.miss.prod(axis=1)
    chance = prior * keep / (prior * keep + 1.0 - prior)
    none = (1.0 - model.leak) * (1.0 - chance[others, None] * model.strength[others]).prod(axis=0)
    absent = np.exp(sets @ np.log1p(-np.minimum(model.strength[chosen], 1.0 - 1e-12))) * none
    weight = np.where(sets > 0, chance[chosen], 1.0 - chance[chosen]).prod(axis=1) * (1.0 - absent).prod(axis=1)
    result: Array = weight / weight.sum()
    return result


def bits(chance: "Array") -> "Array":
    import numpy as np

    safe = np.clip(chance, 1e-15, 1.0 - 1e-15)
    result: Array = -(safe * np.log2(safe) + (1.0 - safe) * np.log2(1.0 - safe))
    return result
