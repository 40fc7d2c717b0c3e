"""What earlier visits of an open problem made of its causes carries over, and fades.

The open problem is taken as one course. Visit by visit the chances are worked out from what was new there, and what
they gained or lost fades by half every HALF_LIFE_D days until the next visit and today. A sign that was seen again
counts once, where it was seen last. Each cause is carried by itself: that two causes explain the same old sign is
not remembered.
"""

from typing import TYPE_CHECKING

from scout.diagnosis.crop_net import CropNet
from scout.diagnosis.evidence import Bout, Evidence
from scout.knowledge.base import Knowledge

if TYPE_CHECKING:
    from scout.diagnosis.network import Array

HALF_LIFE_D = 14.0
"""Days in which what an earlier visit said fades to half. Our choice: about two cycles of a leaf spot."""
CARRIED_LIMIT = 4.0
"""Most log-odds that can be carried over. Our choice, that of all circumstances together."""


def carried(knowledge: Knowledge, net: CropNet, base: "Array", evidence: Evidence) -> "Array":
    """Return the log-odds each cause carries over from the earlier visits, (n,), within ±CARRIED_LIMIT.

    base: log-odds of the causes before anything is known of this planting.
    """
    import numpy as np

    moved, last = np.zeros(len(net.causes)), evidence.earlier[0].on
    for bout in evidence.earlier:
        moved = _faded(moved, (bout.on - last).days)
        moved = np.clip(_after(knowledge, net, base + moved, bout) - base, -CARRIED_LIMIT, CARRIED_LIMIT)
        last = bout.on
    return _faded(moved, (evidence.on - last).days if evidence.on else 0)


def _faded(moved: "Array", days_n: int) -> "Array":
    faded: Array = moved * 0.5 ** (max(0, days_n) / HALF_LIFE_D)
    return faded


def _after(knowledge: Knowledge, net: CropNet, before: "Array", bout: Bout) -> "Array":
    """Return the log-odds of the causes after one visit, from the log-odds before it."""
    import numpy as np

    from scout.diagnosis.model import EXCLUDES_SHIFT, heard
    from scout.diagnosis.network import WIDEST, solve
    from scout.diagnosis.reasons import log_odds

    seen = tuple(s for s in bout.seen if s in knowledge.symptoms)[:WIDEST]
    not_seen = tuple(s for s in bout.not_seen if s in knowledge.symptoms)
    excluded = np.array([bool(set(cause.excludes) & set(seen)) for cause in net.causes])
    prior = 1.0 / (1.0 + np.exp(-(before + EXCLUDES_SHIFT * excluded)))
    weak = np.array([heard(bout.not_seen[s]) for s in not_seen])
    keep = (1.0 - net.strength[:, net.columns(not_seen)] * weak).prod(axis=1)
    leak = np.array([knowledge.scales.background.words[knowledge.symptoms[s].background] for s in seen])
    strength = net.strength[:, net.columns(seen)]
    solved = solve(prior[None], keep[None], strength, leak, np.ones((1, len(seen)), dtype=bool))
    return log_odds(solved.marginals[0])
