"""The knowledge base is in order, and a mistake in a file is told with file, line and key."""

import shutil
from collections.abc import Callable
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from scout.errors import KnowledgeError, NotFound
from scout.knowledge import assemble
from scout.knowledge.check import RULES, check_knowledge
from scout.knowledge.load import load_knowledge

from ..shipped import shipped_knowledge

SHIPPED = Path(__file__).parents[2] / "knowledge"
TODAY = date(2026, 11, 26)
RULE_IDS = [rule.__name__ for rule in RULES]


@pytest.fixture(scope="module")
def knowledge():
    return shipped_knowledge()


@pytest.fixture(scope="module")
def parsed_once() -> Callable[..., object]:
    return cache(assemble._parse)


@pytest.fixture
def copy(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, parsed_once: Callable[..., object]) -> Path:
    """A folder to put a mistake into; of its four hundred files only the one with new text is parsed anew."""
    monkeypatch.setattr(assemble, "_parse", parsed_once)
    return Path(shutil.copytree(SHIPPED, tmp_path / "knowledge"))


@pytest.mark.parametrize("rule", RULES, ids=RULE_IDS)
def test_the_shipped_base_keeps_every_rule(rule, knowledge) -> None:
    assert list(rule(knowledge)) == []


def test_nothing_is_stale_or_dated_in_the_future(knowledge) -> None:
    assert check_knowledge(knowledge, TODAY) == ()
    assert any("out of date" in text for text in check_knowledge(knowledge, date(2035, 1, 1)))


def test_the_first_crops_have_at_least_seventy_causes(knowledge) -> None:
    assert set(knowledge.crops) >= {
        "tomato", "sweet_pepper", "hot_pepper", "cucumber", "summer_squash", "snap_bean", "beet",
    }  # fmt: skip
    assert len(knowledge.causes) >= 70


def change(folder: Path, name: str, old: str, new: str) -> None:
    file = folder / name
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


CAUSE = "causes/fungal/early_blight.toml"


@pytest.mark.parametrize(
    ("name", "old", "new", "words"),
    [
        (CAUSE, "summary =", "sumary =", (CAUSE, "line", "sumary")),
        (CAUSE, 'kind = "fungal"', 'kind = "fungus"', (CAUSE, "line 3", "kind")),
        (CAUSE, 'id = "early_blight"', 'id = "early_blite"', (CAUSE, "early_blite.toml")),
        (CAUSE, "contagion =", 'kind = "viral"\ncontagion =', (CAUSE, "kind", "line")),
        (CAUSE, "summary = ", "summary = none ", (CAUSE, "line")),
        ("sources.toml", 'basis = "practice"', 'basis = "hearsay"', ("sources.toml", "line", "basis")),
        ("circumstances.toml", "[[circumstances]]", "[[circumstance]]", ("circumstances.toml", "'circumstance'")),
    ],
)
def test_a_mistake_is_told_with_file_line_and_key(copy, name, old, new, words) -> None:
    change(copy, name, old, new)
    with pytest.raises(KnowledgeError) as told:
        load_knowledge(copy)
    for word in words:
        assert word in str(told.value)
    assert "\n" not in str(told.value)


@pytest.mark.parametrize(
    ("name", "old", "new", "rule"),
    [
        (CAUSE, 'symptom = "leaf.ringed_spots"', 'symptom = "leaf.ringed_sports"', "known_ids"),
        (CAUSE, "\nsources = [", '\nsources = ["nobody_1900", ', "known_sources"),
    ],
)
def test_an_id_that_does_not_exist_is_told(copy, name, old, new, rule) -> None:
    change(copy, name, old, new)
    problems = list(RULES[RULE_IDS.index(rule)](load_knowledge(copy)))
    assert problems and all("early_blight" in text for text in problems)


def test_a_stray_file_is_refused(copy) -> None:
    (copy / "causes.toml").write_text('a = "b"', encoding="utf-8")
    with pytest.raises(KnowledgeError, match=r"causes\.toml"):
        load_knowledge(copy)


