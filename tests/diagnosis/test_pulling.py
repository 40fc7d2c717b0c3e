"""Pull or keep apart: a wrong pull costs a good plant, waiting costs a share of the stake.

The losses are this project's own choice (knowledge/scales.toml); what is held here is what follows from them, and
the look-alikes for which good plants are pulled most: broad mite and weed killer read as virus (extension notes
cited in the cause files), sunscald read as late blight.
"""

import pytest

from scout.diagnosis.advise import Bedside, advise
from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.pulling import pulled_for, pulls
from scout.diagnosis.rank import rank

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
MITES = "leaf.hard_bronze_beneath leaf.cupped_new leaf.strappy_new whole_plant.tip_bunched"
WEED_KILLER = {"several_species": True, "whole_bed_at_once": True, "spray_drift_near": True}


def evidence(crop: str, signs: str, **more) -> Evidence:
    return Evidence(crop=crop, seen={sign: Count() for sign in signs.split()}, **more)


def verdicts(crop: str, signs: str, **more) -> dict[str, str]:
    return {cause: pull.verdict for cause, pull in pulls(KNOWLEDGE, evidence(crop, signs, **more)).items()}


@pytest.mark.parametrize("crop", ["sweet_pepper", "hot_pepper", "tomato"])
def test_broad_mite_is_never_pulled_as_a_virus(crop) -> None:
    assert set(verdicts(crop, MITES).values()) == {"isolate_and_confirm"}


@pytest.mark.parametrize("crop", ["sweet_pepper", "tomato"])
def test_a_mottle_beside_signs_of_mites_does_not_make_it_a_pull(crop) -> None:
    found = pulls(KNOWLEDGE, evidence(crop, f"{MITES} leaf.mosaic"))
    assert found["cucumber_mosaic_virus"].proof_seen == ("leaf.mosaic",)
    assert found["cucumber_mosaic_virus"].verdict == "isolate_and_confirm"


@pytest.mark.parametrize("crop", ["tomato", "snap_bean"])
def test_weed_killer_on_many_sorts_is_never_pulled_as_a_virus(crop) -> None:
    signs = "leaf.fanned_veins_new leaf.strappy_new leaf.cupped_new"
    assert set(verdicts(crop, signs, circumstances=WEED_KILLER).values()) == {"isolate_and_confirm"}


def test_a_pale_papery_patch_on_the_sun_side_is_never_pulled_as_late_blight() -> None:
    heat = {"very_hot_lately": True, "hot_days_lately": True}
    found = verdicts("tomato", "fruit.sun_side_papery leaf.sun_bleached", conditions=heat)
    assert found["late_blight"] == "isolate_and_confirm"


def test_white_fuzz_on_greasy_blotches_is_pulled_today() -> None:
    found = pulls(
        KNOWLEDGE, evidence("tomato", "leaf.large_greasy_blotches leaf.white_rim_beneath stem.brown_blotches")
    )
    assert found["late_blight"].verdict == "pull"
    assert found["late_blight"].proof_seen == ("leaf.white_rim_beneath",)


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_no_pull_without_a_sign_that_proves_it(crop) -> None:
    for cause in KNOWLEDGE.causes_of(crop):
        others = [c.symptom for c in cause.clues if c.symptom and c.symptom not in cause.proof]
        if pulled_for(KNOWLEDGE, cause) and cause.proof:
            assert verdicts(crop, " ".join(others))[cause.id] == "isolate_and_confirm", cause.id


def test_the_chance_of_a_pull_in_vain_is_that_of_no_such_cause_at_work_summed_over_all_combinations() -> None:
    """Brute force over every combination of the causes of a crop is too long; over one sign's causes it is exact."""
    case = evidence("pea", "leaf.mosaic")
    from itertools import product

    from scout.diagnosis.model import build_model

    model = build_model(KNOWLEDGE, case)
    prior, strength, leak = model.prior(), model.strength[:, 0], model.leak[0]
    linked = [i for i in range(len(prior)) if strength[i] > 0]
    pulling = [pulled_for(KNOWLEDGE, cause) for cause in model.causes]
    total = none = 0.0
    for present in product((0, 1), repeat=len(linked)):
        chance, silent = 1.0, 1.0 - leak
        for there, i in zip(present, linked, strict=True):
            chance *= prior[i] if there else 1.0 - prior[i]
            silent *= 1.0 - strength[i] if there else 1.0
        total += chance * (1.0 - silent)
        if not any(there and pulling[i] for there, i in zip(present, linked, strict=True)):
            none += chance * (1.0 - silent)
    for i, pulls_it in enumerate(pulling):
        none *= 1.0 - prior[i] if pulls_it and i not in linked else 1.0
    assert linked and any(pulling[i] for i in linked)
    found = next(iter(pulls(KNOWLEDGE, case).values()))
    assert found.in_vain == pytest.approx(none / total, abs=1e-9)
    assert found.loss_pull == pytest.approx(0.5 * none / total, abs=1e-9)


def test_the_verdict_is_the_smaller_loss() -> None:
    for crop in ("tomato", "cucumber", "cabbage"):
        for cause in KNOWLEDGE.causes_of(crop):
            for found in pulls(KNOWLEDGE, evidence(crop, " ".join(cause.proof))).values():
                proven = bool(found.proof_seen) or not found.proof
                assert (found.verdict == "pull") == (proven and found.loss_pull < found.loss_wait)


def test_a_controls_pull_is_refused_until_the_verdict_allows_it() -> None:
    cause = KNOWLEDGE.causes["cucumber_mosaic_virus"]
    case = evidence("sweet_pepper", f"{MITES} leaf.mosaic")
    at_bed = Bedside(pulls=pulls(KNOWLEDGE, case))
    refused = {a.control.id: a.refused for a in advise(KNOWLEDGE, cause, at_bed)}
    assert refused["pull_and_bag"] is not None and refused["isolate_and_confirm"] is None
    assert {a.control.id: a.refused for a in advise(KNOWLEDGE, cause, Bedside())}["pull_and_bag"] is not None


def test_behind_a_stop_nothing_is_weighed() -> None:
    assert rank(KNOWLEDGE, evidence("summer_squash", "fruit.bitter_taste leaf.mosaic")).pulls == {}
