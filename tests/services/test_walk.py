"""The walk: it resumes where it stopped, and what was given can be taken back."""

import pytest

from scout.errors import Refused
from scout.services import answers, garden, marked, troubles, walk
from scout.services.context import Context
from scout.services.plan import walk_plan
from scout.services.undo import undo
from scout.services.views import Asking

from ..small_garden import plant_of, stop_at


def begin(context: Context) -> None:
    walk.start(context, walk_plan(context).stops)


def test_a_new_garden_is_walked_in_walking_order(context) -> None:
    plan = walk_plan(context)
    assert [stop.bed for stop in plan.stops] == ["Long bed", "Short bed", "Mixed bed", "Mixed bed", "Black tub"]
    assert all(stop.why == "not looked at yet" for stop in plan.stops)


def test_a_glance_closes_the_stop_and_the_next_one_is_current(context) -> None:
    begin(context)
    first = walk.current_stop(context)
    walk.clear(context, first.id, "glance", 8)
    second = walk.current_stop(context)
    assert (second.number, second.total, second.bed) == (2, 5, "Short bed")


def test_the_looks_of_a_stop_stay_the_same_while_it_is_answered(context) -> None:
    begin(context)
    stop = walk.current_stop(context)
    for look in stop.looks:
        answers.answer_look(context, stop.id, look.id, "clear", 8)
        assert [one.id for one in walk.current_stop(context).looks] == [one.id for one in stop.looks]


def test_looks_not_made_for_longest_come_at_the_next_visit(context, clock) -> None:
    begin(context)
    first = walk.current_stop(context)
    walk.clear(context, first.id, "every_look", 8)
    walk.finish(context)
    clock.on(7, 30)
    begin(context)
    second = stop_at(context)
    assert {look.id for look in second.looks} != {look.id for look in first.looks}


def test_the_question_on_screen_survives_and_is_no_record(context, reopen) -> None:
    begin(context)
    stop = walk.current_stop(context)
    answers.answer_look(context, stop.id, stop.looks[0].id, "seen", 8)
    walk.ask(context, stop.id, Asking("symptom", stop.looks[0].id))
    again = reopen()
    assert walk.current_stop(again).asking == Asking("symptom", stop.looks[0].id)
    undo(again)
    assert walk.current_stop(again).looks[0].state == "open"


def test_a_whole_bed_is_cleared_at_once(context) -> None:
    begin(context)
    while (stop := walk.current_stop(context)).bed != "Mixed bed":
        walk.skip_stop(context, stop.id)
    assert stop.may_clear_bed
    walk.clear_bed(context, stop.id)
    assert walk.current_stop(context).bed == "Black tub"


def test_all_clear_is_not_offered_where_a_problem_is_open(context) -> None:
    plant = plant_of(context)
    troubles.take_control(context, plant.planting_id, plant.bed_id, None, "powdery_mildew_cucurbit", "mulch", "today")
    begin(context)
    stop = stop_at(context)
    assert not stop.may_clear_all
    assert stop.troubles
    with pytest.raises(Refused, match="one by one"):
        walk.clear(context, stop.id, "every_look", 8)


def test_all_clear_is_not_offered_where_a_marked_plant_is_due(context, clock) -> None:
    plant = plant_of(context)
    tagged = marked.mark_plant(context, plant.planting_id, "red tape", "indeterminate")
    begin(context)
    stop = stop_at(context)
    assert stop.marked_due == 1 and not stop.may_clear_all
    marked.measure(context, tagged, top_leaf=12, highest_diseased=2, wet="dry")
    assert walk.current_stop(context).may_clear_all


def test_the_last_answer_is_taken_back_also_after_a_restart(context, reopen) -> None:
    begin(context)
    stop = walk.current_stop(context)
    walk.clear(context, stop.id, "glance", 8)
    again = reopen()
    undo(again)
    assert walk.current_stop(again).id == stop.id


def test_the_walk_ends_with_its_last_stop_and_opens_again_when_that_is_taken_back(context) -> None:
    begin(context)
    while (stop := walk.current_stop(context)) is not None:
        walk.clear(context, stop.id, "glance", 1)
        last = stop.id
    assert walk.open_walk(context) is None
    undo(context)
    assert walk.current_stop(context).id == last


def test_nothing_to_undo_is_said(context) -> None:
    for _ in range(40):
        try:
            undo(context)
        except Refused as told:
            assert "nothing to undo" in str(told)
            return
    raise AssertionError("undo never came to an end")


def test_what_was_seen_is_looked_at_again_after_four_days(context, clock) -> None:
    begin(context)
    stop = stop_at(context, "sweet_pepper")
    answers.add_finding(context, stop.id, "leaf.pale_all_over", "look")
    walk.close_stop(context, stop.id)
    while (stop := walk.current_stop(context)) is not None:
        walk.clear(context, stop.id, "glance", 1)
    clock.on(7, 25)
    assert not [s for s in walk_plan(context).stops if s.crop.startswith("Sweet pepper") and "seen" in s.why]
    clock.on(7, 26)
    assert [s.why for s in walk_plan(context).stops if s.crop.startswith("Sweet pepper")] == [
        "something was seen on 22 July"
    ]


def test_a_pulled_planting_is_not_walked_any_more(context) -> None:
    plant = plant_of(context)
    garden.remove_planting(context, plant.planting_id, "finished")
    assert "Long bed" not in [stop.bed for stop in walk_plan(context).stops]
