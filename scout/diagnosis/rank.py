"""Causes with their chances and reasons; what nothing explains; when nobody can tell."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import Model, build_model
from scout.knowledge.base import Knowledge
from scout.knowledge.schema import Cause, Stop, Tie

if TYPE_CHECKING:
    from scout.diagnosis.network import Array, Solved

CLEAR_LEAD = 0.5
"""A first cause below this chance is not named as the answer. Our choice."""
TELLING = 0.15
"""Log-odds from which a clue counts as a reason. Our choice."""
PAIR_SHOWN = 0.15
"""Joint chance from which two causes are shown as "both". Our choice."""
LEFT_UNEXPLAINED = 0.8
"""Chance from which a finding is said to be explained by nothing known."""
EXPECTED_LOSS_SHOWN = 0.02
"""Chance times stake from which a must-not-miss cause is flagged whatever its rank. Our choice."""
ClueKind = Literal["seen", "not_seen", "circumstance", "condition", "stage", "season", "excludes"]


@dataclass(frozen=True)
class Reason:
    """One clue and what it did: the change of the cause's log-odds when the clue is left out."""

    kind: ClueKind
    subject: str
    holds: bool
    log_odds: float


@dataclass(frozen=True)
class Ranked:
    """One cause with its chance, and the clues for and against, strongest first."""

    cause: Cause
    probability: float
    because: tuple[Reason, ...]
    against: tuple[Reason, ...]


@dataclass(frozen=True)
class CannotTell:
    """Why no cause is named, and what to do until one can be."""

    say: str
    holding: str
    look_again_d: int
    same_action: bool
    causes: tuple[str, ...]
    look_for: tuple[str, ...]
    """Symptom ids that would settle it."""


@dataclass(frozen=True)
class Ranking:
    """The answer to one set of evidence."""

    stop: Stop | None
    causes: tuple[Ranked, ...]
    called_sick: float | None
    """Chance that a living cause produced at least one of the seen findings; None when nothing was seen."""
    together: tuple[tuple[str, str, float], ...]
    unexplained: tuple[str, ...]
    left_out: tuple[str, ...]
    cannot_tell: CannotTell | None
    rule_out_first: tuple[str, ...]


def rank(knowledge: Knowledge, evidence: Evidence) -> Ranking:
    """Return the causes of the crop in order of chance, with reasons; a stop comes before any ranking."""
    stop = stop_for(knowledge, evidence)
    if stop is not None:
        return Ranking(stop, (), None, (), (), (), None, ())
    model = build_model(knowledge, evidence)
    solved = _solve(model, model.prior()[None], _required(model, 1))
    chances = solved.marginals[0]
    reasons = _reasons(model, chances)
    order = sorted(range(len(model.causes)), key=lambda i: (-chances[i], model.causes[i].id))
    ranked = tuple(
        Ranked(
            model.causes[i],
            float(chances[i]),
            tuple(sorted((r for r in reasons[i] if r.log_odds >= TELLING), key=lambda r: -r.log_odds)),
            tuple(sorted((r for r in reasons[i] if r.log_odds <= -TELLING), key=lambda r: r.log_odds)),
        )
        for i in order
    )
    return Ranking(
        stop=None,
        causes=ranked,
        called_sick=_called_sick(model, float(solved.evidence[0])),
        together=_together(model, solved, order),
        unexplained=tuple(
            s
            for s in _unexplained(model, float(solved.evidence[0])) + model.left_out
            if knowledge.symptoms[s].kind != "quality"
        ),
        left_out=model.left_out,
        cannot_tell=_cannot_tell(knowledge, evidence, ranked),
        rule_out_first=_rule_out_first(knowledge, ranked),
    )


def stop_for(knowledge: Knowledge, evidence: Evidence) -> Stop | None:
    """Return the warning that comes before any ranking, if a seen symptom asks for one."""
    if not knowledge.crops[evidence.crop].bitter_stop:
        return None
    return next((stop for stop in knowledge.stops if stop.symptom in evidence.seen), None)


def _required(model: Model, variants: int) -> "Array":
    import numpy as np

    return np.ones((variants, len(model.positive)), dtype=bool)


def _solve(model: Model, prior: "Array", required: "Array", keep: "Array | None" = None) -> "Solved":
    import numpy as np

    from scout.diagnosis.network import solve

    if keep is None:
        keep = np.repeat(model.miss.prod(axis=1)[None], len(prior), axis=0)
    return solve(prior, keep, model.strength, model.leak, required.astype(bool))


def _reasons(model: Model, chances: "Array") -> list[list[Reason]]:
    """Return for each cause what every clue did, by leaving the clue out (all variants solved together)."""
    import numpy as np

    shifts = sorted({(s.kind, s.subject) for each in model.shifts for s in each})
    holds = [{(s.kind, s.subject): s.holds for s in each} for each in model.shifts]
    clues: list[tuple[ClueKind, str]] = [("seen", s) for s in model.positive]
    clues += [("not_seen", s) for s in model.negative]
    clues += [(kind, subject) for kind, subject in shifts]  # type: ignore[misc]
    if not clues:
        return [[] for _ in model.causes]
    base = model.prior()
    prior = np.stack([base if kind in ("seen", "not_seen") else model.prior((kind, s)) for kind, s in clues])
    required = _required(model, len(clues))
    keep = np.repeat(model.miss.prod(axis=1)[None], len(clues), axis=0)
    for row, (kind, subject) in enumerate(clues):
        if kind == "seen":
            required[row, model.positive.index(subject)] = False
        elif kind == "not_seen":
            keep[row] = np.delete(model.miss, model.negative.index(subject), axis=1).prod(axis=1)
    without = _solve(model, prior, required, keep).marginals
    change = _logit(chances)[None, :] - _logit(without)
    return [
        [
            Reason(kind, subject, holds[i].get((kind, subject), kind == "seen"), float(change[row, i]))
            for row, (kind, subject) in enumerate(clues)
        ]
        for i in range(len(model.causes))
    ]


