"""Counts that can hardly be are asked about, and kept where the grower says they are so."""

import pytest

from scout.errors import BadInput
from scout.services import marked
from scout.services.keeping_knife import knife_today
from scout.services.keeping_source import followed_in_garden
from scout.services.keeping_up import judge
from scout.services.marked_doubts import doubts
from scout.services.stop_facts import facts_of
from scout.services.undo import undo

from ..small_garden import plant_of


@pytest.fixture
def plant(context):
    return plant_of(context)


@pytest.fixture
def tag(context, clock, plant) -> str:
    made = marked.mark_plant(context, plant.planting_id, "1st", "indeterminate")
    clock.on(7, 15)
    marked.measure(context, made, top_leaf=18, highest_diseased=9, stripped_to=6)
    clock.on(7, 22)
    return made


def asked(context, plant, tag, **given) -> list[str]:
    return [one.text for one in doubts(context, tag, plant.planting_id, given)]


def test_what_goes_on_as_it_must_is_not_asked_about(context, plant, tag) -> None:
    assert asked(context, plant, tag, top_leaf=18, highest_diseased=9, stripped_to=6, newly_diseased=0) == []
    assert asked(context, plant, tag, top_leaf=None, highest_diseased=12) == []


def test_leaves_above_the_top_are_asked_about(context, plant, tag) -> None:
    assert asked(context, plant, tag, top_leaf=19, highest_diseased=20, stripped_to=21) == [
        "Highest spotted leaf 20 is above the top leaf 19.",
        "Stripped up to 21 is above the top leaf 19.",
    ]


def test_more_newly_spotted_leaves_than_the_plant_has_are_asked_about(context, plant, tag) -> None:
    assert asked(context, plant, tag, top_leaf=19, highest_diseased=10, newly_diseased=99) == [
        "99 newly spotted leaves are more than the plant has (top leaf 19)."
    ]


def test_two_marked_plants_of_one_name_are_refused(context, plant, tag) -> None:
    with pytest.raises(BadInput, match="“1ST” already; give this one another name"):
        marked.mark_plant(context, plant.planting_id, "1ST ", "indeterminate")


def test_a_plant_measured_no_more_is_asked_for_no_more_and_its_counts_stay(context, plant, tag) -> None:
    assert facts_of(context, plant).marked_due == 1
    before = judge(followed_in_garden(context, plant))
    marked.leave_plant(context, tag)
    assert facts_of(context, plant).marked_due == 0 and marked.marked_plants(context, plant.planting_id) == ()
    assert judge(followed_in_garden(context, plant)).clean_depth == before.clean_depth
    assert not knife_today(context, plant).cuts
    with pytest.raises(BadInput, match="already"):
        marked.mark_plant(context, plant.planting_id, "1st", "indeterminate")
    assert undo(context).startswith("Taken back: that it is measured no more: “1st”")
    assert facts_of(context, plant).marked_due == 1


def test_what_goes_down_is_asked_about(context, plant, tag) -> None:
    assert asked(context, plant, tag, top_leaf=16, highest_diseased=7, stripped_to=4) == [
        "The top leaf was 18 on 15 July and is 16 now.",
        "The highest spotted leaf (those taken off count too) was 9 on 15 July and is 7 now.",
        "The strip line was 6 on 15 July and is 4 now.",
    ]


def test_what_was_asked_about_is_kept_as_typed_and_taken_back(context, plant, tag) -> None:
    marked.measure(context, tag, top_leaf=12, highest_diseased=14, stripped_to=13)
    row = marked.marked_table(context, plant.planting_id).rows[-1]
    assert (row.top_leaf, row.highest_diseased, row.stripped_to) == (12, 14, 13)
    judge(followed_in_garden(context, plant))  # the verdict takes it for spotted to the tip, and does not fail
    undo(context)
    assert len(marked.marked_table(context, plant.planting_id).rows) == 1
