"""The plan, its hours, and the lines of the first screen, by keys."""

from scout.services import garden, troubles, walk
from scout.services.plan import walk_plan
from scout.services.weather import type_line

from ..small_garden import plant_of
from .conftest import DESK, PHONE


def wet_since_the_last_walk(store, clock) -> None:
    """A walk on the 22nd, then three wet nights over cucumbers and beans."""
    walk.start(store, walk_plan(store).stops)
    while (stop := walk.current_stop(store)) is not None:
        walk.clear(store, stop.id, "glance", 2)
    for day in (23, 24, 25):
        clock.on(7, day)
        type_line(store, "30 21 0 wet")
    clock.on(7, 28)


async def test_a_line_is_put_away_with_a_reason_and_comes_back_by_undo(opening, store, clock) -> None:
    wet_since_the_last_walk(store, clock)
    async with opening(size=PHONE) as hand:
        assert "* Wet nights: spots may show on cucumber and 4 more" in hand.text
        await hand.press("a", "1")
        await hand.type("saw them this morning")
        assert hand.name == "TodayPage" and "wet nights" not in hand.text
        await hand.press("u")
        assert "* Wet nights: spots may show on cucumber and 4 more" in hand.text


async def test_without_a_reason_the_line_stays_and_says_what_is_missing(opening, store, clock) -> None:
    wet_since_the_last_walk(store, clock)
    async with opening(size=DESK) as hand:
        before = hand.text.count("* ")
        await hand.press("a", "1")
        await hand.type("   ")
        await hand.press("escape")
        assert hand.text.count("* ") == before


async def test_the_hours_show_heat_lists_and_first_aid(opening, store) -> None:
    type_line(store, "36 25 0 dry")
    async with opening(size=PHONE) as hand:
        await hand.press("w", "h")
        assert hand.name == "HoursPage" and hand.head == "Dawn, dark and heat"
        assert "At dawn: nothing asks for it." in hand.text
        assert "15:00" in hand.text and "(est.)" in hand.text
        assert "heat stroke" in hand.text and "Call the emergency number" in hand.text
        await hand.press("escape")
        assert hand.name == "PlanPage"


async def test_a_row_that_waits_says_why_and_starts_nothing(opening, store) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("w", "m", "3", "enter")
        waits = next(n for n, row in enumerate(hand.rows) if row.startswith("waits: "))
        await hand.press(str(waits + 1))
        assert hand.name == "PlanPage" and walk.open_walk(store) is None


async def test_nothing_that_fits_is_said_and_no_walk_begins(opening, store, clock) -> None:
    type_line(store, "38 27 0 dry")  # danger by the estimate from late morning to the evening
    clock.on(7, 22, 14)
    assert garden.planted(store)
    async with opening(size=PHONE) as hand:
        await hand.press("w")
        stops = walk_plan(store).stops
        assert hand.head.startswith(f"{len(stops)} stops") and all(stop.must for stop in stops)
        assert "Too hot now" in hand.text


async def test_leaves_felt_dry_let_the_sick_bed_follow_at_once(opening, store, clock) -> None:
    plant = plant_of(store)
    cause = store.knowledge.causes["powdery_mildew_cucurbit"]
    troubles.take_control(store, plant.planting_id, plant.bed_id, None, cause.id, cause.do[0].control, "season")
    type_line(store, "29 18 0 wet")
    clock.on(7, 22, 6)
    async with opening(size=PHONE) as hand:
        await hand.press("w")
        assert hand.rows[4].startswith("-- Wash hands") and "min for dry leaves" in hand.rows[4]
        assert hand.rows[5].startswith("9:30 ! Long bed")
        await hand.choose("-- Wash hands")
        await hand.press("1")
        assert hand.name == "PlanPage" and hand.rows[4] == "-- Wash hands, wipe the blade, empty the bag."
        assert hand.rows[5].startswith("6:")
    assert walk.open_walk(store) is None
