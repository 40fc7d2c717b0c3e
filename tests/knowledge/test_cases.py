"""Every cause wins the case written for it, and a healthy bed stays silent.

The cases are written as a grower would report textbook descriptions; they are invented, their clues are not. There are
over a thousand, so a test takes all of a crop and names every one that fails.
"""

from functools import cache
from pathlib import Path

import pytest

from scout.diagnosis.rank import rank
from scout.intake.knowledge_case import KnowledgeCase, read_cases
from scout.services.score import evidence_of, misses

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()


@cache
def all_cases() -> tuple[KnowledgeCase, ...]:
    return read_cases(Path(__file__).parent / "cases")


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_the_cases_of_the_tuning_half_are_answered_as_their_files_say(crop: str) -> None:
    chosen = [case for case in all_cases() if case.tuning and case.crop == crop]
    missed = {case.id: misses(KNOWLEDGE, case, rank(KNOWLEDGE, evidence_of(KNOWLEDGE, case))) for case in chosen}
    assert missed and {key: said for key, said in missed.items() if said} == {}


def test_the_cases_speak_the_words_of_the_knowledge() -> None:
    """Of the other half this is all that is looked at: ids that exist."""
    unknown = {
        case.id: strangers
        for case in all_cases()
        if (
            strangers := {
                *{case.crop} - set(KNOWLEDGE.crops),
                *{*case.seen, *case.not_seen} - set(KNOWLEDGE.symptoms),
                *set(case.circumstances) - set(KNOWLEDGE.circumstances),
                *set(case.conditions) - set(KNOWLEDGE.conditions),
                *{*case.first, *case.top3, *case.not_first, *case.rule_out} - set(KNOWLEDGE.causes),
            }
        )
    }
    assert unknown == {}
