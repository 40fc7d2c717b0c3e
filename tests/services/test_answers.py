"""What is given at a stop: kept at once, refused where it cannot be, and read as evidence of just what it shows."""

import pytest

from scout.errors import BadInput, NotFound
from scout.services import answers, walk
from scout.services.evidence import evidence_for
from scout.services.undo import undo

from ..small_garden import plant_of, stop_at


def test_a_glance_speaks_only_of_what_shows_at_a_glance(context) -> None:
    walk.clear(context, stop_at(context).id, "glance", 8)
    evidence = evidence_for(context, plant_of(context))
    symptoms = context.knowledge.symptoms
    assert evidence.not_seen
    assert {symptoms[s].effort for s in evidence.not_seen} == {"glance"}
    assert all(count.looked == 8 for count in evidence.not_seen.values())


def test_every_look_made_speaks_of_exactly_what_the_looks_can_show(context) -> None:
    stop = stop_at(context)
    walk.clear(context, stop.id, "every_look", 8)
    evidence = evidence_for(context, plant_of(context))
    assert set(evidence.not_seen) == {symptom.id for look in stop.looks for symptom in look.symptoms}


def test_a_skipped_look_counts_for_nothing(context) -> None:
    stop = stop_at(context)
    answers.answer_look(context, stop.id, stop.looks[0].id, "skip", 8)
    walk.close_stop(context, stop.id)
    assert not evidence_for(context, plant_of(context)).not_seen


def test_counts_severity_and_which_plants_are_kept_one_by_one(context) -> None:
    stop = stop_at(context)
    found = answers.add_finding(context, stop.id, "leaf.white_powder", "look")
    answers.set_counts(context, found, 8, 3)
    answers.set_severity(context, found, 10.0, 1.0, None)
    answers.set_which(context, found, "3rd and 5th from the path")
    view = answers.finding(context, found)
    assert (view.looked_n, view.affected_n, view.severity_pct) == (8, 3, (10.0, 1.0, None))
    assert view.which_plants == "3rd and 5th from the path"


def test_the_canopy_is_cut_from_below_and_on_leaf_and_root_crops_from_outside(context) -> None:
    thirds = {}
    for crop in ("cucumber", "beet"):
        found = answers.add_finding(context, stop_at(context, crop).id, "leaf.white_powder", "look")
        thirds[crop] = answers.thirds_of(context, found)
    assert thirds == {"cucumber": ("Lowest", "Middle", "Top"), "beet": ("Outer", "Middle", "Heart")}
    rosettes = {crop.id for crop in context.knowledge.crops.values() if crop.rosette}
    assert rosettes == {"beet", "carrot", "radish", "chard", "spinach", "lettuce", "cabbage"}


def test_more_affected_than_looked_at_is_refused_and_nothing_is_lost(context) -> None:
    stop = stop_at(context)
    found = answers.add_finding(context, stop.id, "leaf.white_powder", "look")
    with pytest.raises(BadInput, match="9 affected of 8"):
        answers.set_counts(context, found, 8, 9)
    with pytest.raises(BadInput, match="between 0 and 100"):
        answers.set_severity(context, found, 101.0, None, None)
    assert answers.finding(context, found).affected_n is None


def test_an_unknown_symptom_is_refused(context) -> None:
    with pytest.raises(NotFound, match=r"leaf\.sparkles"):
        answers.add_finding(context, stop_at(context).id, "leaf.sparkles", "look")


def test_the_pick_is_tallied_by_sound_and_odd(context) -> None:
    stop = stop_at(context)
    for _ in range(12):
        answers.tally(context, stop.id, sound=1)
    for _ in range(7):
        answers.tally(context, stop.id, odd=1)
    assert walk.current_stop(context).picks == (12, 7)
    undo(context)
    assert walk.current_stop(context).picks == (12, 6)


def test_notes_are_cleaned_of_escapes_and_direction_marks(context) -> None:
    stop = stop_at(context)
    answers.note(context, stop.id, "red \x1b[31mleaf\x1b[0m \u202eback [red]")
    walk.close_stop(context, stop.id)
    from scout.store import walks

    with context.read() as session:
        assert walks.stop(session=session, stop_id=stop.id).note == "red leaf back [red]"
