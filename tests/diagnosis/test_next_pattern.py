"""Questions about the bed: which are asked, in which order, and what an answer does."""

import pytest

from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.next_pattern import next_patterns
from scout.diagnosis.rank import rank

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
TWISTED = {"leaf.strappy_new": Count(), "leaf.cupped_new": Count()}


def asked(crop="tomato", most=20, **given):
    return next_patterns(KNOWLEDGE, Evidence(crop=crop, **({"seen": TWISTED} | given)), most)


def chances(**circumstances):
    ranking = rank(KNOWLEDGE, Evidence(crop="tomato", seen=TWISTED, circumstances=circumstances))
    return {r.cause.id: r.probability for r in ranking.causes}


def test_twisted_new_leaves_on_a_tomato_are_asked_for_other_sorts_of_plants() -> None:
    """Weed killer strikes many sorts, a virus or mites do not (Iowa State and Montana State extension)."""
    first = {one.circumstance.id: one for one in asked()[:4]}
    assert "several_species" in first
    assert {"herbicide_growth_regulator", "herbicide_residue_compost"} & set(first["several_species"].splits)


@pytest.mark.parametrize("holds", [True, False])
def test_what_an_answer_would_make_of_the_lead_is_what_it_does(holds) -> None:
    for one in asked()[:5]:
        after = chances(**{one.circumstance.id: holds})
        leader, chance = one.leads_if_true if holds else one.leads_if_not
        assert leader == max(after, key=after.__getitem__)
        assert after[leader] == pytest.approx(chance, abs=1e-9)


def test_nothing_is_asked_where_nothing_was_seen_or_where_it_is_known() -> None:
    assert asked(seen={}) == ()
    known = {one.circumstance.id: False for one in asked()}
    assert asked(circumstances=known) == ()


def test_an_axis_of_which_something_holds_is_not_asked_about_again() -> None:
    left = {one.circumstance.axis for one in asked(circumstances={"whole_bed_at_once": True})}
    assert "share" not in left and "share" in {one.circumstance.axis for one in asked()}


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_only_what_a_first_visit_can_tell_is_asked_and_the_best_comes_first(crop) -> None:
    signs = [c.symptom for cause in KNOWLEDGE.causes_of(crop)[:3] for c in cause.clues if c.symptom][:3]
    found = asked(crop, seen=dict.fromkeys(signs, Count()))
    assert all(one.circumstance.asked and one.circumstance.kind in ("pattern", "pace", "soil") for one in found)
    by_worth = [one.worth for one in found if not one.first]
    assert by_worth and by_worth == sorted(by_worth, reverse=True)
    assert all(one.gain_bits >= 0.0 and 0.0 < one.chance_true < 1.0 for one in found)


LIMP = {"whole_plant.limp_midday": Count(8, 5)}


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_a_limp_plant_is_asked_for_its_soil_before_anything_else(crop) -> None:
    """Dry a finger deep: water now; moist: do not. The one thing to know before the can is taken up."""
    first = asked(crop, most=1, seen=LIMP)[0]
    assert (first.circumstance.id, first.first) == ("soil_dry_5cm", True)


def test_the_soil_once_felt_is_not_asked_again() -> None:
    for told in ({"soil_dry_5cm": True}, {"soil_moist_5cm": True}, {"waterlogged": True}):
        assert not {one.circumstance.id for one in asked(seen=LIMP, circumstances=told)} & {
            "soil_dry_5cm",
            "soil_moist_5cm",
            "waterlogged",
        }
