"""Out of the planned order: another bed of the walk, a planting at any time, an end before the end."""

import pytest

from scout.errors import NotFound
from scout.services import answers, walk
from scout.services.evidence import evidence_for
from scout.services.garden import planted
from scout.services.plan import walk_plan
from scout.services.undo import undo
from scout.services.views import Asking
from scout.services.walk_elsewhere import go_to, look_now, waiting_stops
from scout.store import walks


def begin(context) -> None:
    walk.start(context, walk_plan(context, everything=True).stops)


def plant_of(context, crop: str):
    return next(one for one in planted(context) if one.crop.id == crop)


def test_another_bed_is_gone_to_and_the_one_left_comes_in_its_turn(context) -> None:
    begin(context)
    first = walk.current_stop(context)
    beet = next(one for one in waiting_stops(context) if "Beet" in one.row)
    go_to(context, beet.id)
    there = walk.current_stop(context)
    assert (there.id, there.crop_id) == (beet.id, "beet")
    walk.clear(context, there.id, "glance", 30)
    assert walk.current_stop(context).id == first.id
    with pytest.raises(NotFound, match="closed already"):
        go_to(context, beet.id)


def test_where_the_walk_stands_outlives_a_restart_and_a_question(context, reopen) -> None:
    begin(context)
    beet = next(one for one in waiting_stops(context) if "Beet" in one.row)
    go_to(context, beet.id)
    look = walk.current_stop(context).looks[0]
    walk.ask(context, beet.id, Asking("symptom", look.id))
    walk.ask(context, beet.id, None)
    again = walk.current_stop(reopen())
    assert again.id == beet.id and again.asking is None


def test_on_how_many_plants_was_looked_outlives_a_restart(context, reopen) -> None:
    begin(context)
    stop = walk.current_stop(context)
    assert stop.looked_n == stop.plants_n == 8
    answers.answer_look(context, stop.id, stop.looks[0].id, "clear", 6)
    answers.answer_look(context, stop.id, stop.looks[1].id, "seen", 5)
    assert walk.current_stop(reopen()).looked_n == 5


def test_a_planting_is_looked_at_without_a_walk_and_the_walk_ends_with_it(context) -> None:
    squash = plant_of(context, "summer_squash")
    look_now(context, squash.planting_id, squash.bed_id)
    stop = walk.current_stop(context)
    assert (stop.crop_id, stop.total, stop.why) == ("summer_squash", 1, "you chose to look")
    answers.add_finding(context, stop.id, "leaf.white_powder", "glance")
    walk.leave_stop(context, stop.id)
    assert walk.open_walk(context) is None
    assert "leaf.white_powder" in evidence_for(context, squash).seen


def test_a_planting_whose_stop_is_closed_gets_one_more_in_the_same_walk_and_undo_takes_it_back(context) -> None:
    begin(context)
    first = walk.current_stop(context)
    walk.clear(context, first.id, "glance", 8)
    look_now(context, first.planting_id, plant_of(context, first.crop_id).bed_id)
    again = walk.current_stop(context)
    assert again.planting_id == first.planting_id and again.id != first.id
    undo(context)
    assert walk.current_stop(context).planting_id != first.planting_id


def test_a_stop_left_for_later_is_gone_to_after_all(context) -> None:
    begin(context)
    first = walk.current_stop(context)
    walk.defer(context, first.id, "The leaves are wet")
    assert waiting_stops(context)[-1].id == first.id
    go_to(context, first.id)
    assert walk.current_stop(context).id == first.id


def test_a_walk_ended_early_keeps_what_a_stop_gave(context) -> None:
    begin(context)
    stop = walk.current_stop(context)
    answers.answer_look(context, stop.id, stop.looks[0].id, "clear", 8)
    walk.finish(context)
    with context.read() as session:
        stops = walks.stops(session=session, walk_id=stop.walk_id)
    assert [one.state for one in stops] == ["done", *["skipped"] * (len(stops) - 1)]
