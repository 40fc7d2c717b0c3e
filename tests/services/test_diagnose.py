"""The contract for scripts: a case in, an answer out, as the published schema says."""

import json

import pytest

from scout.errors import BadInput
from scout.services.answer_shape import Answer, Failed
from scout.services.diagnose import answer_text, case_and_answer_schema

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
TAPERED = {
    "crop": "cucumber",
    "stage": "fruiting",
    "on": "2026-07-22",
    "seen": ["fruit.pinched_blossom_end", "fruit.seeds_missing_where_thin"],
    "not_seen": ["leaf.mosaic"],
    "looked": 19,
    "affected": 7,
    "weather": [
        {"date": f"2026-07-{day}", "tmax_c": high, "tmin_c": low, "rain_mm": rain}
        for day, high, low, rain in ((11, 36, 25, 0), (12, 36.5, 25.5, 0), (13, 35.5, 25, 14), (14, 37, 26, 0))
    ],
}


def answers(case) -> list[Answer | Failed]:
    return answer_text(KNOWLEDGE, json.dumps(case))[0]


def one(case) -> Answer:
    answer = answers(case)[0]
    assert isinstance(answer, Answer), answer
    return answer


def test_the_answer_holds_every_key_of_the_contract() -> None:
    answer = one(TAPERED).model_dump(mode="json")
    assert set(answer) >= {
        "causes", "ask_next", "also_together", "unexplained", "stop", "cannot_tell", "words_matched", "knowledge",
    }  # fmt: skip
    first = answer["causes"][0]
    assert set(first) >= {"id", "name", "agent", "kind", "aliases", "probability", "because", "against", "act"}
    assert answer["stop"] is None and answer["cannot_tell"] is None
    assert answer["knowledge"] == KNOWLEDGE.hash
    assert set(answer["ask_next"][0]) >= {"gain", "effort", "splits", "if_seen", "if_not"}
    assert len(answer["ask_next"]) <= 3


def test_tapered_cucumbers_after_a_hot_week_are_heat_and_nothing_living() -> None:
    answer = one(TAPERED)
    assert answer.causes[0].kind in ("heat", "pollination")
    assert answer.called_sick is not None and answer.called_sick < 0.2
    advice = " ".join(act.do for act in answer.causes[0].act if act.when == "today").casefold()
    assert "take off" in advice or "pick" in advice
    assert not [act for act in answer.causes[0].act if act.kind == "labelled"]


def test_the_answer_fits_its_own_schema() -> None:
    schema = case_and_answer_schema()
    assert schema["case"]["additionalProperties"] is False
    probability = schema["answer"]["$defs"]["CauseOut"]["properties"]["probability"]
    assert (probability["minimum"], probability["maximum"]) == (0, 1)
    for key in ("stop", "cannot_tell"):
        assert {"type": "null"} in schema["answer"]["properties"][key]["anyOf"]
    assert set(schema["case"]["properties"]) == {
        "crop", "stage", "on", "seen", "not_seen", "circumstances", "looked", "affected", "weather", "words",
    }  # fmt: skip
    assert schema["case"]["required"] == ["crop"]
    assert Answer.model_validate_json(one(TAPERED).model_dump_json()) == one(TAPERED)


def test_a_list_gets_a_list_and_a_bad_case_does_not_stop_the_others() -> None:
    got, was_list = answer_text(KNOWLEDGE, json.dumps([TAPERED, {"crop": "tomatillo"}, {"crop": "beet", "wat": 1}]))
    assert was_list
    assert isinstance(got[0], Answer) and isinstance(got[1], Failed) and isinstance(got[2], Failed)
    assert "tomatillo" in got[1].error and "wat" in got[2].error


def test_crop_and_symptoms_answer_to_published_aliases() -> None:
    by_alias = one({"crop": "zucchini", "seen": ["leaf.white_powder"]})
    name = KNOWLEDGE.symptoms["leaf.white_powder"].name
    assert by_alias.crop == "summer_squash"
    assert one({"crop": "zucchini", "seen": [name]}).causes == by_alias.causes


def test_bitter_squash_is_a_stop_with_no_causes() -> None:
    answer = one({"crop": "summer_squash", "seen": ["fruit.bitter_taste"], "circumstances": {"volunteer": True}})
    assert answer.stop is not None and answer.causes == [] and answer.ask_next == []


def test_only_the_crop_is_needed_and_then_nobody_can_tell() -> None:
    answer = one({"crop": "beet"})
    assert answer.cannot_tell is not None and answer.causes


def test_weather_after_the_day_counts_as_forecast() -> None:
    later = dict(TAPERED, on="2026-07-10")
    kinds = {clue.kind for cause in one(later).causes for clue in (*cause.because, *cause.against)}
    assert "condition" not in kinds


