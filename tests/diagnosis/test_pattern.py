"""Numbers and places as given become circumstances; what they leave open is left out."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from scout.diagnosis.crop_net import clues_on
from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.model import build_model
from scout.diagnosis.pattern import leaf_circumstances, place_circumstances, plants_named, share_circumstances
from scout.diagnosis.rank import rank

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
NEW_LEAVES = ("leaf.strappy_new", "leaf.cupped_new", "whole_plant.stunted")


def chances(crop: str, signs: tuple[str, ...], **circumstances: bool) -> dict[str, float]:
    case = Evidence(crop=crop, seen=dict.fromkeys(signs, Count()), circumstances=circumstances)
    return {r.cause.id: r.probability for r in rank(KNOWLEDGE, case).causes}


@pytest.mark.parametrize(
    ("looked", "affected", "plants", "said"),
    [
        (None, None, None, {}),
        (6, None, None, {}),
        (None, 4, None, {}),
        (6, 0, None, {}),
        (6, 4, None, {"one_plant_only": False}),  # a score interval of 0.36 to 0.87 leaves half open
        (6, 4, 6, {"one_plant_only": False, "most_plants": True}),  # all six were looked at
        (6, 6, None, {"one_plant_only": False, "most_plants": True}),
        (8, 1, None, {"one_plant_only": True, "most_plants": False}),
        (3, 1, None, {}),
        (3, 1, 3, {"one_plant_only": True, "most_plants": False}),
        (1, 1, 1, {"most_plants": True}),
        (40, 12, None, {"one_plant_only": False, "most_plants": False}),
    ],
)
def test_a_count_says_what_it_can_say(looked, affected, plants, said) -> None:
    assert share_circumstances(looked, affected, plants) == said


@given(st.integers(1, 60), st.integers(1, 60))
def test_half_is_passed_only_where_the_score_test_says_so(looked, affected) -> None:
    """The score interval excludes one half exactly where the score test does (Wilson 1927); scipy's normal tail."""
    affected = min(affected, looked)
    said = share_circumstances(looked, affected).get("most_plants")
    z = (affected - looked / 2) / np.sqrt(looked / 4)
    beyond = abs(z) > stats.norm.ppf(0.95)
    assert (said is not None) == bool(beyond)
    assert said is None or said == (affected > looked / 2)


@pytest.mark.parametrize(
    ("words", "plants", "said"),
    [
        ("3rd and 5th from the path", [3, 5], {"neighbours_in_a_row": False, "scattered_plants": True}),
        ("plants 4, 5 and 6", [4, 5, 6], {"neighbours_in_a_row": True, "scattered_plants": False}),
        ("2-4", [2, 3, 4], {"neighbours_in_a_row": True, "scattered_plants": False}),
        ("1, 2 and 9", [1, 2, 9], {}),
        ("the 7th", [7], {}),
        ("10-300", [], {}),  # no row of plants: a slip, or something else in these words
        ("by the fence", [], {}),
        (None, [], {}),
    ],
)
def test_which_plants_are_neighbours_or_scattered(words, plants, said) -> None:
    assert plants_named(words or "") == plants
    assert place_circumstances(words) == said


@given(st.text(max_size=60))
def test_any_words_are_only_read_for_numbers(words) -> None:
    assert set(place_circumstances(words)) <= {"neighbours_in_a_row", "scattered_plants"}


def test_spots_low_only_and_high_only_are_told_apart_and_unjudged_leaves_say_nothing() -> None:
    assert leaf_circumstances(0.5, 0.0, 0.0) == {"old_leaves_only": True, "new_leaves_only": False}
    assert leaf_circumstances(0.0, 0.0, 0.5) == {"old_leaves_only": False, "new_leaves_only": True}
    assert leaf_circumstances(20.0, 0.0, 0.0) == {"old_leaves_only": True, "new_leaves_only": False}
    assert leaf_circumstances(0.0, 0.0, 5.0) == {"old_leaves_only": False, "new_leaves_only": True}
    assert leaf_circumstances(10.0, 5.0, 1.0) == {"old_leaves_only": False, "new_leaves_only": False}
    assert leaf_circumstances(5.0, 5.0, 0.0) == {} == leaf_circumstances(0.0, 5.0, 5.0)
    assert leaf_circumstances(10.0, None, None) == {} == leaf_circumstances(0.0, 0.0, 0.0)


def test_several_sorts_of_plants_speak_for_weed_killer_and_against_a_virus() -> None:
    """Iowa State and Montana State extension: what does not live strikes many sorts, most diseases keep to a few."""
    before, after = chances("tomato", NEW_LEAVES), chances("tomato", NEW_LEAVES, several_species=True)
    for cause in ("herbicide_growth_regulator", "herbicide_residue_compost"):
        assert after[cause] > before[cause]
    assert after["cucumber_mosaic_virus"] < before["cucumber_mosaic_virus"]


def test_most_plants_speak_for_weed_killer_and_one_alone_for_a_virus() -> None:
    most, one = share_circumstances(6, 6), share_circumstances(8, 1)
    many, single = chances("tomato", NEW_LEAVES, **most), chances("tomato", NEW_LEAVES, **one)
    assert many["herbicide_residue_compost"] > single["herbicide_residue_compost"]
    assert many["cucumber_mosaic_virus"] < single["cucumber_mosaic_virus"]


def test_neighbours_speak_for_the_virus_that_hands_carry_and_scattered_plants_for_the_one_aphids_bring() -> None:
    mottled = ("leaf.mosaic", "leaf.blistered")
    row = chances("tomato", mottled, neighbours_in_a_row=True, scattered_plants=False)
    strewn = chances("tomato", mottled, neighbours_in_a_row=False, scattered_plants=True)
    assert row["tomato_mosaic"] > strewn["tomato_mosaic"]
    assert row["cucumber_mosaic_virus"] < strewn["cucumber_mosaic_virus"]


def test_a_case_of_numbers_left_out_and_a_case_of_none_are_the_same() -> None:
    assert chances("tomato", NEW_LEAVES) == chances("tomato", NEW_LEAVES, **share_circumstances(None, None))


@given(st.sets(st.sampled_from(sorted(KNOWLEDGE.circumstances)), max_size=8), st.booleans())
def test_of_circumstances_about_one_thing_only_the_strongest_moves_a_cause(chosen, holds) -> None:
    given_all = dict.fromkeys(chosen, holds)
    model = build_model(KNOWLEDGE, Evidence(crop="tomato", circumstances=given_all))
    moved = np.log(model.prior() / (1.0 - model.prior())) - model.base
    for number in range(len(model.causes)):
        by_axis: dict[str, list[float]] = {}
        for row, axis in enumerate(model.axes):
            by_axis.setdefault(axis or f"own {row}", []).append(float(model.shifts[row, number]))
        expected = sum(max(shifts, key=abs) for shifts in by_axis.values())
        assert moved[number] == pytest.approx(min(4.0, max(-4.0, expected)), abs=1e-9)


def test_a_kinds_pattern_is_a_clue_unless_the_cause_says_its_own() -> None:
    own = {
        c.circumstance: c.how_often for c in clues_on(KNOWLEDGE, KNOWLEDGE.causes["cucumber_mosaic_virus"], "tomato")
    }
    assert own["scattered_plants"] == "usually"  # its own word, not the kind's "often"
    assert own["most_plants"] == "seldom"  # of its kind
    heat = {c.circumstance: c.how_often for c in clues_on(KNOWLEDGE, KNOWLEDGE.causes["heat_wilt"], "tomato")}
    assert heat["most_plants"] == heat["whole_bed_at_once"] == "often"  # whole bed at once implies most plants
