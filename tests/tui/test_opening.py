"""The first screen paints before the garden is open; what happens meanwhile does no harm."""

import threading

import pytest

from scout.errors import BadInput
from scout.services import today
from scout.services.context import Context
from scout.tui.app import BedwalkApp

from .conftest import PHONE


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> threading.Event:
    """The garden opens only when this event is set."""
    release, real = threading.Event(), today.today_view

    def slow(context: Context) -> today.TodayView:
        assert release.wait(10)
        return real(context)

    monkeypatch.setattr(today, "today_view", slow)
    return release


async def test_it_paints_before_the_garden_is_open_and_shows_it_then(opening, held) -> None:
    async with opening(wait=False) as hand:
        await hand.pilot.pause()
        assert "Opening the garden…" in hand.screen
        held.set()
        await hand.opened()
        assert hand.rows[0].startswith("Walk: 5 stops")


@pytest.mark.parametrize("key", ["w", "j", "e", "b", "u", "t", "1", "enter", "escape", "down", "m", "space"])
async def test_a_key_pressed_before_it_is_open_does_no_harm(opening, held, key) -> None:
    async with opening(wait=False) as hand:
        await hand.press(key)
        held.set()
        await hand.opened()
        await hand.press("escape") if hand.name != "TodayPage" else None
        assert hand.name == "TodayPage" and hand.rows[0].startswith("Walk: 5 stops")
        await hand.press("w", "enter")
        assert hand.name == "StopPage"


async def test_help_read_while_it_opens_closes_on_the_open_garden(opening, held) -> None:
    async with opening(wait=False) as hand:
        await hand.press("?")
        assert hand.name == "HelpPage"
        held.set()
        await hand.opened()
        await hand.press("escape")
        assert hand.rows[0].startswith("Walk: 5 stops")


async def test_the_screen_may_change_its_size_while_it_opens_and_after(opening, held) -> None:
    async with opening(wait=False) as hand:
        await hand.pilot.resize_terminal(*PHONE)
        held.set()
        await hand.opened()
        assert hand.feet == ["Walk", "Jobs", "Weather", "More"]
        await hand.pilot.resize_terminal(100, 30)
        await hand.until(lambda: len(hand.feet) > 4)  # Textual hears of a new size a moment later
        assert len(hand.feet) == 7
        await hand.press("w", "enter")
        await hand.pilot.resize_terminal(20, 8)
        await hand.pilot.resize_terminal(*PHONE)
        await hand.until(lambda: len(hand.feet) == 4 and "Long bed" in hand.screen)


async def test_it_can_be_left_while_it_opens(opening, held) -> None:
    async with opening(wait=False) as hand:
        await hand.press("q")
        assert hand.app._exit
        held.set()


async def test_a_garden_that_cannot_be_opened_is_said_and_stays_said(opening, home) -> None:
    (home / "garden.db").write_bytes(b"this is no garden" * 400)
    for extra in ("garden.db-wal", "garden.db-shm"):
        (home / extra).unlink(missing_ok=True)
    async with opening() as hand:
        assert "The garden cannot be opened." in hand.text and "garden.db" in hand.text
        await hand.press("w", "u", "1", "enter")
        assert hand.name == "TodayPage" and "garden.db" in hand.text
        await hand.press("q")
        assert hand.app._exit


async def test_a_folder_without_a_garden_offers_three_ways_to_begin(opening, tmp_path) -> None:
    async with opening(folder=tmp_path / "nothing here") as hand:
        assert hand.rows == ["Set up my garden", "Take in a garden file (TOML or CSV)", "Open the demo garden"]


def test_a_mistake_in_the_settings_is_said_before_the_screen_is_taken(home) -> None:
    (home / "settings.toml").write_text('theme = "pink"\n', encoding="utf-8")
    with pytest.raises(BadInput, match="theme is sun or night"):
        BedwalkApp(Context(home))


async def test_keys_typed_ahead_of_the_screen_reach_the_page_they_were_meant_for(opening) -> None:
    """Three keys in one breath: walk, begin, something seen at the look; none is answered twice or lost."""
    from textual import events

    async with opening() as hand:
        for key, character in (("w", "w"), ("enter", "\r"), ("s", "s"), ("1", "1"), ("3", "3")):
            hand.app.post_message(events.Key(key, character))
        for _ in range(6):
            await hand.pilot.pause()
        assert hand.name == "NumberPage" and "> 3" in hand.text
