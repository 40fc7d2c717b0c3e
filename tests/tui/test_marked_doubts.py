"""On screen: what can hardly be is asked about before it is kept."""

from scout.services import marked

from ..small_garden import plant_of
from .conftest import PHONE


async def test_a_strip_line_above_the_top_is_questioned_mended_or_kept(opening, store) -> None:
    plant = plant_of(store, "cucumber")
    marked.mark_plant(store, plant.planting_id, "1st", "indeterminate")
    async with opening(PHONE) as hand:
        await hand.press("w", "enter", "v", "1", "1")
        await hand.press("9", "enter", "2", "enter", "0", "enter", "1", "2", "enter", "8", "enter")
        assert "Stripped up to 12 is above the top leaf 9." in hand.text and "Is that right?" in hand.text
        await hand.press("1")
        assert "9 (Enter keeps it)" in hand.text
        await hand.press("enter", "enter", "enter", "2", "enter", "enter")
        assert stripped_to(store) == 2
        await hand.press("1", "1", "9", "enter", "2", "enter", "0", "enter", "1", "2", "enter", "8", "enter", "2")
        assert stripped_to(store) == 12


async def test_back_goes_to_the_question_before_and_the_last_values_stand_beside(opening, store, clock) -> None:
    plant = plant_of(store, "cucumber")
    tag = marked.mark_plant(store, plant.planting_id, "2nd from the path, red tape", "indeterminate")
    clock.on(7, 15)
    marked.measure(store, tag, top_leaf=18, highest_diseased=9, newly_diseased=3, stripped_to=6, leaves_standing=12)
    clock.on(7, 22)
    async with opening(PHONE) as hand:
        await hand.press("w", "enter", "v", "1", "1")
        assert "Last time 18. Enter alone: not counted." in hand.text
        for pad in "1234567890":
            assert f"{pad}      │" in hand.screen, "the pad is cut off"
        await hand.press("2", "enter", "1", "1", "enter", "escape", "escape")
        assert "Top open leaf" in hand.text and "2 (Enter keeps it)" in hand.text
        await hand.press("2", "0", "enter", "enter", "2", "enter", "enter", "1", "1", "enter")
    last = marked.marked_table(store, plant.planting_id).rows[-1]
    assert (last.top_leaf, last.highest_diseased, last.newly_diseased) == (20, 11, 2)
    assert (last.stripped_to, last.leaves_standing, last.wet) == (6, 11, "dry")


def stripped_to(store) -> int | None:
    return marked.marked_table(store, plant_of(store, "cucumber").planting_id).rows[-1].stripped_to
