"""Every cause wins the case written for it, and a healthy bed stays silent.

The cases are written as a grower would report textbook descriptions; they are invented, their clues are not.
"""

from pathlib import Path

import pytest

from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.rank import rank
from scout.intake.knowledge_case import read_cases
from scout.knowledge.load import load_knowledge
from scout.services.score import evidence_of, misses

KNOWLEDGE = load_knowledge(Path(__file__).parents[2] / "knowledge")
CASES = read_cases(Path(__file__).parent / "cases")
SILENT = 0.5
"""No living cause may be likelier than this on one sign that is seen everywhere."""


@pytest.mark.parametrize("case", [case for case in CASES if case.tuning], ids=lambda case: case.id)
def test_a_case_of_the_tuning_half_is_answered_as_its_file_says(case) -> None:
    assert misses(KNOWLEDGE, case, rank(KNOWLEDGE, evidence_of(KNOWLEDGE, case))) == ()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_a_case_speaks_the_words_of_the_knowledge(case) -> None:
    """Of the other half this is all that is looked at: ids that exist."""
    assert case.crop in KNOWLEDGE.crops
    assert {*case.seen, *case.not_seen} <= set(KNOWLEDGE.symptoms)
    assert set(case.circumstances) <= set(KNOWLEDGE.circumstances)
    assert set(case.conditions) <= set(KNOWLEDGE.conditions)
    assert {*case.first, *case.top3, *case.not_first, *case.rule_out} <= set(KNOWLEDGE.causes)


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_every_crop_has_a_healthy_case(crop: str) -> None:
    assert any(case.healthy and case.crop == crop for case in CASES)


@pytest.mark.parametrize("cause", sorted(KNOWLEDGE.causes))
def test_every_cause_has_a_case(cause: str) -> None:
    named = {key for case in CASES for key in (*case.first, *case.top3)}
    named |= {case.id.split("/")[1] for case in CASES if case.stop}
    assert cause in named or KNOWLEDGE.causes[cause].status == "retired"


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_no_rare_cause_wins_on_one_common_sign(crop: str) -> None:
    for symptom in KNOWLEDGE.symptoms_of(crop):
        if symptom.background not in ("everyday", "now_and_then"):
            continue
        first = rank(KNOWLEDGE, Evidence(crop=crop, seen={symptom.id: Count()})).causes[0]
        assert not (first.cause.common[crop] == "rare" and first.probability > 0.5), (symptom.id, first.cause.id)
