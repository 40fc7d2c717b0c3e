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


def test_what_to_look_for_proves_only_causes_that_could_have_made_what_was_seen() -> None:
    """White powder is no sign of beetles, however common beetles are on the crop."""
    ranking = rank(KNOWLEDGE, Evidence(crop="cucumber", seen={"leaf.white_powder": Count()}))
    assert ranking.cannot_tell is not None
    shows = {c.id for c in KNOWLEDGE.causes_of("cucumber") if any(k.symptom == "leaf.white_powder" for k in c.clues)}
    assert ranking.cannot_tell.causes and set(ranking.cannot_tell.causes) <= shows
    proofs = {sign for cause in shows for sign in KNOWLEDGE.causes[cause].proof}
    assert set(ranking.cannot_tell.look_for) <= proofs
