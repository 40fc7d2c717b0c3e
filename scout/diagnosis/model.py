"""Turns knowledge and evidence into the numbers of the network: priors, shifts, strengths, leaks."""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Count, Evidence
from scout.knowledge.base import Knowledge
from scout.knowledge.schema import Cause, Clue

if TYPE_CHECKING:
    from scout.diagnosis.network import Array

SHIFT_LIMIT = 2.0
"""A circumstance, condition, stage or season moves a cause by at most this many units of log-odds. Our choice."""
TOTAL_SHIFT_LIMIT = 4.0
"""All of them together. Our choice."""
EXCLUDES_SHIFT = -3.0
"""Log-odds of a sign that speaks strongly against the cause. Our choice: strong, never absolute."""
MOST_POSITIVE = 16
"""Positive findings that are summed exactly; beyond this the least telling are left out and named."""
SHARE_IN_BED = 0.3
"""Share of plants that show a sign when the cause is at work: makes 0 of n weaker evidence for small n. Our choice."""
LOOKED_UNCOUNTED = 3
"""Plants assumed looked at where nobody counted. Our choice."""
_STAGE_USUAL = 0.27


@dataclass(frozen=True)
class Shift:
    """What one circumstance, condition, stage, season or excluding sign did to one cause's prior."""

    kind: str
    subject: str
    holds: bool
    log_odds: float


@dataclass(frozen=True)
class Model:
    """The network of one crop under one set of evidence; arrays are in the order of `causes`."""

    causes: tuple[Cause, ...]
    base: "Array"
    """Log-odds before shifts, (n,)."""
    shifts: tuple[tuple[Shift, ...], ...]
    positive: tuple[str, ...]
    negative: tuple[str, ...]
    left_out: tuple[str, ...]
    strength: "Array"
    """(n, positives)."""
    leak: "Array"
    miss: "Array"
    """1 - strength of each negative finding, weakened where few plants were looked at, (n, negatives)."""

    def prior(self, without: tuple[str, str] | None = None) -> "Array":
        """Return the prior chance of each cause, leaving out the shifts of one (kind, subject) if asked."""
        import numpy as np

        totals = [
            sum(s.log_odds for s in shifts if (s.kind, s.subject) != without and s.kind != "excludes")
            for shifts in self.shifts
        ]
        bounded = np.clip(np.array(totals, dtype=float), -TOTAL_SHIFT_LIMIT, TOTAL_SHIFT_LIMIT)
        against = [
            sum(s.log_odds for s in shifts if (s.kind, s.subject) != without and s.kind == "excludes")
            for shifts in self.shifts
        ]
        total = self.base + bounded + np.maximum(np.array(against, dtype=float), 2 * EXCLUDES_SHIFT)
        chances: Array = 1.0 / (1.0 + np.exp(-total))
        return chances


def build_model(knowledge: Knowledge, evidence: Evidence) -> Model:
    """Return the network for the crop of the evidence."""
    import numpy as np

    causes = knowledge.causes_of(evidence.crop)
    common = knowledge.scales.commonness.words
    chances = np.array([common[cause.common[evidence.crop]] for cause in causes])
    positive, left_out = _chosen(knowledge, evidence)
    negative = tuple(s for s in evidence.not_seen if s in knowledge.symptoms)
    links = [symptom_links(knowledge, cause, evidence.crop) for cause in causes]
    heard = np.array([_heard(evidence.not_seen[s]) for s in negative])
    background = knowledge.scales.background.words
    return Model(
        causes=causes,
        base=np.log(chances / (1.0 - chances)),
        shifts=tuple(tuple(_shifts(knowledge, cause, evidence)) for cause in causes),
        positive=positive,
        negative=negative,
        left_out=left_out,
        strength=_table(links, positive),
        leak=np.array([background[knowledge.symptoms[s].background] for s in positive]),
        miss=1.0 - _table(links, negative) * heard,
    )


def symptom_links(knowledge: Knowledge, cause: Cause, crop: str) -> dict[str, float]:
    """Return symptom id → how often the cause shows it on this crop."""
    words = knowledge.scales.frequency.words
    return {clue.symptom: words[clue.how_often] for clue in cause.clues if clue.symptom and _applies(clue, crop)}


