"""Turns knowledge and evidence into the numbers of the network: priors, shifts, strengths, leaks."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Literal

from scout.diagnosis.crop_net import CropNet, crop_net
from scout.diagnosis.evidence import Count, Evidence
from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause, Clue
from scout.knowledge.vocabulary import Circumstance, Condition

if TYPE_CHECKING:
    from scout.diagnosis.network import Array, Flags

SHIFT_LIMIT = 2.0
"""A circumstance, condition, stage or season moves a cause by at most this many units of log-odds. Our choice."""
TOTAL_SHIFT_LIMIT = 4.0
"""All of them together. Our choice."""
EXCLUDES_SHIFT = -3.0
"""Log-odds of a sign that speaks strongly against the cause. Our choice: strong, never absolute."""
SHARE_IN_BED = 0.3
"""Share of plants that show a sign when the cause is at work: makes 0 of n weaker evidence for small n. Our choice."""
LOOKED_UNCOUNTED = 3
"""Plants assumed looked at where nobody counted. Our choice."""
OWN_HISTORY_WEIGHT = 20.0
"""Confirmed answers that weigh as much as the knowledge's commonness: a beta prior of this size. Our choice."""
_STAGE_USUAL = 0.27
ShiftKind = Literal["circumstance", "condition", "stage", "season", "excludes", "earlier", "response"]


@dataclass(frozen=True)
class Shift:
    """What one circumstance, condition, stage, season or excluding sign did to one cause's prior."""

    kind: ShiftKind
    subject: str
    holds: bool
    log_odds: float


@dataclass(frozen=True)
class Model:
    """The network of one crop under one set of evidence; arrays are in the order of `causes`."""

    causes: tuple[Cause, ...]
    base: "Array"
    """Log-odds before shifts, (n,)."""
    shift_keys: tuple[tuple[ShiftKind, str], ...]
    """What moved a prior: kind and subject, K of them."""
    shifts: "Array"
    """What each did to the log-odds of each cause, (K, n)."""
    holds: "Flags"
    """Whether what moved it was so (a stage: the cause's own), (K, n)."""
    positive: tuple[str, ...]
    negative: tuple[str, ...]
    left_out: tuple[str, ...]
    left_out_log_odds: float
    """The log-odds of any cause would change by at most this much if nothing had been left out."""
    strength: "Array"
    """(n, positives)."""
    leak: "Array"
    miss: "Array"
    """1 - strength of each negative finding, weakened where few plants were looked at, (n, negatives)."""
    axes: tuple[str | None, ...] = ()
    """The axis of each row of `shifts`: of several rows about one thing only the strongest acts on a cause."""

    def prior(self) -> "Array":
        """Return the prior chance of each cause, (n,), made once."""
        return self._prior

    @cached_property
    def _prior(self) -> "Array":
        chances: Array = self._chances(self.shifts[None])[0]
        chances.flags.writeable = False
        return chances

    def priors_without(self) -> "Array":
        """Return the prior chances with each row of `shifts` left out in turn, (K, n)."""
        import numpy as np

        return self._chances(self.shifts * ~np.eye(len(self.shift_keys), dtype=bool)[:, :, None])

    def _chances(self, shifts: "Array") -> "Array":
        """Return the prior chances that each of several tables of shifts (t, K, n) makes, (t, n)."""
        import numpy as np

        against = np.array([kind == "excludes" for kind, _ in self.shift_keys], dtype=bool)
        before = np.array([kind == "earlier" for kind, _ in self.shift_keys], dtype=bool)
        acting = _strongest(shifts, self.axes)
        moved = np.clip(acting[:, ~against & ~before].sum(axis=1), -TOTAL_SHIFT_LIMIT, TOTAL_SHIFT_LIMIT)
        excluded = np.maximum(shifts[:, against].sum(axis=1), 2 * EXCLUDES_SHIFT)
        chances: Array = 1.0 / (1.0 + np.exp(-(self.base + moved + acting[:, before].sum(axis=1) + excluded)))
        return chances


