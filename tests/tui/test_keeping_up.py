"""The keeping-up screen: verdict first, ladder from the soil up, both lines, and no meaning by colour."""

import pytest

from scout.services import marked
from scout.services.context import Context

from ..small_garden import Clock, plant_of
from .conftest import DESK, PHONE

LOSING = {
    "1st": [(16, 5, 0), (18, 8, 3), (19, 11, 6), (21, 14, 8)],
    "2nd": [(14, 3, 0), (16, 6, 3), (18, 9, 5), (19, 12, 8)],
}
DAYS = ((7, 1), (7, 8), (7, 15), (7, 22))


@pytest.fixture
def losing(store: Context, clock: Clock) -> Context:
    """Four visits to two marked cucumbers, the last of them today."""
    plant = plant_of(store)
    tags = {label: marked.mark_plant(store, plant.planting_id, label, "indeterminate") for label in LOSING}
    for number, day in enumerate(DAYS):
        clock.on(*day)
        for label, visits in LOSING.items():
            top, high, strip = visits[number]
            marked.measure(store, tags[label], top_leaf=top, highest_diseased=high, stripped_to=strip)
    return store


async def keeping(hand) -> None:
    await hand.press("w", "enter", "v")
    await hand.until(lambda: hand.name == "MarkedPage" and "Working out" not in hand.text)


@pytest.mark.parametrize("size", [PHONE, DESK])
async def test_the_verdict_stands_on_top_and_is_seen_without_scrolling(opening, losing, size) -> None:
    async with opening(size=size) as hand:
        await keeping(hand)
        assert hand.text.startswith("Losing: the spots climb faster than the plants grow.")
        assert "Losing: the spots climb" in hand.screen


@pytest.mark.parametrize("size", [PHONE, DESK])
async def test_the_ladder_stands_on_the_soil_and_fits_the_width(opening, losing, size) -> None:
    async with opening(size=size) as hand:
        await keeping(hand)
        lines = hand.text.split("\n")
        soil = next(n for n, line in enumerate(lines) if line.startswith("soil"))
        rungs = [line for line in lines[:soil] if line[3:5] == " |"]
        numbers = [int(line[:3]) for line in rungs]
        assert numbers == sorted(numbers, reverse=True) and 8 <= len(rungs) <= 12
        assert all(len(line) <= size[0] for line in (*rungs, lines[soil]))
        assert set("".join(line[5:] for line in rungs)) == {" ", "o", "x", "-"}
        assert "o clean  x spotted or below  - stripped" in hand.text


async def test_both_lines_and_what_they_are_stand_under_the_ladder(opening, losing) -> None:
    async with opening(size=PHONE) as hand:
        await keeping(hand)
        assert "solid: top leaf; dotted: highest spotted leaf" in hand.text
        assert "Spots climb" in hand.text and "everity" not in hand.text


async def test_one_key_shows_the_epidemic_figures_and_escape_comes_back(opening, losing) -> None:
    async with opening(size=PHONE) as hand:
        await keeping(hand)
        await hand.press("f")
        await hand.until(lambda: hand.name == "FiguresPage")
        assert "Apparent infection rate" in hand.text and "(AUDPC)" in hand.text
        await hand.press("escape")
        await hand.until(lambda: hand.name == "MarkedPage")


async def test_the_advice_before_the_knife_is_seen_at_once_and_its_questions_are_answered_in_place(
    opening, losing
) -> None:
    async with opening(size=PHONE) as hand:
        await keeping(hand)
        assert "Strip today: wait." in hand.screen and "Do the leaves feel dry? (k)" in hand.screen
        await hand.press("k")
        assert "Do the leaves feel dry?" in hand.text and "forecast until the day after tomorrow" in hand.text
        await hand.choose("feels wet")
        assert "The leaves are wet: look, do not touch." in hand.text
        await hand.press("u")
        await hand.choose("feels dry")
        await hand.choose("forecast highs")
        await hand.press("2", "9", "enter", "3", "0", "enter")
        assert hand.name == "KnifePage" and "Do the leaves" not in hand.text and "forecast until" not in hand.text
        assert "How many leaves stand on each marked plant?" in hand.text  # never counted here, so still no go


async def test_a_measurement_more_is_in_the_verdict_and_undo_takes_it_back(opening, losing, clock) -> None:
    clock.on(7, 29)
    async with opening() as hand:
        await keeping(hand)
        before = hand.text
        await hand.press("1", "1", "2", "2", "enter", "1", "7", "enter", "3", "enter", "9", "enter", "9", "enter")
        await hand.until(lambda: hand.name == "MarkedPage" and "29 Jul" in hand.text and "Working" not in hand.text)
        await hand.press("u")
        await hand.until(lambda: hand.text == before)


async def test_nothing_measured_says_how_leaves_are_counted(opening, store) -> None:
    plant = plant_of(store)
    marked.mark_plant(store, plant.planting_id, "1st", "indeterminate")
    async with opening(size=PHONE) as hand:
        await hand.press("w", "enter", "v")
        assert "Leaves are counted in nodes from the soil" in hand.text


async def test_a_bushy_kind_is_asked_for_its_fruit_and_judged_by_it(opening, store, clock) -> None:
    plant = plant_of(store)
    tag = marked.mark_plant(store, plant.planting_id, "1st", "determinate")
    for number, day in enumerate(DAYS):
        clock.on(*day)
        marked.measure(store, tag, top_leaf=14, highest_diseased=2 + number // 2)
    async with opening(size=PHONE) as hand:
        await keeping(hand)
        assert "standing still is normal" in hand.text
        await hand.choose("lowest unripe fruit")
        await hand.press("9", "enter", "7", "enter")
        await hand.until(lambda: hand.name == "MarkedPage" and "Working" not in hand.text)
        assert hand.text.startswith("Keeping up") and "fruit ripe about 29 July: keep the plants" in hand.text
