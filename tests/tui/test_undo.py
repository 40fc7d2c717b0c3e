"""One key takes back the last thing given, whatever it was; nothing asks "are you sure"."""

import pytest

from scout.services import answers, marked, site, troubles, walk

from ..small_garden import plant_of
from .hand import see, stop_at


async def test_a_glance(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("g", "u")
        assert "1/5 Long bed" in hand.head


async def test_every_look_of_a_whole_bed(opening) -> None:
    async with opening() as hand:
        await stop_at(hand, "Mixed bed")
        before = hand.head
        await hand.press("b", "u")
        assert hand.head == before and all(row.startswith("☐") for row in hand.rows)


async def test_a_look(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("c")
        assert hand.rows[0].startswith("✓")
        await hand.press("u")
        assert hand.rows[0].startswith("☐")


async def test_an_answer_to_the_question_and_then_the_count_and_the_finding(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await see(hand, "Lift the fruit", "pinched")
        await hand.press("2", "enter")
        ranked = hand.rows
        await hand.press("y", "u")
        assert hand.rows == ranked
        stop = walk.current_stop(store)
        await hand.press("u")
        assert answers.findings_of(store, stop.id)[0].affected_n is None
        await hand.press("u")
        assert answers.findings_of(store, stop.id) == ()
        await hand.press("escape")
        assert hand.name == "StopPage"


async def test_a_pick_a_note_and_the_water(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("+", "+", "u")
        assert "Picked: 1 sound" in hand.text
        await hand.press("h", "1", "u")
        assert "the water noted" in hand.said
        await hand.press("i")
        await hand.type("for next time")
        await hand.press("u")
        assert "stop" in hand.said


async def test_a_control(opening, store) -> None:
    plant = plant_of(store, "cucumber")
    troubles.take_control(store, plant.planting_id, plant.bed_id, None, "powdery_mildew_cucurbit", "mulch", "today")
    async with opening() as hand:
        await hand.press("j")
        assert len(hand.rows) == 1
        await hand.press("u")
        assert hand.rows == [] and "Nothing to do." in hand.text


async def test_a_job_done(opening, store) -> None:
    plant = plant_of(store, "cucumber")
    troubles.take_control(store, plant.planting_id, plant.bed_id, None, "powdery_mildew_cucurbit", "mulch", "today")
    async with opening() as hand:
        await hand.press("j")
        before = hand.rows
        await hand.press("1", "1", "escape")  # done now, not counted
        assert hand.name == "JobsPage" and hand.rows != before
        await hand.press("u")
        assert hand.rows == before


async def test_a_measurement(opening, store) -> None:
    plant = plant_of(store, "cucumber")
    marked.mark_plant(store, plant.planting_id, "red tape", "indeterminate")
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("v", "1", "1", "1", "2", "enter", "2", "enter", "enter", "enter", "enter")
        assert hand.rows[0] == "Measure red tape · 22 July"
        await hand.press("u")
        assert hand.rows[0] == "Measure red tape · not yet"


async def test_a_day_of_weather(opening, store) -> None:
    async with opening() as hand:
        await hand.press("e", "1")
        await hand.type("34 22 3,5 wet")
        assert "34.0" in hand.text
        await hand.press("u")
        assert "34.0" not in hand.text


async def test_a_planting_pulled_by_mistake(opening, store) -> None:
    async with opening() as hand:
        await hand.press("b", "1")
        await hand.choose("pulled")
        await hand.type("wrong row")
        assert not any("Cucumber" in row for row in hand.rows)
        await hand.press("u")
        assert any("Cucumber" in row for row in hand.rows)
    assert plant_of(store, "cucumber").bed == "Long bed"


async def test_after_a_restart_from_the_first_screen(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("g", "q")
    async with opening() as hand:
        await hand.press("u")
        assert hand.rows[0] == "Go on with the walk: 0 of 5 stops done"


@pytest.mark.parametrize("page", ["TodayPage", "StopPage", "JobsPage", "BedsPage", "WeatherPage"])
async def test_pressed_again_and_again_it_comes_to_an_end_and_no_page_breaks(opening, store, page) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await see(hand, "Lift the fruit", "pinched")
        await hand.press("2", "enter", "y", "escape", "+", "g")
        if page != "StopPage":
            await hand.press("escape", *{"JobsPage": "j", "BedsPage": "b", "WeatherPage": "e"}.get(page, ""))
        assert hand.name == page
        for _ in range(40):
            await hand.press("u")
            if "nothing to undo" in hand.said or "cannot be undone" in hand.said:
                break
        assert "nothing to undo" in hand.said or "cannot be undone" in hand.said
        assert hand.name in (page, "SummaryPage")
    assert site.open_garden(store) is not None and walk.open_walk(store) is None


async def test_what_a_question_was_about_may_be_gone_when_the_walk_goes_on(opening, store) -> None:
    """Left at "on how many", taken back from the first screen: the stop opens at its looks, not at a crash."""
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await see(hand, "Lift the fruit", "pinched")
        assert hand.name == "NumberPage"
    async with opening() as hand:
        await hand.press("u", "w")
        assert hand.name == "StopPage" and "Long bed" in hand.head
    assert walk.current_stop(store).asking is None