def test_a_file_that_is_no_text_is_refused(copy) -> None:
    (copy / "scales.toml").write_bytes(b"\xff\xfe\x00bad")
    with pytest.raises(KnowledgeError, match=r"scales\.toml"):
        load_knowledge(copy)


def test_the_compiled_copy_gives_the_same_knowledge(copy, tmp_path) -> None:
    cache = tmp_path / "cache"
    first = load_knowledge(copy, cache)
    assert len(list(cache.glob("knowledge-*.json"))) == 1
    second = load_knowledge(copy, cache)
    assert (second.causes, second.crops, second.hash) == (first.causes, first.crops, first.hash)


def test_a_changed_file_is_not_answered_from_the_old_copy(copy, tmp_path) -> None:
    cache = tmp_path / "cache"
    before = load_knowledge(copy, cache)
    change(copy, CAUSE, 'name = "Early blight"', 'name = "Early blight, changed"')
    after = load_knowledge(copy, cache)
    assert after.causes["early_blight"].name == "Early blight, changed"
    assert after.hash != before.hash


def test_a_damaged_compiled_copy_is_passed_over(copy, tmp_path) -> None:
    cache = tmp_path / "cache"
    load_knowledge(copy, cache)
    next(cache.glob("knowledge-*.json")).write_text("{", encoding="utf-8")
    assert load_knowledge(copy, cache).causes


def test_a_compiled_copy_of_other_knowledge_is_passed_over(copy, tmp_path) -> None:
    cache = tmp_path / "cache"
    load_knowledge(copy, cache)
    other = next(cache.glob("knowledge-*.json"))
    change(copy, CAUSE, 'name = "Early blight"', 'name = "Early blight, changed"')
    load_knowledge(copy, cache)
    newer = next(file for file in cache.glob("knowledge-*.json") if file != other)
    newer.write_bytes(other.read_bytes())
    assert load_knowledge(copy, cache).causes["early_blight"].name == "Early blight, changed"


def test_every_entry_is_the_same_from_the_compiled_copy_and_from_the_files(copy, tmp_path) -> None:
    first, compiled = load_knowledge(copy, tmp_path / "cache"), load_knowledge(copy, tmp_path / "cache")
    assert compiled == first == load_knowledge(copy)


def test_line_ends_of_another_system_are_the_same_knowledge(copy) -> None:
    before = load_knowledge(copy).hash
    file = copy / CAUSE
    file.write_bytes(file.read_bytes().replace(b"\n", b"\r\n"))
    assert load_knowledge(copy).hash == before


def test_crops_and_symptoms_answer_to_their_aliases(knowledge) -> None:
    assert knowledge.crop("zucchini").id == "summer_squash"
    assert knowledge.crop("Snap bean").id == "snap_bean"
    assert knowledge.symptom("leaf.ringed_spots").id == "leaf.ringed_spots"
    with pytest.raises(NotFound, match="tomatillo"):
        knowledge.crop("tomatillo")


def test_every_must_not_miss_cause_says_what_is_at_stake_and_how_to_check(knowledge) -> None:
    serious = [c for c in knowledge.causes.values() if c.rule_out_first]
    assert len(serious) >= 6
    for cause in serious:
        assert cause.at_stake and cause.fast_check


SERIOUS = (
    "late_blight", "bacterial_wilt", "bacterial_wilt_cucurbit", "bacterial_canker", "tomato_spotted_wilt",
    "curly_top_virus", "yellow_leaf_curl", "tomato_mosaic", "clubroot", "toxic_bitter_squash",
)  # fmt: skip
"""Those that must not be missed, whatever else is likelier."""


def test_the_serious_ones_are_ruled_out_first(knowledge) -> None:
    assert [key for key in SERIOUS if not knowledge.causes[key].rule_out_first] == []


def test_a_cause_names_every_page_that_a_clue_of_it_rests_on(knowledge) -> None:
    unnamed = {
        cause.id: clue.source
        for cause in knowledge.causes.values()
        for clue in cause.clues
        if clue.source and clue.source not in cause.sources
    }
    assert unnamed == {}
    assert knowledge.causes["early_blight"].sources[0] == "ncsu_early_blight"
