"""Causes with their chances and reasons; what nothing explains; when nobody can tell."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import Model, build_model
from scout.diagnosis.pulling import Pull, pulled, pulls
from scout.diagnosis.reasons import Reason, Variants, solve_variants
from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause
from scout.knowledge.control_file import Stop, Tie
from scout.plain import days_text, lower_first

if TYPE_CHECKING:
    from scout.diagnosis.network import Flags

CLEAR_LEAD = 0.5
"""A first cause below this chance is not named as the answer. Our choice."""
CLUES_LEAST = 2
"""So many clues must speak for a cause before it is named. Our choice."""
PAIR_SHOWN = 0.15
"""Joint chance from which two causes are shown as "both". Our choice."""
LEFT_UNEXPLAINED = 0.8
"""Chance from which a finding is said to be explained by nothing known."""
_TIED = 12
"""Chances alike to so many digits are a tie, in the order of the ids: rounding on one machine must not decide."""
EXPECTED_LOSS_SHOWN = 0.02
"""Chance times stake from which a must-not-miss cause is flagged whatever its rank. Our choice."""


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
    """Findings that were too many to be counted in; empty in all but the longest reports."""
    left_out_log_odds: float
    """The log-odds of any cause would change by at most this much if they were."""
    cannot_tell: CannotTell | None
    rule_out_first: tuple[str, ...]
    pulls: Mapping[str, Pull] = field(default_factory=dict)
    """Cause → pull or keep apart, for the causes for which plants are pulled; empty behind a stop."""


def rank(knowledge: Knowledge, evidence: Evidence, model: Model | None = None) -> Ranking:
    """Return the causes of the crop in order of chance, with reasons; a stop comes before any ranking.

    model: of this evidence, where it is known already.
    """
    stop = stop_for(knowledge, evidence)
    if stop is not None:
        return Ranking(stop, (), None, (), (), (), 0.0, None, ())
    import numpy as np

    model = model or build_model(knowledge, evidence)
    living = np.array([cause.living for cause in model.causes], dtype=bool)
    variants = solve_variants(model, np.stack([living, pulled(knowledge, model)]))
    chances, why = variants.chances, variants.reasons()
    order = sorted(range(len(model.causes)), key=lambda i: (-round(float(chances[i]), _TIED), model.causes[i].id))
    ranked = tuple(
        Ranked(
            model.causes[i],
            float(chances[i]),
            tuple(reason for reason in why[i] if reason.log_odds > 0.0),
            tuple(reason for reason in why[i] if reason.log_odds < 0.0),
        )
        for i in order
    )
    return Ranking(
        stop=None,
        causes=ranked,
        called_sick=_called_sick(variants, living),
        together=_together(variants, order),
        unexplained=tuple(
            s for s in _unexplained(variants) + model.left_out if knowledge.symptoms[s].kind != "quality"
        ),
        left_out=model.left_out,
        left_out_log_odds=model.left_out_log_odds,
        cannot_tell=_cannot_tell(knowledge, evidence, ranked),
        rule_out_first=_rule_out_first(knowledge, ranked),
        pulls=pulls(knowledge, evidence, variants),
    )


def stop_for(knowledge: Knowledge, evidence: Evidence) -> Stop | None:
    """Return the warning that comes before any ranking, if a seen symptom asks for one."""
    if not knowledge.crops[evidence.crop].bitter_stop:
        return None
    return next((stop for stop in knowledge.stops if stop.symptom in evidence.seen), None)


def _called_sick(variants: Variants, living: "Flags") -> float | None:
    """Return 1 - P(no living cause produced any seen finding | evidence).

    Each living cause is then either not at work, or at work and silent about all that was seen.
    """
    model = variants.model
    if not model.positive:
        return None
    silent = (model.miss.prod(axis=1) * (1.0 - model.strength).prod(axis=1))[living]
    chance = model.prior()[living]
    innocent = variants.without_group(0) * float((1.0 - chance + chance * silent).prod())
    return min(1.0, max(0.0, 1.0 - innocent))


def _unexplained(variants: Variants) -> tuple[str, ...]:
    """Return the findings that most likely no known cause of the crop produced."""
    pairs = zip(variants.model.positive, variants.by_itself(), strict=True)
    return tuple(symptom for symptom, chance in pairs if chance >= LEFT_UNEXPLAINED)


def _together(variants: Variants, order: list[int]) -> tuple[tuple[str, str, float], ...]:
    """Return pairs among the first four causes that are likely both at work, each adding to what was seen."""
    import numpy as np

    from scout.diagnosis.network import solve

    model, chances = variants.model, variants.chances
    first = [i for i in order[:4] if chances[i] >= PAIR_SHOWN]
    if len(first) < 2:
        return ()
    base = model.prior()
    prior = np.repeat(base[None], len(first), axis=0)
    prior[np.arange(len(first)), first] = 1.0
    keep = np.repeat(model.miss.prod(axis=1)[None], len(first), axis=0)
    required = np.ones((len(first), len(model.positive)), dtype=bool)
    given = solve(prior, keep, model.strength, model.leak, required)
    pairs = []
    for row, i in enumerate(first):
        for j in first[row + 1 :]:
            both = float(given.joint[row, j] * base[i] / variants.evidence)
            if both >= PAIR_SHOWN:
                pairs.append((model.causes[i].id, model.causes[j].id, both))
    return tuple(sorted(pairs, key=lambda pair: -pair[2]))


def _cannot_tell(knowledge: Knowledge, evidence: Evidence, ranked: tuple[Ranked, ...]) -> CannotTell | None:
    tie = _tie(knowledge, evidence, ranked)
    if tie is not None:
        return CannotTell(tie.say, tie.holding, tie.look_again_d, tie.same_action, tie.causes, tie.settled_by)
    if not evidence.seen:
        lately = "this week; what earlier visits saw fades" if evidence.earlier else "so no cause can be named"
        return _thin(f"Nothing was reported as seen, {lately}.", evidence, ranked)
    first = ranked[0] if ranked else None
    if first is None or first.probability < CLEAR_LEAD:
        return _thin(_no_lead(first), evidence, ranked)
    if len(first.because) < CLUES_LEAST:
        points = f"One clue points to {lower_first(first.cause.name)}; a cause is named from {CLUES_LEAST} clues on."
        return _thin(points, evidence, ranked)
    return None


def _no_lead(first: Ranked | None) -> str:
    """Return why no cause is named, with the level that was not reached."""
    level = f"a cause is named from {100 * CLEAR_LEAD:.0f} % on"
    if first is None:
        return f"Nothing known fits what was seen; {level}."
    return f"The likeliest has {min(100 * CLEAR_LEAD - 1, round(100 * first.probability)):.0f} %; {level}."


def _thin(say: str, evidence: Evidence, ranked: tuple[Ranked, ...]) -> CannotTell:
    explaining = [r for r in ranked if any(reason.kind in ("seen", "earlier") for reason in r.because)]
    leading = tuple(r.cause for r in (explaining or ranked)[:3])
    days = min((cause.look_again_d for cause in leading), default=4)
    answered = {*evidence.seen, *evidence.not_seen}
    look_for = tuple(dict.fromkeys(s for cause in leading for s in cause.proof if s not in answered))[:4]
    holding = f"Tie a tape to the plant, touch it last, and look again in {days_text(days)}."
    return CannotTell(
        say, holding, days, _same_first_step(leading, evidence.crop), tuple(c.id for c in leading), look_for
    )


def _same_first_step(causes: tuple[Cause, ...], crop: str) -> bool:
    steps = [{a.control for a in cause.do if a.when == "today" and a.fits(crop)} for cause in causes]
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
        if r.cause.rule_out_first and any(reason.kind in ("seen", "earlier") for reason in r.because)
    ]
    return tuple(cause for loss, cause in sorted(losses, reverse=True) if loss >= EXPECTED_LOSS_SHOWN)
