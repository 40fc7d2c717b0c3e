"""A grower's own words: word by word, with spelling tolerance; a denial is never something seen."""

import pytest

from scout.diagnosis.words import SURE, match_words, sure_matches

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()

# Invented sentences in plain words; the expected entry is the one a reader of the vocabulary would point at.
MEANT = [
    ("cucumber", "cucumbers pinched at the end", "fruit.pinched_blossom_end"),
    ("cucumber", "yelow leafs at the botom", "leaf.yellow_lowest_only"),
    ("cucumber", "white powder on leaves", "leaf.white_powder"),
    ("cucumber", "angular patches between the veins", "leaf.angular_patches"),
    ("summer_squash", "saw dust at the base of the stem", "stem.frass_at_base"),
    ("summer_squash", "limp at noon but firm again at dawn", "whole_plant.limp_noon_firm_dawn"),
    ("sweet_pepper", "new leaves cupped like spoons", "leaf.cupped_new"),
    ("sweet_pepper", "aphids on the tips", "insect.aphids"),
    ("snap_bean", "short lumpy pods", "fruit.short_lumpy_pod"),
    ("tomato", "black leathery bottom of the fruit", "fruit.blossom_end_leathery"),
    ("tomato", "brown spots with rings like a target", "leaf.ringed_spots"),
    ("tomato", "spots with grey centers and black dots", "leaf.grey_centre_black_dots"),
]


@pytest.mark.parametrize(("crop", "words", "meant"), MEANT)
def test_plain_words_find_the_symptom_among_the_first_three(crop, words, meant) -> None:
    found = [m for m in match_words(KNOWLEDGE, crop, words) if m.kind == "symptom" and m.seen]
    assert meant in [m.id for m in found[:3]], [(m.id, m.certainty) for m in found[:5]]


@pytest.mark.parametrize(
    "words",
    [
        "no spots on the leaves",
        "leaves look fine",
        "never saw any aphids",
        "the plants are healthy and clean, nothing to see",
        "without powder or fuzz",
        "there aren't any holes",
    ],
)
@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_a_denial_is_never_something_seen(crop, words) -> None:
    """But a sign of health may be: "the plants are healthy" is one."""
    seen = [KNOWLEDGE.symptoms[m.id] for m in match_words(KNOWLEDGE, crop, words) if m.kind == "symptom" and m.seen]
    assert not [symptom.id for symptom in seen if symptom.background != "usual"]


def test_a_sign_named_by_what_is_missing_is_seen_when_it_is_said_so() -> None:
    (inside,) = sure_matches(KNOWLEDGE, "tomato", "no brown inside")
    assert (inside.id, inside.seen) == ("stem.clean_inside", True)


def test_but_turns_a_denial_around() -> None:
    found = sure_matches(KNOWLEDGE, "cucumber", "no aphids but white powder on the leaves")
    assert {(m.id, m.seen) for m in found} == {("leaf.white_powder", True), ("insect.aphids", False)}


def test_a_sentence_about_water_is_a_circumstance() -> None:
    found = match_words(KNOWLEDGE, "tomato", "the timer failed this week")
    assert ("circumstance", "timer_failed") in [(m.kind, m.id) for m in found if m.seen]


@pytest.mark.parametrize("text", ["", "   ", "zzzz qqqq", "[/z] [red]", "🌱🌱", "a" * 5000, "no", "\x00"])
def test_words_that_mean_nothing_match_nothing_sure(text) -> None:
    assert not [m for m in match_words(KNOWLEDGE, "tomato", text) if m.certainty >= SURE]


# Invented everyday sentences; what a reader of the vocabulary would point at, two signs in one clause.
SEVERAL = [
    ("eggplant", "tiny shot holes in the leaves and jumping beetles", {"leaf.shot_holes", "insect.flea_beetles"}),
    ("snap_bean", "leaves look dusty with pale dots and fine webs", {"leaf.stipple", "leaf.fine_webbing"}),
    ("sweet_pepper", "shiny sticky leaves with ants", {"leaf.sticky", "insect.ants_on_plant"}),
    ("summer_squash", "grey bugs and copper eggs under the leaves", {"insect.squash_bug"}),
    ("okra", "stunted, lumps on the roots", {"whole_plant.stunted", "root.galls"}),
]


