"""Every cause wins the case written for it, and a healthy bed stays silent.

The cases are written as a grower would report textbook descriptions; they are invented, their clues are not.
"""

import tomllib
from pathlib import Path

import pytest

from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.rank import rank
from scout.knowledge.load import load_knowledge

FOLDER = Path(__file__).parent / "cases"
KNOWLEDGE = load_knowledge(Path(__file__).parents[2] / "knowledge")
CASES = sorted(FOLDER.rglob("*.toml"))
KEYS = {
    "crop", "stage", "season", "first", "top3", "not_first", "healthy", "seen", "not_seen", "circumstances",
    "conditions", "looked", "affected", "cannot_tell", "rule_out", "note", "stop", "words", "source", "before_split",
}  # fmt: skip
SILENT = 0.5
"""No living cause may be likelier than this in a healthy bed."""


def evidence_of(case: dict) -> Evidence:
    count = Count(case.get("looked"), case.get("affected"))
    return Evidence(
        crop=case["crop"],
        stage=case.get("stage"),
        season=case.get("season"),
        seen=dict.fromkeys(case.get("seen", []), count),
        not_seen=dict.fromkeys(case.get("not_seen", []), Count(case.get("looked"))),
        circumstances=case.get("circumstances", {}),
        conditions=case.get("conditions", {}),
    )


@pytest.mark.parametrize("file", CASES, ids=lambda f: f.relative_to(FOLDER).as_posix())
def test_a_case_is_answered_as_its_file_says(file: Path) -> None:
    case = tomllib.loads(file.read_text(encoding="utf-8"))
    assert set(case) <= KEYS, f"unknown keys {set(case) - KEYS}"
    assert set(case.get("seen", [])) | set(case.get("not_seen", [])) <= set(KNOWLEDGE.symptoms)
    assert set(case.get("circumstances", {})) <= set(KNOWLEDGE.circumstances)
    assert set(case.get("conditions", {})) <= set(KNOWLEDGE.conditions)
    ranking = rank(KNOWLEDGE, evidence_of(case))
    assert (ranking.stop.id if ranking.stop else None) == case.get("stop")
    if ranking.stop is not None:
        return  # the warning comes before any ranking
    order = [ranked.cause.id for ranked in ranking.causes]
    assert case.get("first") or case.get("top3") or case.get("healthy") or "cannot_tell" in case
    if case.get("first"):
        assert order[0] in case["first"], order[:4]
    if case.get("top3"):
        assert set(order[:3]) & set(case["top3"]), order[:4]
    for cause in case.get("not_first", []):
        assert order[0] != cause
    if case.get("healthy"):
        loud = [r.cause.id for r in ranking.causes if r.cause.living and r.probability > SILENT]
        assert not loud, loud
    if "cannot_tell" in case:
        assert (ranking.cannot_tell is not None) is case["cannot_tell"]
    assert set(case.get("rule_out", [])) <= set(ranking.rule_out_first)


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_every_crop_has_a_healthy_case(crop: str) -> None:
    files = [tomllib.loads(f.read_text(encoding="utf-8")) for f in CASES]
    assert any(case.get("healthy") and case["crop"] == crop for case in files)


@pytest.mark.parametrize("cause", sorted(KNOWLEDGE.causes))
def test_every_cause_has_a_case(cause: str) -> None:
    files = [tomllib.loads(f.read_text(encoding="utf-8")) for f in CASES]
    named = {c for case in files for c in (*case.get("first", []), *case.get("top3", []))}
    named |= {file.stem for file, case in zip(CASES, files, strict=True) if case.get("stop")}
    assert cause in named or KNOWLEDGE.causes[cause].status == "retired"


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_no_rare_cause_wins_on_one_common_sign(crop: str) -> None:
    for symptom in KNOWLEDGE.symptoms_of(crop):
        if symptom.background not in ("everyday", "now_and_then"):
            continue
        first = rank(KNOWLEDGE, Evidence(crop=crop, seen={symptom.id: Count()})).causes[0]
        assert not (first.cause.common[crop] == "rare" and first.probability > 0.5), (symptom.id, first.cause.id)
