"""One sign by itself, for every crop and every sign of it: each is ranked once, and all that must hold is looked at."""

import pytest

from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.rank import rank

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_one_clue_never_gives_a_verdict_and_no_rare_cause_wins_on_a_common_sign(crop: str) -> None:
    linked = {clue.symptom for cause in KNOWLEDGE.causes_of(crop) for clue in cause.clues if clue.symptom}
    common = {s.id for s in KNOWLEDGE.symptoms_of(crop) if s.background in ("everyday", "now_and_then")}
    named, won = [], []
    for sign in sorted(linked | common):
        ranking = rank(KNOWLEDGE, Evidence(crop=crop, seen={sign: Count()}))
        if sign in linked and ranking.stop is None and ranking.cannot_tell is None:
            named.append(sign)
        if sign in common:
            first = ranking.causes[0]
            won += [(sign, first.cause.id)] if first.cause.common[crop] == "rare" and first.probability > 0.5 else []
    assert named == [] and won == []
