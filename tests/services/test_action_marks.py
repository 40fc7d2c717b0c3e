"""Pests against the marks of extension guides, with limits and how many more to look at."""

from dataclasses import replace

import pytest

from scout.errors import BadInput, NotFound
from scout.services.action_marks import FROM_FIELDS, against_mark, keep_pest_count, mark_named, marks_for
from scout.services.counting import Count
from scout.services.undo import undo
from scout.store.asking import rows

from ..small_garden import plant_of


@pytest.fixture
def squash(context):
    return plant_of(context, "summer_squash")


def held(context, plant, mark: str, found: int, looked: int, plants_n: int | None = None):
    plant = replace(plant, plants_n=plants_n)
    return against_mark(context, plant, context.knowledge.action_marks[mark], Count(found, looked))


def test_the_marks_of_a_crop_are_those_of_its_stage(context, squash) -> None:
    assert "squash_bug_eggs" in {mark.id for mark in marks_for(context, squash)}
    assert all("summer_squash" in mark.crops for mark in marks_for(context, squash))
    assert mark_named(context, squash, "Squash bug egg groups").id == "squash_bug_eggs"
    with pytest.raises(NotFound, match="squash_bug_eggs"):
        mark_named(context, squash, "thrips_onion")


@pytest.mark.parametrize(
    ("found", "looked", "side", "more"),
    [
        # Wald 1947 for means of 0.5 and 1 a plant, risks 10 %: slope 0.72135, starts ±3.16993.
        (0, 5, "under", None),  # 0 ≤ 0.72 · 5 − 3.17
        (0, 4, "look_on", 1),
        (7, 5, "over", None),  # 7 ≥ 0.72 · 5 + 3.17
        (6, 5, "look_on", 2),  # at 1.2 a plant the upper line is met after 6.6 plants
        (3, 8, "look_on", 2),  # at 0.375 a plant the lower line is met after 9.2 plants
    ],
)
def test_eggs_are_over_under_or_want_more_plants(context, squash, found: int, looked: int, side: str, more) -> None:
    answer = held(context, squash, "squash_bug_eggs", found, looked)
    assert (answer.side, answer.more_n) == (side, more)


def test_where_every_plant_was_counted_the_count_is_the_truth(context, squash) -> None:
    # 7 beetles on 3 small eggplants are 2.33 each, over 2; 1 egg group on 3 of 8 squash plants is under 1.
    assert held(context, squash, "flea_beetles_eggplant_small", 7, 3, 3).side == "over"
    assert held(context, squash, "squash_bug_eggs", 3, 8, 8).side == "under"
    assert held(context, squash, "squash_bug_eggs", 3, 4, 8).more_n == 4
    assert "(all that are left)" in held(context, squash, "squash_bug_eggs", 3, 4, 5).lines[1]


def test_a_share_comes_with_its_wilson_interval(context, squash) -> None:
    # 3 of 12: Wilson 0.0889-0.5323 (Newcombe 1998, method 3); 25 % against a mark of 20 %: the data cannot tell.
    answer = held(context, squash, "caterpillars_cole_seedling", 3, 12)
    assert (answer.low, answer.high) == (pytest.approx(0.0889, abs=5e-5), pytest.approx(0.5323, abs=5e-5))
    assert answer.side == "look_on" and "3 of 12 plants: 25 % (9-53 %); the mark is 20 %." in answer.lines


def test_a_number_comes_with_exact_limits(context, squash) -> None:
    # Single count 3: 0.6187-8.7673 (Garwood 1936); on six plants a sixth of that.
    answer = held(context, squash, "stink_bugs_tomato", 3, 6)
    assert (answer.low, answer.high) == (pytest.approx(0.6187 / 6, abs=2e-5), pytest.approx(8.7673 / 6, abs=2e-5))


def test_a_mark_is_never_an_order(context, squash) -> None:
    for mark in context.knowledge.action_marks.values():
        answer = held(context, squash, mark.id, 9, 9)
        assert FROM_FIELDS in answer.lines or answer.side == "under"
        text = " ".join(answer.lines).lower()
        assert "spray now" not in text and "treat" not in text.replace("thresholds for treatment", "")
        assert answer.source in answer.lines[-1]


def test_a_count_is_kept_and_taken_back(context, squash) -> None:
    mark = context.knowledge.action_marks["squash_bug_eggs"]
    keep_pest_count(context, squash, mark, Count(4, 3, (3, 0, 1)))
    with context.read() as session:
        (kept,) = rows(session, "SELECT mark, planting_id, counted_n, looked_n, each, untreated FROM counted")
    assert tuple(kept) == (mark.id, squash.planting_id, 4, 3, "[3, 0, 1]", False)
    assert undo(context) == "Taken back: the count of “squash bug egg groups”, Short bed."
    with pytest.raises(BadInput, match="13 of 12 plants cannot be"):
        keep_pest_count(context, squash, context.knowledge.action_marks["aphids_cole"], Count(13, 12))
