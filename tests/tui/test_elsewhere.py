"""On screen: look at any planting now, go to another bed, end the walk, and what becomes of one of another day."""

from scout.services import garden, walk
from scout.store.asking import rows

from .conftest import PHONE


async def test_a_planting_is_looked_at_from_its_bed_and_the_walk_ends_with_it(opening, store) -> None:
    async with opening(PHONE) as hand:
        await hand.press("b")
        await hand.choose("Cucumber")
        await hand.choose("Look at it now")
        assert hand.head.startswith("1/1 Long bed")
        await hand.press("t")
        assert "No other bed waits" in hand.said
        await hand.press("g", "enter")
        assert hand.name == "BedsPage" and walk.open_walk(store) is None


async def test_a_walk_begins_at_the_row_chosen_goes_elsewhere_and_ends_early(opening, store) -> None:
    async with opening(PHONE) as hand:
        await hand.press("w")
        await hand.choose("Short bed")
        assert "1/5 Short bed" in hand.head
        await hand.press("t")
        await hand.choose("Black tub")
        assert "1/5 Black tub" in hand.head
        await hand.press("c", "z")
        assert hand.name == "SummaryPage" and walk.open_walk(store) is None


async def test_a_walk_of_another_day_may_be_ended_and_planned_anew(opening, store, clock) -> None:
    async with opening(PHONE) as hand:
        await hand.press("w", "enter", "g")
    clock.on(7, 24)
    async with opening(PHONE) as hand:
        await hand.press("w")
        assert "The walk of 22 July was not finished." in hand.text
        await hand.choose("plan today anew")
        assert hand.name == "PlanPage" and walk.open_walk(store) is None


async def test_a_planting_is_found_by_letters(opening, store) -> None:
    async with opening(PHONE) as hand:
        await hand.press("b", "f", *"tub", "1")
        assert hand.head.startswith("Black tub · Sweet pepper")


async def test_a_glance_over_plants_never_counted_asks_on_how_many_and_makes_nothing_up(opening, store) -> None:
    bed = garden.add_bed(store, "New bed")
    garden.add_planting(store, (bed,), "beet", sown_on="2026-06-01")
    async with opening(PHONE) as hand:
        await hand.press("b", "f", *"new bed", "1", "1", "g")
        assert "How many plants do you look at?" in hand.text
        await hand.press("escape")
        assert hand.name == "StopPage"
        await hand.press("g", "1", "2", "enter", "enter")
    assert rows_of(store, "SELECT looked_n FROM clearance") == [(12,)]


def rows_of(store, sql: str) -> list[tuple[int, ...]]:
    with store.read() as session:
        return [tuple(row) for row in rows(session, sql)]