@pytest.mark.parametrize(("crop", "words", "meant"), SEVERAL)
def test_one_clause_may_hold_several_signs(crop, words, meant) -> None:
    assert meant <= {m.id for m in sure_matches(KNOWLEDGE, crop, words) if m.seen}


def test_a_well_word_before_a_thing_denies_nothing() -> None:
    """ "fine webs" are webs; "webs? looks fine" is a denial."""
    assert [m.seen for m in sure_matches(KNOWLEDGE, "cucumber", "fine webs under the leaves")] == [True]
    assert not [
        m for m in sure_matches(KNOWLEDGE, "cucumber", "underside looks fine") if m.seen and m.id == "leaf.fine_webbing"
    ]


def test_the_crop_named_before_a_part_is_no_part() -> None:
    found = sure_matches(KNOWLEDGE, "potato", "little green tomatoes on my potato plant")
    assert [(m.id, m.seen) for m in found] == [("fruit.potato_berries", True)]


def test_words_of_one_group_are_met_by_each_other() -> None:
    (found,) = sure_matches(KNOWLEDGE, "melon", "floury white mould on the foliage")
    assert found.id == "leaf.white_powder" and found.certainty < 1.0


# Whose words they are: of another part, of leaves and not of plants, of an inch and not of a share. Invented.
ELSEWHERE = [
    ("winter_squash", "plenty of blossom. it is all wilting", "whole_plant.limp_midday"),
    ("snap_bean", "the pods have a bend, nearly all of them", "most_plants"),
    ("sweet_pepper", 'each pepper has a scab of 1/4"', "one_plant_only"),
    ("sweet_corn", "worm in the ear", "insect.caterpillars"),
    ("summer_squash", "white grub inside the vine", "insect.worm_in_fruit"),
    ("tomato", "it took off after the rain", "pruned_lately"),
    ("chard", "leaf miners under the leaves as well", "leaf.clean_beneath"),
    ("cucumber", "yellow leaves with a few brown spots", "leaf.yellow_halo"),
    ("potato", "first I saw them droop", "whole_plant.limp_at_dawn"),
    ("beet", "the rate of growth is poor", "ground.tracks_bites"),
    ("tomato", "nearly ripe and sweet", "leaf.tattered"),
    ("summer_squash", "the yellow squash wilts", "fruit.overmature_yellow_hard_seeds"),
    ("snap_bean", "I hope the beans come on", "insect.leafhoppers"),
    ("kale", "after the cold snap", "stem.forked_or_snapped"),
    ("okra", "it is in the same bed as the peppers", "same_family_last_year"),
    ("carrot", "the tops of my carrots are lovely", "root.small_no_bulb"),
    ("lettuce", "these lettuce transplants were cheap", "set_out_lately"),
]


@pytest.mark.parametrize(("crop", "words", "not_meant"), ELSEWHERE)
def test_words_of_something_else_are_not_taken(crop, words, not_meant) -> None:
    assert not_meant not in {m.id for m in sure_matches(KNOWLEDGE, crop, words) if m.seen}


def test_two_signs_side_by_side_are_no_rivals() -> None:
    """Words between that an entry is called by elsewhere are explained by it, but do not make it another reading."""
    found = {m.id for m in sure_matches(KNOWLEDGE, "onion", "pale flecks on the blades and the tips are dying back")}
    assert found & {"leaf.white_flecks", "leaf.dry_tips"}


# Two or three names share the words; which is meant, the grower must say.
GENERAL = [
    ("tomato", "brown spots on the leaves", {"leaf.pencil_tip_spots", "leaf.ringed_spots"}),
    ("sweet_pepper", "leaves are curling", {"leaf.cupped_new", "leaf.curled_up_yellow_edge_new"}),
    ("cucumber", "misshapen fruit", {"fruit.crooked", "fruit.pinched_blossom_end"}),
    ("tomato", "mould on the leaves", {"leaf.white_powder", "leaf.yellow_patch_olive_velvet"}),
]


@pytest.mark.parametrize(("crop", "words", "offered"), GENERAL)
def test_general_words_offer_every_sign_they_may_mean_and_are_sure_of_none(crop, words, offered) -> None:
    assert offered <= {m.id for m in match_words(KNOWLEDGE, crop, words) if m.seen}
    assert not offered & {m.id for m in sure_matches(KNOWLEDGE, crop, words)}
