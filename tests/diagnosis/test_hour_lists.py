"""Looks that wait for dawn or dark come up where something open or seen asks for them."""

import pytest

from scout.diagnosis.hour_lists import hour_looks
from scout.knowledge.base import Knowledge

from ..shipped import shipped_knowledge


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return shipped_knowledge()


def test_a_quiet_planting_asks_for_nothing_at_dawn_or_dark(knowledge) -> None:
    for crop in knowledge.crops.values():
        assert hour_looks(knowledge, crop, "fruiting", (), None) == ()


def test_open_late_blight_is_turned_at_dawn(knowledge) -> None:
    crop = knowledge.crops["tomato"]
    found = hour_looks(knowledge, crop, "fruiting", (knowledge.causes["late_blight"],), None)
    (look,) = [look for look in crop.looks if look.id == "tomato.blotch_dawn"]
    assert (found[0].when, found[0].ask, found[0].why) == ("dawn", look.ask, "open problem: late blight")


def test_limp_squash_by_day_is_looked_at_at_dawn(knowledge) -> None:
    found = hour_looks(knowledge, knowledge.crops["summer_squash"], "fruiting", (), "whole_plant.limp_midday")
    assert "dawn" in {one.when for one in found}
    assert all(one.why.startswith("would tell more of: ") for one in found)


def test_the_same_sign_is_asked_once_where_a_look_shows_it(knowledge) -> None:
    for crop in knowledge.crops.values():
        found = hour_looks(knowledge, crop, "fruiting", knowledge.causes_of(crop.id), None)
        assert len({one.ask for one in found}) == len(found)


def test_slugs_are_hunted_after_dark(knowledge) -> None:
    slugs = next(cause for cause in knowledge.causes.values() if cause.kind == "mollusc")
    crop = knowledge.crops[next(iter(slugs.common))]
    assert "dark" in {one.when for one in hour_looks(knowledge, crop, "leafy", (slugs,), None)}


def test_an_unknown_sign_of_an_older_file_asks_for_nothing(knowledge) -> None:
    assert hour_looks(knowledge, knowledge.crops["tomato"], "leafy", (), "leaf.of_another_time") == ()


def test_limp_at_dawn_and_firm_at_dawn_are_one_question(knowledge) -> None:
    found = hour_looks(knowledge, knowledge.crops["sweet_pepper"], "fruiting", (), "whole_plant.limp_midday")
    assert [one.when for one in found].count("dawn") == 1
