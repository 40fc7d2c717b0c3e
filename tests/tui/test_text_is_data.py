"""What a grower types is shown as it is: never read as markup, never a crash, wherever it comes up."""

import pytest

from scout.services import garden, marked, walk

from .conftest import PHONE
from .hand import see, stop_at

ODD = {
    "a closing tag": "[/z]",
    "a colour": "[red]not red[/red]",
    "a link": "[link=file:///etc/hosts]x[/link] [@click=app.quit]quit[/]",
    "an open bracket": "[[[ \\[ {} %s %(x)s {0}",
    "emoji": "🍅🥒👩🏽\u200d🌾 wilted 🇫🇷",
    "right to left": "حوض الخيار ליד השביל",
    "combining marks": "Zu\u0308rich cre\u0300me",
    "wide letters": "長い畝のきゅうり",
    "a quote": "O'Neill\"; DROP TABLE bed; --",
}


def shown(text: str) -> str:
    """The text as it is kept: the store composes letters, see scout.plain."""
    from scout.plain import clean_text

    return clean_text(text)


@pytest.mark.parametrize("kind", ODD)
async def test_as_name_variety_note_and_place_it_is_shown_as_typed(opening, store, kind) -> None:
    text = ODD[kind]
    bed = garden.add_bed(store, text)
    planting = garden.add_planting(store, (bed,), "cucumber", variety=text, sown_on="2026-05-20", plants_n=5)
    marked.mark_plant(store, planting, text, "indeterminate")
    async with opening(size=PHONE) as hand:
        await hand.press("b")
        assert any(row.startswith(f"{shown(text)} · Cucumber {shown(text)}") for row in hand.rows)
        await hand.press("escape")
        await stop_at(hand, shown(text))
        assert hand.head == f"6/6 {shown(text)} · Cucumber · {shown(text)}"
        assert shown(text)[:6].strip() in hand.screen
        await see(hand, "Lift the fruit", "pinched")
        assert shown(text) in hand.head
        await hand.press("2", "enter", "escape", "x")
        await hand.type(text)
        assert f"({shown(text)})" in hand.text
        await hand.press("i")
        await hand.type(text)
        await hand.press("v")
        assert shown(text) in hand.rows[0]
        await hand.press("escape", "l", "1")
        assert shown(text) in hand.text  # the summary
    with store.read() as session:
        from scout.store import walks

        stop = walks.newest_stop(session=session, planting_id=planting, since="2026-07-22")
    assert stop.note == shown(text)


@pytest.mark.parametrize("size", [PHONE, (80, 24)])
async def test_ten_thousand_letters_of_note_are_kept_and_shown_next_time(opening, store, clock, size) -> None:
    text = "ringed spot [/z] " * 588 + "end."
    assert len(text) == 10_000
    async with opening(size=size) as hand:
        await stop_at(hand, "Long bed")
        await hand.press("i")
        await hand.type(text)
        assert hand.name == "StopPage"
        await hand.press("n", "g", "g", "g", "g")
    clock.on(7, 29)
    async with opening(size=size) as hand:
        await hand.press("w", "enter")
        assert text in hand.text
        assert "☐" in hand.screen and "Glanced" in hand.screen, "the looks and keys stay in sight"


@pytest.mark.parametrize("text", ["b" * 10_000, "[b]" * 70, " \t "])
async def test_a_name_no_bed_can_have_is_refused_and_stays_to_be_mended(opening, store, text) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("b")
        await hand.choose("Add a bed")
        await hand.type(text)
        await hand.press("1")
        assert hand.name == "TextPage" and hand.said
        assert hand.line.value == text
    assert len(garden.bed_names(store)) == 4


async def test_an_escape_sequence_never_reaches_the_terminal(opening, store) -> None:
    bed = garden.add_bed(store, "Bed \x1b[31m\x07red\x1b[0m")
    garden.add_planting(store, (bed,), "beet", sown_on="2026-05-20")
    async with opening() as hand:
        await hand.press("b")
        assert "\x1b" not in hand.screen and "\x07" not in hand.screen
        assert any(row.startswith("Bed red") for row in hand.rows)


async def test_words_that_look_like_markup_are_searched_as_words(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("f", "w")
        await hand.type("[/z] [qqq] \\")
        assert hand.name == "SymptomPage" and "Nothing in the list is like that" in hand.said
        assert walk.current_stop(store).findings == ()
