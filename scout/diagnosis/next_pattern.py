"""The next question about the bed itself: how the trouble lies in it, how it goes, and how wet the soil is now."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scout.diagnosis.crop_net import CropNet, crop_net
from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import Model, bounded, build_model
from scout.diagnosis.next_look import SETTLING, SPLITS, STAKE_WEIGHT, bits, in_question, leader, settled
from scout.knowledge.base import Knowledge
from scout.knowledge.vocabulary import Circumstance

if TYPE_CHECKING:
    from scout.diagnosis.network import Array

ASKED_KINDS = ("pattern", "pace", "soil")
"""Kinds of circumstances that are asked at a sick plant; how it is grown is known from the garden."""
_LEAST_WORTH = 1e-3


@dataclass(frozen=True)
class NextPattern:
    """One question about the bed, and what its answers would make of the causes."""

    circumstance: Circumstance
    gain_bits: float
    """Expected information about each cause in question by itself, summed."""
    worth: float
    """As of a look at a glance, so that both can be put in one order."""
    first: bool
    """Asked before anything else, whatever it is worth: what to do on the spot hangs on it."""
    splits: tuple[str, ...]
    chance_true: float
    leads_if_true: tuple[str, float]
    leads_if_not: tuple[str, float]


@dataclass(frozen=True)
class _Answers:
    now: "Array"
    """Chances before the answer, (n,)."""
    chance_true: "Array"
    """Of each question, (k,)."""
    given_true: "Array"
    given_not: "Array"
    """Chances after each answer, (k, n)."""


def next_patterns(
    knowledge: Knowledge, evidence: Evidence, most: int = 2, model: Model | None = None
) -> tuple[NextPattern, ...]:
    """Return the `most` open questions about the bed that are worth most, best first.

    What a seen sign says to ask first comes before all. Nothing is asked where nothing was seen, and nothing on an axis
    of which something is known to hold.
    model: of this evidence, where it is known already.
    """
    if not evidence.seen:
        return ()
    net, model = crop_net(knowledge, evidence.crop), model or build_model(knowledge, evidence)
    open_ones = [c for c in knowledge.circumstances.values() if _open(knowledge, evidence, c)]
    if not open_ones or not model.causes:
        return ()
    first = {knowledge.symptoms[sign].ask_first for sign in evidence.seen if sign in knowledge.symptoms}
    found = _weighed(knowledge, model, open_ones, _answers(knowledge, net, model, open_ones), first)
    return tuple(sorted(found, key=lambda one: (not one.first, -one.worth, one.circumstance.id))[:most])


def _open(knowledge: Knowledge, evidence: Evidence, asked: Circumstance) -> bool:
    told = evidence.circumstances
    if asked.kind not in ASKED_KINDS or not asked.asked or asked.id in told:
        return False
    return not any(
        value and knowledge.circumstances[name].axis == asked.axis for name, value in told.items() if asked.axis
    )


def _answers(knowledge: Knowledge, net: CropNet, model: Model, questions: list[Circumstance]) -> _Answers:
    """Return what a yes and a no to each question make of the chances."""
    import numpy as np

    from scout.diagnosis.network import solve

    given_cause = _how_often(knowledge, net, questions)
    usual = np.array([knowledge.scales.frequency.words[question.usual] for question in questions])
    asked_about = in_question(model)
    shift = np.zeros((2, *given_cause.shape))
    for row, cause in zip(*np.nonzero(~np.isnan(given_cause) & (asked_about > 0)), strict=True):
        for number, holds in enumerate((True, False)):
            shift[number, row, cause] = bounded(float(given_cause[row, cause]), float(usual[row]), holds)
    prior = model.prior()
    before = np.log(prior / (1.0 - prior))
    priors = np.vstack([prior[None], 1.0 / (1.0 + np.exp(-(before + shift.reshape(-1, len(prior)))))])
    keep = np.repeat(model.miss.prod(axis=1)[None], len(priors), axis=0)
    required = np.ones((len(priors), len(model.positive)), dtype=bool)
    after = solve(priors, keep, model.strength, model.leak, required).marginals
    now, count = after[0], len(questions)
    share = now * asked_about
    share = share / max(1.0, float(share.sum()))
    told = np.where(np.isnan(given_cause), usual[:, None], given_cause)
    chance = np.clip(told @ share + usual * (1.0 - share.sum()), 0.02, 0.98)
    return _Answers(now, chance, after[1 : 1 + count], after[1 + count :])


def _how_often(knowledge: Knowledge, net: CropNet, questions: list[Circumstance]) -> "Array":
    """Return how often each circumstance holds with each cause, (k, n); NaN inside this module: no clue of it."""
    import numpy as np

    row = {question.id: number for number, question in enumerate(questions)}
    table = np.full((len(questions), len(net.causes)), np.nan)
    for number, clues in enumerate(net.clues):
        for clue in clues:
            if clue.circumstance in row:
                table[row[clue.circumstance], number] = knowledge.scales.frequency.words[clue.how_often]
    return table


def _weighed(
    knowledge: Knowledge, model: Model, questions: list[Circumstance], answers: _Answers, first: set[str | None]
) -> list[NextPattern]:
    import numpy as np

    asked_about = in_question(model)
    yes = answers.chance_true[:, None]
    mean = yes * answers.given_true + (1.0 - yes) * answers.given_not
    apart = bits(mean) - yes * bits(answers.given_true) - (1.0 - yes) * bits(answers.given_not)
    stakes = np.array([knowledge.scales.stake.words[cause.stake] for cause in model.causes])
    settles = answers.chance_true * settled(answers.given_true * asked_about)
    settles = settles + (1.0 - answers.chance_true) * settled(answers.given_not * asked_about)
    told = np.maximum(apart * asked_about, 0.0)
    worth = told @ (1.0 + STAKE_WEIGHT * stakes) + SETTLING * np.maximum(
        settles - settled(answers.now * asked_about), 0.0
    )
    found = []
    for row, question in enumerate(questions):
        if worth[row] < _LEAST_WORTH and question.id not in first:
            continue
        moved = np.abs(answers.given_true[row] - answers.given_not[row])
        split = sorted(range(len(moved)), key=lambda i: -moved[i])[:3]
        found.append(
            NextPattern(
                question,
                float(told[row].sum()),
                float(worth[row]),
                question.id in first,
                tuple(model.causes[i].id for i in split if moved[i] >= SPLITS),
                float(answers.chance_true[row]),
                leader(model, answers.given_true[row]),
                leader(model, answers.given_not[row]),
            )
        )
    return found
