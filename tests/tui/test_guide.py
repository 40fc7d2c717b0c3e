"""The guide is found by crop, by sign and by words, on a phone."""

import pytest

from .conftest import DESK, PHONE


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
async def test_a_trouble_is_read_by_crop(opening, size) -> None:
    async with opening(size=size) as hand:
        await hand.press("r")
        assert hand.name == "GuidePage" and hand.rows[1:] == sorted(hand.rows[1:]) and "Cucumber" in hand.rows
        await hand.choose("Cucumber")
        await hand.choose("The crop, and what is normal")
        assert "Normal, not a disease" in hand.text
        await hand.press("enter")
        await hand.choose("Powdery mildew")
        assert "Confirm" in hand.text and "Sources" in hand.text
        assert max(map(len, hand.screen.split("\n"))) <= size[0]


async def test_a_trouble_is_found_by_letters_of_its_name_or_of_another_name(opening) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("r", "1", *"infestans")
        assert hand.rows == ["Late blight · water mould"]
        await hand.press("1")
        assert hand.head.startswith("Late blight") and "Confirm" in hand.text


async def test_a_sign_leads_to_what_can_show_it(opening) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("r")
        await hand.choose("Cucumber")
        await hand.press("2")
        await hand.choose("white powder")
        assert any("Powdery mildew" in row for row in hand.rows)


async def test_words_lead_to_signs_and_nonsense_is_said_so(opening) -> None:
    async with opening(size=PHONE) as hand:
        await hand.press("r")
        await hand.choose("Cucumber")
        await hand.press("3")
        await hand.type("white powdry stuff on leafs")
        assert any("powder" in row for row in hand.rows)
        await hand.press("escape", "3")
        await hand.type("zzzz qqqq")
        assert "try other words" in hand.said