PULLS = {"pull_and_bag", "pull_late_blight"}


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_a_pull_is_not_advised_before_the_sign_that_proves_it_was_seen(crop: str) -> None:
    """Asked for the causes whose file names a pull; the others are never told one, proof seen or not."""
    too_early = []
    for cause in KNOWLEDGE.causes_of(crop):
        signs = sorted({clue.symptom for clue in cause.clues if clue.symptom} - set(cause.proof))
        seen = [sign for sign in signs if not KNOWLEDGE.symptoms[sign].crops or crop in KNOWLEDGE.symptoms[sign].crops]
        if cause.proof and PULLS & {action.control for action in cause.do}:
            answer = one({"crop": crop, "seen": seen[:3]})
            mine = next(told for told in answer.causes if told.id == cause.id)
            too_early += [(cause.id, act.control) for act in mine.act if act.control in PULLS]
    assert too_early == []


def test_a_pull_is_told_of_a_cause_only_where_its_file_names_one() -> None:
    told = {cause.id: cause.pull is not None for cause in one({"crop": "tomato", "seen": ["leaf.mosaic"]}).causes}
    needs_proof = {key for key, control in KNOWLEDGE.controls.items() if "proof_seen" in control.needs}
    named = {cause: bool(needs_proof & {action.control for action in KNOWLEDGE.causes[cause].do}) for cause in told}
    assert told == named and 0 < sum(named.values()) < len(named)


def test_free_words_are_matched_and_listed_and_a_denial_is_not_seen() -> None:
    answer = one({"crop": "cucumber", "words": "white powder on the leaves, no aphids"})
    matched = {(m.id, m.seen) for m in answer.words_matched}
    assert ("leaf.white_powder", True) in matched
    assert ("insect.aphids", True) not in matched


def test_what_is_answered_by_name_stands_over_what_words_seem_to_say() -> None:
    denied = one({"crop": "cucumber", "words": "white powder on the leaves", "not_seen": ["leaf.white_powder"]})
    clues = {(clue.id, clue.kind) for clue in (*denied.causes[0].because, *denied.causes[0].against)}
    assert ("leaf.white_powder", "seen") not in clues
    powdery = next(cause for cause in denied.causes if cause.id == "powdery_mildew_cucurbit")
    assert ("leaf.white_powder", "not_seen") in {(clue.id, clue.kind) for clue in powdery.against}


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"affected": 20}, "affected"),
        ({"seen": ["leaf.sparkles"]}, "leaf.sparkles"),
        ({"seen": ["fruit.part_filled_pod"]}, "fruit.part_filled_pod"),
        ({"stage": "blooming"}, "stage"),
        ({"circumstances": {"moonlight": True}}, "moonlight"),
        ({"on": "22.07.2026"}, "on"),
        ({"seen": ["leaf.mosaic"]}, "leaf.mosaic"),
        ({"weather": [{"date": "2026-07-11", "tmax_c": 136}]}, "tmax_c"),
        ({"crop": ""}, "crop"),
    ],
)
def test_a_bad_case_is_one_clear_sentence(change, word) -> None:
    got = answers(TAPERED | change)[0]
    assert isinstance(got, Failed), got
    assert word in got.error and "\n" not in got.error and "Traceback" not in got.error


@pytest.mark.parametrize("text", ["", "{", "[]", '{"crop": "beet", "crop": "tomato"}', "[1", "nonsense"])
def test_text_that_is_no_case_is_refused(text) -> None:
    with pytest.raises(BadInput):
        answer_text(KNOWLEDGE, text)


def test_looked_and_affected_of_a_case_count_as_how_the_trouble_lies() -> None:
    signs = {"crop": "tomato", "seen": ["leaf.strappy_new", "leaf.cupped_new", "whole_plant.stunted"]}

    def chance(cause: str, **numbers: int) -> float:
        return next(c.probability for c in one(signs | numbers).causes if c.id == cause)

    residue = "herbicide_residue_compost"
    assert chance(residue, looked=6, affected=6) > chance(residue) > chance(residue, looked=8, affected=1)
    assert chance(residue, looked=6) == pytest.approx(chance(residue))
    because = one(signs | {"looked": 6, "affected": 6}).causes[0].because
    assert "more than half of the plants" in {clue.text for clue in because}


def test_a_circumstance_given_stands_against_one_counted() -> None:
    said = {
        "crop": "tomato",
        "seen": ["leaf.strappy_new"],
        "looked": 6,
        "affected": 6,
        "circumstances": {"most_plants": False},
    }
    clues = [clue for cause in one(said).causes for clue in (*cause.because, *cause.against)]
    assert "more than half of the plants" not in {clue.text for clue in clues}
