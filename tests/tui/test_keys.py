"""Every key is said: on the page it belongs to, behind ? and behind More; no two keys of a page are the same."""

import ast
from pathlib import Path

import pytest

import scout.tui
from scout.services import marked
from scout.tui.keys import KEYS

from ..small_garden import plant_of
from .conftest import PHONE
from .hand import see, stop_at

ON_PHONE = 4
SCREENS = Path(scout.tui.__file__).parent

WAYS = {
    "TodayPage": (),
    "PlanPage": ("w",),
    "StopPage": ("w", "enter"),
    "StopPage, begun": ("w", "enter", "c"),
    "SymptomPage": ("w", "enter", "s"),
    "NumberPage": ("w", "enter", "s", "1"),
    "CausesPage": ("w", "enter", "s", "1", "enter"),
    "OneCausePage": ("w", "enter", "s", "1", "enter", "1"),
    "NoticePage": ("5",),
    "JobsPage": ("j",),
    "WeatherPage": ("e",),
    "BedsPage": ("b",),
    "PhotoPage": ("w", "enter", "o"),
    "MarkedPage": ("w", "enter", "v"),
    "SummaryPage": ("w", "enter", "g", "g", "g", "g", "g"),
    "ChoicePage": ("w", "enter", "l"),
    "TextPage": ("e", "1"),
    "HelpPage": ("?",),
    "MorePage": ("m",),
}


@pytest.mark.parametrize("way", WAYS)
async def test_the_keys_of_a_page_fit_its_footer_differ_and_are_in_its_help(opening, way) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press(*WAYS[way])
        assert hand.name == way.split(",")[0]
        assert 1 <= len(hand.feet) <= ON_PHONE
        for word in hand.feet:
            assert word in hand.screen, f"{word!r} is cut off:\n{hand.screen}"
        presses = [KEYS[name].press for name in hand.page.keys_here()]
        assert len(presses) == len(set(presses))
        names = hand.page.keys_here()
        assert all(callable(getattr(hand.page, f"do_{name}")) for name in names)
        if hand.name in ("TextPage",):
            return  # a ? is a letter there
        await hand.press("?")
        assert hand.head == "Keys"
        for name in names:
            assert f"{KEYS[name].press}  {KEYS[name].does}" in hand.text
        await hand.press("escape")
        assert hand.name == way.split(",")[0]


async def test_everything_behind_more_can_be_chosen(opening) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("w", "enter")
        names = [name for name in hand.page.keys_here() if name != "more"]
        await hand.press("m")
        assert hand.rows == [f"{KEYS[name].row or KEYS[name].word} ({KEYS[name].press})" for name in names]
        await hand.choose("Log the water here (h)")
        assert hand.head == "Water here"


async def test_behind_more_a_key_does_what_its_row_says_and_escape_only_goes_back(opening) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("w", "enter", "m", "h")
        assert hand.head == "Water here"
        await hand.press("escape", "m", "escape")
        assert hand.name == "StopPage"


async def test_more_goes_on_to_what_was_chosen_beyond_the_ninth_row(opening) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("w", "enter", "m")
        at = next(n for n, row in enumerate(hand.rows) if row.startswith("A line for"))
        assert at >= 9
        await hand.choose("A line for")
        assert hand.name == "TextPage"


async def test_q_leaves_from_the_middle_of_a_question_and_the_walk_goes_on_there(opening) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await see(hand, "Lift the fruit", "pinched")
        await hand.press("q")
        assert hand.app._exit
    async with opening() as hand:
        await hand.press("w")
        assert hand.name == "NumberPage" and "on how many of 8?" in hand.text


async def test_the_arrows_and_enter_choose_a_row(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("down", "down", "enter")
        assert hand.name == "SymptomPage"
        await hand.press("down", "enter")
        assert hand.name == "NumberPage"
        await hand.press("enter", "escape")  # how many: not said; severity: not judged
        assert hand.name == "CausesPage"
        second = hand.rows[1].split(" — ")[0]
        await hand.press("down", "enter")
        assert hand.name == "OneCausePage" and hand.head.startswith(second)


async def test_the_page_keys_reach_the_end_of_a_long_text(opening) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("w", "enter", "?")
        last = "do the same."
        assert last not in hand.screen
        for _ in range(8):
            await hand.press("pagedown")
        assert last in hand.screen


def test_every_key_of_the_list_belongs_to_a_page() -> None:
    used: set[str] = set()
    for file in SCREENS.rglob("*.py"):
        if file.name == "keys.py":
            continue
        tree = ast.parse(file.read_text(encoding="utf-8"))
        used |= {
            node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)
        }
    assert set(KEYS) <= used


def test_a_key_says_what_it_does_in_one_sentence_and_its_word_fits_a_quarter_of_a_phone() -> None:
    for key in KEYS.values():
        assert key.does.endswith(".") and len(key.word) <= 45 // ON_PHONE


def test_a_row_behind_more_fits_a_phone_line_with_its_digit_and_its_key() -> None:
    for key in KEYS.values():
        assert len(f"1 {key.row} ({key.press})") <= 45 - 2  # the frame of the list takes a cell on each side


async def test_the_theme_key_changes_to_night_and_back(opening, store) -> None:
    marked.mark_plant(store, plant_of(store, "cucumber").planting_id, "red tape", "indeterminate")
    async with opening() as hand:
        assert hand.app.theme == "sun"
        await hand.press("t")
        assert hand.app.theme == "night"
        await hand.press("t")
        assert hand.app.theme == "sun"


async def test_the_arrows_scroll_a_text_without_a_list(opening) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("w", "enter", "?")
        first = hand.screen
        await hand.press("down")
        assert hand.screen != first
        await hand.press("up")
        assert hand.screen == first


async def test_a_number_that_is_too_large_stays_to_be_mended_and_is_never_cut_short(opening, store) -> None:
    async with opening(PHONE) as hand:
        await hand.press("e", "2", "9", "9", "enter")
        assert hand.name == "NumberPage" and "> 99" in hand.text and "At most 55." in hand.said
        await hand.press("backspace", "backspace", "2", "9", "enter")
        assert "The day after tomorrow's high" in hand.text
