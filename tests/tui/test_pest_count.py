"""A pest count at a stop."""

from .conftest import PHONE


async def test_eggs_are_counted_at_the_stop_and_held_against_their_mark(opening) -> None:
    async with opening(PHONE) as hand:
        await hand.press("w", "enter", "e")
        await hand.choose("squash bug egg groups")
        await hand.press("enter", "2", "enter")
        assert "2 on 8 plants: 0.25 each" in hand.text and "Under the mark. Every plant was looked at." in hand.text
        await hand.press("enter")
        assert hand.name == "StopPage"
        await hand.press("u")
        assert "Taken back: the count of “squash bug egg groups”" in hand.said


async def test_the_share_of_odd_pieces_stands_at_the_stop(opening) -> None:
    async with opening() as hand:
        await hand.press("w", "enter", "+", "+", "+", "-")
        assert "Picked: 3 sound, 1 odd" in hand.text and "Odd: 1 of 4 in the last pick, 25 % (5-70 %)." in hand.text