def _strongest(shifts: "Array", axes: tuple[str | None, ...]) -> "Array":
    """Return tables of shifts (t, K, n) with all but the strongest of each axis and cause set to 0."""
    import numpy as np

    acting = shifts.copy()
    for axis in {axis for axis in axes if axis is not None and axes.count(axis) > 1}:
        rows = [row for row, own in enumerate(axes) if own == axis]
        strongest = np.abs(shifts[:, rows]).argmax(axis=1)[:, None]
        acting[:, rows] = np.where(np.arange(len(rows))[:, None] == strongest, shifts[:, rows], 0.0)
    return acting


def build_model(knowledge: Knowledge, evidence: Evidence) -> Model:
    """Return the network for the crop of the evidence."""
    import numpy as np

    net = crop_net(knowledge, evidence.crop)
    positive, left_out = _chosen(net, [s for s in evidence.seen if s in knowledge.symptoms], knowledge)
    negative = tuple(s for s in evidence.not_seen if s in knowledge.symptoms)
    counted = np.array([heard(evidence.not_seen[s]) for s in negative])
    background = knowledge.scales.background.words
    keys, shifts, holds = _shift_table(knowledge, net, evidence)
    return Model(
        causes=net.causes,
        base=with_own_history(net, evidence),
        shift_keys=keys,
        shifts=shifts,
        holds=holds,
        axes=tuple(_axis(knowledge, kind, subject) for kind, subject in keys),
        positive=positive,
        negative=negative,
        left_out=left_out,
        left_out_log_odds=_most_told(knowledge, net, left_out),
        strength=net.strength[:, net.columns(positive)],
        leak=np.array([background[knowledge.symptoms[s].background] for s in positive]),
        miss=1.0 - net.strength[:, net.columns(negative)] * counted,
    )


def _axis(knowledge: Knowledge, kind: ShiftKind, subject: str) -> str | None:
    return knowledge.circumstances[subject].axis if kind == "circumstance" else None


def with_own_history(net: CropNet, evidence: Evidence) -> "Array":
    """Return the log-odds of each cause after what this garden confirmed: the mean of its beta distribution."""
    import numpy as np

    if not evidence.own_counts:
        return net.base
    was_n, asked_n = np.array([evidence.own_counts.get(c.id, _others(evidence)) for c in net.causes], dtype=float).T
    common = 1.0 / (1.0 + np.exp(-net.base))
    chance = (OWN_HISTORY_WEIGHT * common + was_n) / (OWN_HISTORY_WEIGHT + asked_n)
    result: Array = np.log(chance / (1.0 - chance))
    return result


def _others(evidence: Evidence) -> tuple[int, int]:
    """Return the counts of a cause that was never named: asked as often as anything was confirmed."""
    return 0, sum(was for was, _ in evidence.own_counts.values())


def heard(count: Count) -> float:
    """Return how much of a negative finding counts when n plants were looked at, 0-1."""
    looked = LOOKED_UNCOUNTED if count.looked is None else count.looked
    return 1.0 - (1.0 - SHARE_IN_BED) ** looked