def _logit(chance: "Array") -> "Array":
    import numpy as np

    safe = np.clip(chance, 1e-15, 1.0 - 1e-15)
    result: Array = np.log(safe / (1.0 - safe))
    return result


def _called_sick(model: Model, evidence: float) -> float | None:
    """Return 1 - P(no living cause produced any seen finding | evidence)."""
    import numpy as np

    from scout.diagnosis.network import solve

    if not model.positive:
        return None
    living = np.array([cause.living for cause in model.causes])
    silent = np.where(living, (1.0 - model.strength).prod(axis=1), 1.0)
    strength = np.where(living[:, None], 0.0, model.strength)
    keep = (model.miss.prod(axis=1) * silent)[None]
    innocent = solve(model.prior()[None], keep, strength, model.leak, _required(model, 1).astype(bool))
    return float(min(1.0, max(0.0, 1.0 - innocent.evidence[0] / evidence)))


def _unexplained(model: Model, evidence: float) -> tuple[str, ...]:
    """Return the findings that most likely no known cause of the crop produced."""
    import numpy as np

    count = len(model.positive)
    if not count:
        return ()
    required = _required(model, count)
    required[np.arange(count), np.arange(count)] = False
    keep = model.miss.prod(axis=1)[None] * (1.0 - model.strength.T)
    prior = np.repeat(model.prior()[None], count, axis=0)
    alone = _solve(model, prior, required, keep).evidence * model.leak / evidence
    return tuple(s for s, chance in zip(model.positive, alone, strict=True) if chance >= LEFT_UNEXPLAINED)


def _together(model: Model, solved: "Solved", order: list[int]) -> tuple[tuple[str, str, float], ...]:
    """Return pairs among the first four causes that are likely both at work, each adding to what was seen."""
    import numpy as np

    first = [i for i in order[:4] if solved.marginals[0, i] >= PAIR_SHOWN]
    if len(first) < 2:
        return ()
    base = model.prior()
    prior = np.repeat(base[None], len(first), axis=0)
    prior[np.arange(len(first)), first] = 1.0
    given = _solve(model, prior, _required(model, len(first)))
    pairs = []
    for row, i in enumerate(first):
        for j in first[row + 1 :]:
            both = float(given.joint[row, j] * base[i] / solved.evidence[0])
            if both >= PAIR_SHOWN:
                pairs.append((model.causes[i].id, model.causes[j].id, both))
    return tuple(sorted(pairs, key=lambda pair: -pair[2]))


def _cannot_tell(knowledge: Knowledge, evidence: Evidence, ranked: tuple[Ranked, ...]) -> CannotTell | None:
    tie = _tie(knowledge, evidence, ranked)
    if tie is not None:
        return CannotTell(tie.say, tie.holding, tie.look_again_d, tie.same_action, tie.causes, tie.settled_by)
    if not evidence.seen:
        return _thin("Nothing was reported as seen, so no cause can be named.", ranked)
    first = ranked[0] if ranked else None
    if first is None or first.probability < CLEAR_LEAD:
        return _thin("No cause stands out from what was seen.", ranked)
    if len(first.because) < 2:
        return _thin("One clue is not enough to name a cause.", ranked)
    return None


def _thin(say: str, ranked: tuple[Ranked, ...]) -> CannotTell:
    leading = tuple(r.cause for r in ranked[:3])
    days = min((cause.look_again_d for cause in leading), default=4)
    look_for = tuple(dict.fromkeys(s for cause in leading for s in cause.proof))[:4]
    holding = f"Tie a tape to the plant, touch it last, and look again in {'1 day' if days == 1 else f'{days} days'}."
    return CannotTell(say, holding, days, _same_first_step(leading), tuple(c.id for c in leading), look_for)


def _same_first_step(causes: tuple[Cause, ...]) -> bool:
    steps = [{a.control for a in cause.do if a.when == "today"} for cause in causes]
    return len(steps) > 1 and bool(set.intersection(*steps))


def _tie(knowledge: Knowledge, evidence: Evidence, ranked: tuple[Ranked, ...]) -> Tie | None:
    """Return the known tie that holds: a sign of it was seen, nothing that settles it, and one of its causes leads."""
    if not ranked:
        return None
    seen = set(evidence.seen)
    for tie in knowledge.ties:
        applies = tie.crop == evidence.crop and seen & set(tie.shared) and not seen & set(tie.settled_by)
        if applies and ranked[0].cause.id in tie.causes:
            return tie
    return None


def _rule_out_first(knowledge: Knowledge, ranked: tuple[Ranked, ...]) -> tuple[str, ...]:
    """Return the must-not-miss causes that could explain something seen, by expected loss: chance times stake."""
    stakes = knowledge.scales.stake.words
    losses = [
        (r.probability * stakes[r.cause.stake], r.cause.id)
        for r in ranked
        if r.cause.rule_out_first and any(reason.kind == "seen" for reason in r.because)
    ]
    return tuple(cause for loss, cause in sorted(losses, reverse=True) if loss >= EXPECTED_LOSS_SHOWN)
