"""Made-up patients of the knowledge base itself: causes drawn by how common they are, signs by how often they show.

Each case begins with one sign of its true cause. Three ways of asking are followed until the true cause stands at 80 %:
the product's, the plain one (the commonest unasked sign of the leading cause), and random order.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from scout.diagnosis.crop_net import CropNet, crop_net
from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.model import build_model
from scout.diagnosis.network import solve
from scout.diagnosis.next_look import next_looks
from scout.knowledge.base import Knowledge

SURE = 0.8
MOST = 12
LOOKED = Count(20)
"""Plants looked at for every answer: enough that a "no" is heard as one."""
Ask = Callable[[Knowledge, Evidence, CropNet, np.ndarray, np.random.Generator], str | None]


@dataclass(frozen=True)
class Patient:
    """One made-up planting: what is at work and what shows."""

    crop: str
    cause: int
    shows: dict[str, bool]
    first: str
    """The sign it is brought in with."""


def draw(knowledge: Knowledge, crop: str, dice: np.random.Generator) -> Patient | None:
    """Return a patient with one true cause and whatever else happens to be at work; None if no sign shows."""
    net = crop_net(knowledge, crop)
    chance = 1.0 / (1.0 + np.exp(-net.base))
    cause = int(dice.choice(len(chance), p=chance / chance.sum()))
    present = dice.random(len(chance)) < chance
    present[cause] = True
    strength = net.strength[:, : len(net.symptoms)]
    shown = dice.random(len(net.symptoms)) < 1.0 - (1.0 - net.leak) * np.where(
        present[:, None], 1.0 - strength, 1.0
    ).prod(axis=0)
    own = [n for n in range(len(net.symptoms)) if shown[n] and strength[cause, n] > 0 and _askable(net, n)]
    if not own:
        return None
    first = net.symptoms[int(dice.choice(own))].id
    return Patient(crop, cause, {s.id: bool(shown[n]) for n, s in enumerate(net.symptoms)}, first)


def _askable(net: CropNet, number: int) -> bool:
    return net.symptoms[number].kind != "quality"


def chances(knowledge: Knowledge, evidence: Evidence) -> np.ndarray:
    """Return the chance of every cause of the crop."""
    model = build_model(knowledge, evidence)
    required = np.ones((1, len(model.positive)), dtype=bool)
    return solve(model.prior()[None], model.miss.prod(axis=1)[None], model.strength, model.leak, required).marginals[0]


def ours(knowledge: Knowledge, evidence: Evidence, net: CropNet, now: np.ndarray, dice: np.random.Generator):
    """Ask what the product would ask first."""
    looks = next_looks(knowledge, evidence, most=1)
    return looks[0].symptom.id if looks else None


def plain(knowledge: Knowledge, evidence: Evidence, net: CropNet, now: np.ndarray, dice: np.random.Generator):
    """Ask the commonest unasked sign of the leading cause; of the next one when it has none left."""
    for cause in np.argsort(-now):
        for number in np.argsort(-net.strength[cause, : len(net.symptoms)], kind="stable"):
            key = net.symptoms[int(number)].id
            if net.strength[cause, number] > 0 and _askable(net, int(number)) and not _asked(evidence, key):
                return key
    return None


def at_random(knowledge: Knowledge, evidence: Evidence, net: CropNet, now: np.ndarray, dice: np.random.Generator):
    """Ask anything that any cause of the crop shows."""
    open_ = [s.id for n, s in enumerate(net.symptoms) if _askable(net, n) and not _asked(evidence, s.id)]
    return open_[int(dice.integers(len(open_)))] if open_ else None


def _asked(evidence: Evidence, key: str) -> bool:
    return key in evidence.seen or key in evidence.not_seen


def told_by_everything(knowledge: Knowledge, patient: Patient) -> bool:
    """Return whether the true cause would stand at 80 % if every sign were looked for."""
    seen = {key: LOOKED for key, shows in patient.shows.items() if shows}
    not_seen = {key: LOOKED for key, shows in patient.shows.items() if not shows}
    return chances(knowledge, Evidence(patient.crop, seen=seen, not_seen=not_seen))[patient.cause] >= SURE


def questions_needed(knowledge: Knowledge, patient: Patient, ask: Ask, dice: np.random.Generator) -> int:
    """Return how many questions it takes until the true cause stands at 80 %; MOST where it never does."""
    net = crop_net(knowledge, patient.crop)
    seen, not_seen = {patient.first: LOOKED}, {}
    for asked in range(MOST):
        evidence = Evidence(patient.crop, seen=dict(seen), not_seen=dict(not_seen))
        now = chances(knowledge, evidence)
        if now[patient.cause] >= SURE:
            return asked
        key = ask(knowledge, evidence, net, now, dice)
        if key is None:
            return MOST
        (seen if patient.shows[key] else not_seen)[key] = LOOKED
    return MOST


@dataclass(frozen=True)
class Compared:
    """Mean questions of the three ways over the cases that full information tells."""

    drawn_n: int
    told_n: int
    ours_mean: float
    plain_mean: float
    random_mean: float


def compare(knowledge: Knowledge, crops: tuple[str, ...], cases_n: int, seed: int) -> Compared:
    """Draw cases turn by turn over the crops and compare the three ways of asking on the same ones."""
    dice = np.random.default_rng(seed)
    drawn = [p for n in range(cases_n) if (p := draw(knowledge, crops[n % len(crops)], dice)) is not None]
    told = [p for p in drawn if told_by_everything(knowledge, p)]
    means = [
        float(np.mean([questions_needed(knowledge, p, ask, dice) for p in told])) for ask in (ours, plain, at_random)
    ]
    return Compared(len(drawn), len(told), *means)