def _chosen(net: CropNet, seen: list[str], knowledge: Knowledge) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the findings summed exactly, and those left out to make that possible, the least telling first."""
    from scout.diagnosis.network import WIDEST, width

    background = knowledge.scales.background.words
    kept, left_out = list(seen), []
    while len(kept) > WIDEST and width(net.strength[:, net.columns(tuple(kept))]) > WIDEST:
        left_out.append(max(kept, key=lambda s: background[knowledge.symptoms[s].background]))
        kept.remove(left_out[-1])
    return tuple(kept), tuple(left_out)


def _most_told(knowledge: Knowledge, net: CropNet, symptoms: tuple[str, ...]) -> float:
    """Return the most that seeing these can do to any log-odds: from their leak alone to every cause at work."""
    import numpy as np

    leak = np.array([knowledge.scales.background.words[knowledge.symptoms[s].background] for s in symptoms])
    most = 1.0 - (1.0 - leak) * (1.0 - net.strength[:, net.columns(symptoms)]).prod(axis=0)
    return float(np.log(most / leak).sum())


def _shift_table(
    knowledge: Knowledge, net: CropNet, evidence: Evidence
) -> tuple[tuple[tuple[ShiftKind, str], ...], "Array", "Flags"]:
    import numpy as np

    rows: dict[tuple[ShiftKind, str], dict[int, Shift]] = {}
    signs = {*evidence.seen, *(sign for bout in evidence.earlier for sign in bout.seen)}
    for number, shift in _shifts(knowledge, net, evidence):
        # weather and circumstances help to explain what was seen; they are no sign themselves
        if shift.log_odds <= 0.0 or not signs or net.shown[number] & signs:
            rows.setdefault((shift.kind, shift.subject), {})[number] = shift
    _add_course(knowledge, net, evidence, rows)
    keys = tuple(sorted(rows))
    table = np.zeros((len(keys), len(net.causes)))
    holds = np.zeros(table.shape, dtype=bool)
    for row, key in enumerate(keys):
        for number, shift in rows[key].items():
            table[row, number], holds[row, number] = shift.log_odds, shift.holds
    return keys, table, holds


def _add_course(
    knowledge: Knowledge, net: CropNet, evidence: Evidence, rows: dict[tuple[ShiftKind, str], dict[int, Shift]]
) -> None:
    """Add what earlier visits made of the causes, and how controls did."""
    from scout.diagnosis.carry import carried

    if evidence.earlier:
        since = evidence.earlier[0].on.isoformat()
        moved = carried(knowledge, net, with_own_history(net, evidence), evidence)
        rows[("earlier", since)] = {n: Shift("earlier", since, True, float(m)) for n, m in enumerate(moved) if m}
    for number, cause in enumerate(net.causes):
        response = evidence.responses.get(cause.id)
        if response is not None:
            shift = Shift("response", response.control, response.log_odds > 0.0, response.log_odds)
            rows.setdefault(("response", response.control), {})[number] = shift


def _shifts(knowledge: Knowledge, net: CropNet, evidence: Evidence) -> Iterator[tuple[int, Shift]]:
    """Yield the number of a cause and a shift of it, for everything that is known of the case."""
    yield from _told_shifts(knowledge, net, "circumstance", knowledge.circumstances, evidence.circumstances)
    yield from _told_shifts(knowledge, net, "condition", knowledge.conditions, evidence.conditions)
    for number, (cause, clues) in enumerate(zip(net.causes, net.clues, strict=True)):
        for shift in _time_shifts(knowledge, clues, "stage", evidence.stage):
            yield number, shift
        for shift in _time_shifts(knowledge, clues, "season", evidence.season):
            yield number, shift
        for symptom in cause.excludes:
            if symptom in evidence.seen:
                yield number, Shift("excludes", symptom, True, EXCLUDES_SHIFT)


def _told_shifts(
    knowledge: Knowledge,
    net: CropNet,
    kind: Literal["circumstance", "condition"],
    known: Mapping[str, Circumstance] | Mapping[str, Condition],
    told: Mapping[str, bool | None],
) -> Iterator[tuple[int, Shift]]:
    words = knowledge.scales.frequency.words
    for subject, holds in told.items():
        if holds is None:
            continue
        for number, clue in net.told_by.get((kind, subject), ()):
            odds = bounded(words[clue.how_often], words[known[subject].usual], holds)
            yield number, Shift(kind, subject, holds, odds)


def _time_shifts(
    knowledge: Knowledge, clues: tuple[Clue, ...], kind: Literal["stage", "season"], now: str | None
) -> list[Shift]:
    """Return the one shift of the planting's stage or the season: the clue that names it, or all that do not."""
    if now is None:
        return []
    timed = {clue.subject: knowledge.scales.frequency.words[clue.how_often] for clue in clues if getattr(clue, kind)}
    if not timed:
        return []
    peak = max(timed.values())
    if now in timed:
        # commonness is told for the time the cause is usually seen, so its own time moves nothing
        odds = math.log(max(timed[now], 0.02) / peak) if peak else 0.0
        return [Shift(kind, now, True, max(-SHIFT_LIMIT, odds))]
    return [Shift(kind, now, False, min(0.0, bounded(peak, _STAGE_USUAL, False)))]


def bounded(given_cause: float, usual: float, holds: bool) -> float:
    """Return the log ratio of "holds" under the cause to "holds" anywhere, within ±SHIFT_LIMIT."""
    usual = min(max(usual, 0.02), 0.98)
    top, bottom = (given_cause, usual) if holds else (1.0 - given_cause, 1.0 - usual)
    if top <= 0.0:
        return -SHIFT_LIMIT
    return max(-SHIFT_LIMIT, min(SHIFT_LIMIT, math.log(top / bottom)))
