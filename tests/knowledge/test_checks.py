"""Every rule of the knowledge check is shown a base that breaks it: a rule that never speaks is no rule."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause
from scout.knowledge.check import RULES

from ..shipped import shipped_knowledge

SHIPPED = shipped_knowledge()
BLIGHT = "early_blight"


def with_cause(cause: Cause) -> Knowledge:
    return replace(SHIPPED, causes={**SHIPPED.causes, cause.id: cause})


def blight(**changes: object) -> Knowledge:
    return with_cause(SHIPPED.causes[BLIGHT].model_copy(update=changes))


def clue_of_blight(**changes: object) -> Knowledge:
    first, *others = SHIPPED.causes[BLIGHT].clues
    return blight(clues=(first.model_copy(update=changes), *others))


def twin() -> Knowledge:
    return with_cause(SHIPPED.causes[BLIGHT].model_copy(update={"id": "blight_again", "look_alikes": ()}))


def without_a_crop_of_any_cause() -> Knowledge:
    crop = SHIPPED.crops["tomato"].model_copy(update={"id": "moonflower"})
    return replace(SHIPPED, crops={**SHIPPED.crops, "moonflower": crop})


def with_a_family_of_two_names() -> Knowledge:
    crop = SHIPPED.crops["tomato"].model_copy(update={"family": "potato family (Solanaceae)"})
    return replace(SHIPPED, crops={**SHIPPED.crops, "tomato": crop})


def with_a_sign_for_everything() -> Knowledge:
    rings = SHIPPED.symptoms["leaf.ringed_spots"]
    more = {f"leaf.ringed_{n}": rings.model_copy(update={"id": f"leaf.ringed_{n}"}) for n in range(321)}
    parts = dict.fromkeys(more, SHIPPED.part_of[rings.id])
    return replace(SHIPPED, symptoms={**SHIPPED.symptoms, **more}, part_of={**SHIPPED.part_of, **parts})


def asks_first_for_what_is_unknown() -> Knowledge:
    limp = SHIPPED.symptoms["whole_plant.limp_midday"].model_copy(update={"ask_first": "no_such_soil"})
    return replace(SHIPPED, symptoms={**SHIPPED.symptoms, limp.id: limp})


def with_an_unused_symptom() -> Knowledge:
    symptom = SHIPPED.symptoms["leaf.ringed_spots"].model_copy(update={"id": "leaf.unused"})
    return replace(
        SHIPPED,
        symptoms={**SHIPPED.symptoms, "leaf.unused": symptom},
        part_of={**SHIPPED.part_of, "leaf.unused": "leaf"},
    )


def labelled_without_a_label() -> Knowledge:
    key = next(key for key, kind in SHIPPED.control_kind.items() if kind == "labelled")
    bare = SHIPPED.controls[key].model_copy(update={"do": "Use a product.", "steps": ()})
    return replace(SHIPPED, controls={**SHIPPED.controls, key: bare})


def only_labelled() -> Knowledge:
    key = next(key for key, kind in SHIPPED.control_kind.items() if kind == "labelled")
    action = SHIPPED.causes[BLIGHT].do[0].model_copy(update={"control": key})
    return blight(do=(action,), no_cultural=None)


def one_sided_look_alike() -> Knowledge:
    other = SHIPPED.causes[BLIGHT].look_alikes[0].model_copy(update={"cause": "powdery_mildew_cucurbit"})
    return blight(look_alikes=(other,))


def a_rare_cause_that_leads() -> Knowledge:
    """As if the word "rare" had been given the chance of a common cause."""
    words = {**SHIPPED.scales.commonness.words, "rare": 0.3, "uncommon": 0.31, "occasional": 0.32}
    commonness = SHIPPED.scales.commonness.model_copy(update={"words": words})
    return replace(SHIPPED, scales=SHIPPED.scales.model_copy(update={"commonness": commonness}))


def all_from_memory() -> Knowledge:
    bare = {"basis": "memory", "checked_on": None}
    return replace(SHIPPED, sources={key: source.model_copy(update=bare) for key, source in SHIPPED.sources.items()})


def a_clinic_as_source() -> Knowledge:
    key, source = next(iter(SHIPPED.sources.items()))
    return replace(SHIPPED, sources={**SHIPPED.sources, key: source.model_copy(update={"by": "A plant clinic"})})


def invited_to_taste() -> Knowledge:
    key = next(c.id for c in SHIPPED.causes.values() if "summer_squash" in c.common)
    return with_cause(SHIPPED.causes[key].model_copy(update={"summary": "Taste a slice of the squash."}))


def cause_with(key: str, **changes: object) -> Knowledge:
    return with_cause(SHIPPED.causes[key].model_copy(update=changes))


def control_with(key: str, **changes: object) -> Knowledge:
    return replace(SHIPPED, controls={**SHIPPED.controls, key: SHIPPED.controls[key].model_copy(update=changes)})


def a_symptom_that_asks_to_taste() -> Knowledge:
    asked = SHIPPED.symptoms["fruit.bitter_taste"].model_copy(update={"question": "Taste it: bitter?", "how": None})
    return replace(SHIPPED, symptoms={**SHIPPED.symptoms, asked.id: asked})


def a_crop_that_says(ready: str) -> Callable[[], Knowledge]:
    squash = SHIPPED.crops["winter_squash"].model_copy(update={"ready": ready})
    return lambda: replace(SHIPPED, crops={**SHIPPED.crops, squash.id: squash})


BROKEN: dict[str, list[tuple[Callable[[], Knowledge], str]]] = {
    "known_sources": [(lambda: blight(sources=("nobody_1900",)), "nobody_1900")],
    "known_ids": [
        (lambda: clue_of_blight(symptom="leaf.no_such"), "leaf.no_such"),
        (asks_first_for_what_is_unknown, "no_such_soil"),
    ],
    "clues_fit_the_crop": [(lambda: clue_of_blight(symptom="root.small_no_bulb"), "root.small_no_bulb")],
    "clues_stand_once": [(lambda: blight(clues=SHIPPED.causes[BLIGHT].clues[:1] * 2), "stands twice")],
    "orphan_symptoms": [(with_an_unused_symptom, "leaf.unused")],
    "cultural_control_first": [(only_labelled, BLIGHT)],
    "something_is_said_for_today": [(lambda: blight(do=()), "for today")],
    "look_alikes_are_mutual": [(one_sided_look_alike, "powdery_mildew_cucurbit")],
    "every_cause_has_a_look_alike": [(lambda: blight(look_alikes=()), BLIGHT)],
    "every_crop_has_causes": [(without_a_crop_of_any_cause, "moonflower")],
    "families_are_named_alike": [(with_a_family_of_two_names, "write it alike")],
    "codes_are_confirmed": [(lambda: blight(eppo="ALTESO", eppo_status="memory"), "ALTESO")],
    "no_two_alike": [(twin, "blight_again")],
    "rare_causes_stay_quiet": [(a_rare_cause_that_leads, "rare on")],
    "the_vocabulary_stays_small": [(with_a_sign_for_everything, "are enough")],
    "few_rest_on_memory": [(all_from_memory, "rest on memory")],
    "no_diagnosing_service_is_a_source": [(a_clinic_as_source, "judges plants")],
    "every_crop_has_a_healthy_case": [(without_a_crop_of_any_cause, "moonflower")],
    "every_cause_has_a_case": [(twin, "blight_again")],
    "must_nevers": [
        (lambda: blight(summary="Mix 2 tablespoons in a bucket."), "dose"),
        (lambda: blight(at_stake="One part in 10, or 1 part to 10 parts of water."), "dose"),
        (lambda: blight(dont=("Spray dish soap on it.",)), "home brew"),
        (invited_to_taste, "tasting"),
        (lambda: blight(confirm=("Spray neem on the lowest leaves.",)), "product"),
        (
            lambda: blight(
                pull_when="In autumn: burn the stalks.",
            ),
            "burn plants",
        ),
        (lambda: blight(confirm=("Strip the wet leaves first.",)), "strip wet leaves"),
        (a_symptom_that_asks_to_taste, "tasting"),
        (a_crop_that_says("Taste one to be sure."), "tasting"),
        (a_crop_that_says("Mix 2 tsp in a can."), "dose"),
    ],
    "no_cure_is_promised": [
        (lambda: cause_with("tomato_spotted_wilt", summary="Feed it and it heals."), "promise a cure"),
        (lambda: cause_with("bacterial_wilt", summary="Dry soil will cure it."), "promise a cure"),
        (lambda: cause_with("late_blight", pull_when="At once, onto the compost."), "compost"),
    ],
    "donts_refuse": [(lambda: blight(dont=("Mulch and wait.",)), "forbids nothing")],
    "labelled_comes_last": [
        (labelled_without_a_label, "by the label"),
        (lambda: control_with("bt_by_label", do="Spray it on small caterpillars.", steps=()), "by the label"),
    ],
    "grave_causes_have_a_fast_check": [(lambda: cause_with("harlequin_bug", fast_check=None), "fast_check")],
}
RULE = {rule.__name__: rule for rule in RULES}


def test_every_rule_has_a_counter_example() -> None:
    assert set(BROKEN) == set(RULE)


@pytest.mark.parametrize(
    ("rule", "broken", "word"),
    [(rule, broken, word) for rule, cases in BROKEN.items() for broken, word in cases],
)
def test_a_rule_speaks_where_it_is_broken_and_is_silent_on_what_is_shipped(rule: str, broken, word: str) -> None:
    assert list(RULE[rule](SHIPPED)) == []
    told = list(RULE[rule](broken()))
    assert any(word in sentence for sentence in told), told
