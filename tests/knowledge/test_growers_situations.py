"""What a grower meets in a heat wave comes out right: the cause, and above all what to do about it.

Expected answers: common practice as in the extension notes that the cause files cite (soil felt at 5 cm before any
water; lens on the tips before any pull); no published scores exist for these situations.
"""

from functools import cache

import pytest

from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.rank import CLEAR_LEAD, Ranking, rank
from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause

from ..shipped import shipped_knowledge

CROPS = ("tomato", "sweet_pepper", "hot_pepper", "cucumber", "summer_squash", "snap_bean", "beet")
WATERING = {"water_now_at_soil", "even_water"}


@cache
def knowledge() -> Knowledge:
    return shipped_knowledge()


def ranked(crop: str, seen: str, circumstances: dict[str, bool], conditions: dict[str, bool]) -> Ranking:
    signs = {sign: Count() for sign in seen.split()}
    return rank(knowledge(), Evidence(crop=crop, seen=signs, circumstances=circumstances, conditions=dict(conditions)))


def today(cause: Cause) -> list[str]:
    return [action.control for action in cause.do if action.when == "today"]


def test_squash_limp_at_half_past_two_on_moist_soil_is_heat_and_gets_no_water() -> None:
    answer = ranked("summer_squash", "whole_plant.limp_midday", {"soil_moist_5cm": True}, {"hot_days_lately": True})
    first = answer.causes[0].cause
    assert first.id == "heat_wilt"
    assert today(first) == ["check_at_dawn"]
    assert not WATERING & {action.control for action in first.do}


def test_firm_again_at_dawn_settles_that_it_was_heat() -> None:
    seen = "whole_plant.limp_midday whole_plant.limp_noon_firm_dawn"
    before = ranked("summer_squash", "whole_plant.limp_midday", {"soil_moist_5cm": True}, {})
    after = ranked("summer_squash", seen, {"soil_moist_5cm": True}, {})
    assert after.causes[0].cause.id == "heat_wilt"
    assert after.causes[0].probability > max(CLEAR_LEAD, before.causes[0].probability)


def test_black_tub_dry_at_five_centimetres_is_watered_at_once() -> None:
    grown = {"container": True, "dark_pot": True, "soil_dry_5cm": True}
    answer = ranked("sweet_pepper", "whole_plant.limp_midday", grown, {"hot_days_lately": True})
    first = answer.causes[0].cause
    assert first.id == "water_shortage"
    assert today(first)[0] == "water_now_at_soil"


@pytest.mark.parametrize("crop", CROPS)
def test_limp_at_noon_on_moist_soil_is_never_answered_with_water_now(crop: str) -> None:
    answer = ranked(crop, "whole_plant.limp_midday", {"soil_moist_5cm": True, "soil_dry_5cm": False}, {})
    assert "water_now_at_soil" not in today(answer.causes[0].cause)
    by_id = {entry.cause.id: entry.probability for entry in answer.causes}
    assert by_id["heat_wilt"] > by_id["water_shortage"]


def test_only_dry_soil_unlocks_watering_at_once() -> None:
    assert "soil_dry" in knowledge().controls["water_now_at_soil"].needs


def test_one_pale_papery_patch_on_a_tomato_after_fierce_heat_is_sunscald() -> None:
    heat = {"very_hot_lately": True, "hot_days_lately": True}
    answer = ranked("tomato", "fruit.sun_side_papery", {}, heat)
    assert answer.causes[0].cause.id == "sunscald"
    assert answer.causes[0].probability > CLEAR_LEAD
    assert answer.called_sick is not None and answer.called_sick < 0.3


@pytest.mark.parametrize("crop", ["sweet_pepper", "hot_pepper"])
def test_cupped_peppers_with_bronze_tips_and_walking_specks_are_mites_and_no_virus(crop: str) -> None:
    seen = "leaf.cupped_new leaf.hard_bronze_beneath insect.mites_moving"
    answer = ranked(crop, seen, {}, {})
    assert answer.causes[0].cause.id == "broad_mite"
    assert all(entry.probability < 0.1 for entry in answer.causes if entry.cause.kind == "viral")
    assert answer.causes[0].cause.pull_when is None


def test_short_part_filled_pods_after_warm_nights_in_bud_are_heat() -> None:
    seen = "fruit.short_lumpy_pod fruit.part_filled_pod"
    answer = ranked("snap_bean", seen, {}, {"hot_nights_in_bud": True})
    assert answer.causes[0].cause.id == "bean_heat_short_pods"
    assert answer.called_sick is not None and answer.called_sick < 0.1


def test_brown_dented_seed_turns_the_same_pods_into_bug_damage() -> None:
    seen = "fruit.short_lumpy_pod fruit.pod_pits_brown_seed insect.stink_bugs"
    answer = ranked("snap_bean", seen, {}, {"hot_nights_in_bud": True})
    assert answer.causes[0].cause.id == "bean_stink_bug_pods"


@pytest.mark.parametrize("cause", ["cucumber_mosaic_virus", "bean_common_mosaic", "southern_blight"])
def test_a_pull_is_named_only_with_the_signs_that_prove_it(cause: str) -> None:
    entry = knowledge().causes[cause]
    assert entry.pull_when and entry.proof
    assert today(entry)[0] == "isolate_and_confirm"
