"""The score counts what the cases say, and keeps the unseen half unseen."""

import pytest

from scout.errors import BadInput, NotFound
from scout.intake.knowledge_case import KnowledgeCase, read_cases
from scout.services.score import score

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
MILDEW = {"crop": "cucumber", "seen": ("leaf.white_powder", "leaf.white_powder_beneath")}


def case(key: str, **given) -> KnowledgeCase:
    return KnowledgeCase(id=key, **(MILDEW | {"before_split": True} | given))


def test_a_right_and_a_wrong_case_are_counted() -> None:
    result = score(
        KNOWLEDGE,
        (case("a/right", first=("powdery_mildew_cucurbit",)), case("a/wrong", first=("angular_leaf_spot",))),
    )
    assert (result.first.hits_n, result.first.of_n) == (1, 2)
    assert result.failed == ("a/wrong",)


def test_a_sick_plant_called_healthy_in_the_file_is_a_miss() -> None:
    result = score(KNOWLEDGE, (case("a/well", healthy=True),))
    assert (result.healthy.hits_n, result.healthy.of_n) == (0, 1)


def test_the_unseen_half_is_scored_and_no_case_of_it_is_named() -> None:
    # sha256 of the ids decides; both halves are met among eight
    cases = tuple(case(f"a/{n}", first=("angular_leaf_spot",), before_split=False) for n in range(8))
    unseen = score(KNOWLEDGE, cases, "unseen")
    tuning = score(KNOWLEDGE, cases, "tuning")
    assert unseen.cases_n + tuning.cases_n == 8 and unseen.cases_n and tuning.cases_n
    assert unseen.failed == () and len(tuning.failed) == tuning.cases_n


def test_a_case_that_takes_any_of_several_causes_says_nothing_of_the_chances() -> None:
    one = case("a/one", first=("powdery_mildew_cucurbit",))
    any_of_two = case("a/two", first=("powdery_mildew_cucurbit", "downy_mildew_cucurbit"))
    both = score(KNOWLEDGE, (one, any_of_two))
    assert both.first.of_n == 2
    assert both.calibration is not None and sum(row.of_n for row in both.calibration.reliability) == 1
    assert score(KNOWLEDGE, (any_of_two,)).calibration is None


def test_a_case_of_words_is_heard() -> None:
    words = case("a/words", seen=(), words="white powder on the leaves", first=("powdery_mildew_cucurbit",))
    assert score(KNOWLEDGE, (words,)).first.hits_n == 1


def test_an_empty_folder_and_a_case_that_expects_nothing_are_refused(tmp_path) -> None:
    with pytest.raises(NotFound, match="no cases"):
        read_cases(tmp_path)
    (tmp_path / "one.toml").write_text('crop = "tomato"\n', encoding="utf-8")
    with pytest.raises(BadInput, match="nothing is expected"):
        read_cases(tmp_path)
    (tmp_path / "one.toml").write_text('crop = "tomato"\nhealthy = true\nsean = []\n', encoding="utf-8")
    with pytest.raises(BadInput, match="sean"):
        read_cases(tmp_path)
