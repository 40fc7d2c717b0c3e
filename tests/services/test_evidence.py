"""What is gathered at a planting: a glance speaks of what shows at a glance, every look of what it was made for."""

import pytest

from scout.services import answers, walk
from scout.services.causes import causes_at
from scout.services.evidence import evidence_for
from scout.services.plan import walk_plan

from ..small_garden import plant_of


@pytest.fixture
def stop(context):
    """The first stop of a walk: the cucumber in the long bed, 8 plants."""
    walk.start(context, walk_plan(context, everything=True).stops)
    found = walk.current_stop(context)
    assert found.crop_id == "cucumber"
    return found


def test_a_glance_is_evidence_only_about_what_shows_at_a_glance(context, stop) -> None:
    walk.clear(context, stop.id, "glance", 8)
    against = evidence_for(context, plant_of(context, "cucumber")).not_seen
    assert against and all(count.looked == 8 for count in against.values())
    efforts = {context.knowledge.symptoms[sign].effort for sign in against}
    assert efforts == {"glance"}


def test_a_clear_look_is_evidence_only_about_what_that_look_can_show(context, stop) -> None:
    look = stop.looks[0]
    answers.answer_look(context, stop.id, look.id, "clear", 3)
    against = evidence_for(context, plant_of(context, "cucumber")).not_seen
    assert set(against) == {symptom.id for symptom in look.symptoms}
    assert {count.looked for count in against.values()} == {3}


def test_below_the_level_for_a_name_it_says_what_to_look_for_when_and_where_to_ask(context, stop) -> None:
    answers.add_finding(context, stop.id, "leaf.yellow_halo", "look")
    found = causes_at(context, stop.id)
    said = " ".join(found.cannot_tell)
    assert found.headline.startswith("Cannot tell")
    assert "Look for:" in said and "look again in" in said
    assert "plant clinic or local extension" in said