def _table(links: list[dict[str, float]], symptoms: tuple[str, ...]) -> "Array":
    import numpy as np

    return np.array([[link.get(s, 0.0) for s in symptoms] for link in links], dtype=float).reshape(
        len(links), len(symptoms)
    )


def _heard(count: Count) -> float:
    """Return how much of a negative finding counts when n plants were looked at, 0-1."""
    looked = LOOKED_UNCOUNTED if count.looked is None else count.looked
    return 1.0 - (1.0 - SHARE_IN_BED) ** looked


def _chosen(knowledge: Knowledge, evidence: Evidence) -> tuple[tuple[str, ...], tuple[str, ...]]:
    background = knowledge.scales.background.words
    seen = [s for s in evidence.seen if s in knowledge.symptoms]
    if len(seen) <= MOST_POSITIVE:
        return tuple(seen), ()
    telling = set(sorted(seen, key=lambda s: background[knowledge.symptoms[s].background])[:MOST_POSITIVE])
    return tuple(s for s in seen if s in telling), tuple(s for s in seen if s not in telling)


def _applies(clue: Clue, crop: str) -> bool:
    return not clue.crops or crop in clue.crops


def _shifts(knowledge: Knowledge, cause: Cause, evidence: Evidence) -> list[Shift]:
    clues = [clue for clue in cause.clues if _applies(clue, evidence.crop)]
    shifts = [s for clue in clues if (s := _shift(knowledge, clue, evidence)) is not None]
    shifts += _time_shifts(knowledge, clues, "stage", evidence.stage)
    shifts += _time_shifts(knowledge, clues, "season", evidence.season)
    shifts += [Shift("excludes", s, True, EXCLUDES_SHIFT) for s in cause.excludes if s in evidence.seen]
    if evidence.seen and not any(clue.symptom in evidence.seen for clue in clues):
        # weather and circumstances help to explain what was seen; they are no sign themselves
        shifts = [s for s in shifts if s.log_odds <= 0.0]
    return shifts


def _shift(knowledge: Knowledge, clue: Clue, evidence: Evidence) -> Shift | None:
    words = knowledge.scales.frequency.words
    if clue.circumstance is not None:
        holds = evidence.circumstances.get(clue.circumstance)
        usual = knowledge.circumstances[clue.circumstance].usual
        kind = "circumstance"
    elif clue.condition is not None:
        holds = evidence.conditions.get(clue.condition)
        usual = knowledge.conditions[clue.condition].usual
        kind = "condition"
    else:
        return None
    if holds is None:
        return None
    return Shift(kind, clue.subject, holds, _bounded(words[clue.how_often], words[usual], holds))


def _time_shifts(knowledge: Knowledge, clues: list[Clue], kind: str, now: str | None) -> list[Shift]:
    """Return the one shift of the planting's stage or the season: the clue that names it, or all that do not."""
    timed = {clue.subject: knowledge.scales.frequency.words[clue.how_often] for clue in clues if getattr(clue, kind)}
    if not timed or now is None:
        return []
    peak = max(timed.values())
    if now in timed:
        # commonness is told for the time the cause is usually seen, so its own time moves nothing
        odds = math.log(max(timed[now], 0.02) / peak) if peak else 0.0
        return [Shift(kind, now, True, max(-SHIFT_LIMIT, odds))]
    return [Shift(kind, now, False, min(0.0, _bounded(peak, _STAGE_USUAL, False)))]


def _bounded(given_cause: float, usual: float, holds: bool) -> float:
    """Return the log ratio of "holds" under the cause to "holds" anywhere, within ±SHIFT_LIMIT."""
    usual = min(max(usual, 0.02), 0.98)
    top, bottom = (given_cause, usual) if holds else (1.0 - given_cause, 1.0 - usual)
    if top <= 0.0:
        return -SHIFT_LIMIT
    return max(-SHIFT_LIMIT, min(SHIFT_LIMIT, math.log(top / bottom)))
