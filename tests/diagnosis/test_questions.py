"""A small version of the question benchmark, and the joint gain against printed figures."""

import numpy as np
import pytest

from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import Model
from scout.diagnosis.next_look import joint_gain, next_looks
from scout.diagnosis.rank import rank

from ..shipped import shipped_knowledge
from ..simulators.questions import compare

KNOWLEDGE = shipped_knowledge()


def test_it_asks_less_than_the_plain_way_and_far_less_than_chance() -> None:
    found = compare(KNOWLEDGE, ("tomato", "cucumber", "cabbage"), 90, 7)
    assert found.told_n >= 30
    assert found.ours_mean < found.plain_mean
    assert found.ours_mean <= 0.5 * found.random_mean


# Three causes, four findings; expected information over the joint of the causes by enumeration of all eight sets.
PRIOR = np.array([0.20, 0.15, 0.30])
LEAK = np.array([0.02, 0.01, 0.01, 0.05])
LINKS = np.array([[0.90, 0.80, 0, 0.10], [0.85, 0.05, 0.70, 0], [0.10, 0, 0, 0.75]])


@pytest.mark.parametrize(
    ("positive", "negative", "asked", "bits"),
    [
        ([], [], [0, 1, 2, 3], (0.579004, 0.431240, 0.311403, 0.374655)),
        ([0], [], [1, 2, 3], (0.476060, 0.466808, 0.345526)),
        ([0], [1], [2, 3], (0.416706, 0.400321)),
    ],
)
def test_the_gain_about_the_causes_together_is_that_of_enumeration(positive, negative, asked, bits) -> None:
    model = Model(
        causes=(None,) * 3,
        base=np.log(PRIOR / (1 - PRIOR)),
        shift_keys=(),
        shifts=np.zeros((0, 3)),
        holds=np.zeros((0, 3), dtype=bool),
        positive=tuple(map(str, positive)),
        negative=tuple(map(str, negative)),
        left_out=(),
        left_out_log_odds=0.0,
        strength=LINKS[:, positive],
        leak=LEAK[positive],
        miss=1.0 - LINKS[:, negative],
    )
    now = PRIOR.copy()
    assert joint_gain(model, now, LINKS[:, asked], LEAK[asked]) == pytest.approx(bits, abs=5e-7)


def test_what_a_yes_would_bring_is_what_the_yes_brings() -> None:
    """The chances told beforehand are those of the ranking after the answer."""
    case = Evidence("cucumber", seen={"leaf.angular_patches": _count()})
    for look in next_looks(KNOWLEDGE, case):
        after = rank(KNOWLEDGE, Evidence("cucumber", seen={**case.seen, look.symptom.id: _count()}))
        chances = {r.cause.id: r.probability for r in after.causes}
        excluded = any(look.symptom.id in cause.excludes for cause in KNOWLEDGE.causes_of("cucumber"))
        if not excluded:
            assert chances[look.leads_if_seen[0]] == pytest.approx(look.leads_if_seen[1], abs=1e-9)


def _count():
    from scout.diagnosis.evidence import Count

    return Count(20)
