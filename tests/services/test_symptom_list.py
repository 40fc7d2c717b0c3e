"""What is offered to choose from when something catches the eye."""

from scout.services.symptom_list import FIRST_OFFERED_N, likeliest, parts_of

from ..small_garden import plant_of


def test_a_page_of_signs_that_show_in_passing_is_offered_first(context) -> None:
    known = context.knowledge.symptoms
    offered = likeliest(context, plant_of(context).planting_id)
    assert len(offered) == FIRST_OFFERED_N
    assert {known[sign.id].effort for sign in offered} <= {"glance", "turn_leaf"}
    assert "whole_plant.limp_midday" in {sign.id for sign in offered}


def test_a_beet_is_asked_nothing_about_small_fruit_that_drop(context) -> None:
    beet = plant_of(context, "beet").planting_id
    offered = {sign.id for _, signs in parts_of(context, beet) for sign in signs}
    assert "leaf.pencil_tip_spots" in offered and "fruit.drops_small" not in offered


def test_the_bitter_taste_stays_in_the_list_of_a_squash_though_no_cause_is_ranked_by_it(context) -> None:
    squash = plant_of(context, "summer_squash").planting_id
    assert "fruit.bitter_taste" in {sign.id for _, signs in parts_of(context, squash) for sign in signs}


def test_the_likelier_sign_of_a_part_comes_first(context) -> None:
    pepper = plant_of(context, "sweet_pepper").planting_id
    leaves = [sign.id for sign in dict(parts_of(context, pepper))["Leaves"]]
    assert leaves.index("leaf.yellow_lowest_only") < leaves.index("leaf.mosaic")
