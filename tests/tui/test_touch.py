"""By touch or mouse alone: every step of a stop answers to a tap on a row, a pad key or a key at the bottom."""

import pytest

from scout.services import troubles, walk

from .conftest import DESK, PHONE


@pytest.mark.parametrize("size", [PHONE, DESK])
async def test_a_stop_is_answered_by_taps_alone(opening, store, size) -> None:
    async with opening(size=size) as hand:
        await hand.tap("Walk: 5 stops")
        await hand.tap("Go")
        assert hand.name == "StopPage"
        await hand.tap("Push leaves aside")
        await hand.tap("white powder")
        for face in ("3", "⌫", "4"):
            await tap_pad(hand, face)
        await tap_pad(hand, "OK")
        await hand.tap("5 % of the leaf")
        await hand.tap("Back")
        assert hand.name == "CausesPage"
        before = hand.rows
        await hand.tap("Yes")
        assert hand.rows != before
        await hand.tap("Powdery mildew")
        await hand.tap("today: ")
        if hand.name == "ChoicePage":
            await hand.tap("Yes, do it")
        assert hand.name == "StopPage"
        await hand.tap("Next bed")
        assert "2/5 Short bed" in hand.head
        await hand.tap("Glanced ok")
        assert "3/5 Mixed bed" in hand.head
        assert hand.keys_n == 0
    assert len(troubles.job_lines(store)) == 1
    assert walk.current_stop(store).number == 3


async def tap_pad(hand, face) -> None:
    from scout.tui.parts import PadKey

    key = next(key for key in hand.sheet.query(PadKey) if key.face == face)
    await hand.pilot.click(key)


async def test_what_does_not_fit_at_the_bottom_of_a_phone_is_behind_more(opening, store) -> None:
    async with opening(size=PHONE) as hand:
        await hand.tap("Walk: 5 stops")
        await hand.tap("Go")
        await hand.tap("More")
        await hand.tap("One sound piece picked (+)")
        assert "Picked: 1 sound" in hand.text and hand.keys_n == 0


async def test_a_text_is_taken_by_a_tap_on_ok(opening, store) -> None:

    async with opening(size=PHONE) as hand:
        await hand.tap("Weather")
        await hand.tap("Type a day")
        hand.line.value = "31 19"
        await hand.tap("OK")
        assert hand.name == "WeatherPage" and "31.0  19.0" in hand.text


async def test_a_tap_on_an_empty_place_does_nothing(opening) -> None:
    async with opening(size=DESK) as hand:
        await hand.tap("Walk: 5 stops")
        await hand.tap("Go")
        await hand.pilot.click(offset=(70, 18))
        assert hand.name == "StopPage" and all(row.startswith("☐") for row in hand.rows)


async def test_a_long_list_scrolls_with_the_wheel_to_its_last_row(opening) -> None:
    async with opening(size=PHONE) as hand:
        await hand.tap("Walk: 5 stops")
        await hand.tap("Go")
        await hand.tap("More")
        last = hand.rows[-1]
        assert last not in hand.screen
        for _ in range(20):
            await hand.pilot._post_mouse_events([scroll()], offset=(5, 8), button=0)
        assert last in hand.screen


def scroll():
    from textual import events

    return events.MouseScrollDown
