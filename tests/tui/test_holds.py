"""Do not eat until: entered at a stop and after a job, seen at the bed."""

import pytest

from scout.services import holds, troubles

from ..small_garden import plant_of
from .conftest import PHONE


async def test_a_hold_is_entered_on_a_phone_and_warns_at_the_bed(opening, store) -> None:
    async with opening(PHONE) as hand:
        await hand.choose("Beds and plantings")
        await hand.choose("Long bed")
        await hand.choose("A labelled product was used")
        await hand.press("enter", "1", "7", "enter", "1", "2", "enter")
        assert "Do not eat until 29 July 08:00" in hand.said
    (hold,) = holds.standing(store)
    assert (hold.eat_from, hold.enter_from) == ("2026-07-29T08:00", "2026-07-22T20:00")
    async with opening(PHONE) as hand:
        assert "keep out until 22 July 20:00" in hand.text
        await hand.press("j", "d")
        assert hand.head == "Do not eat" and "Long bed" in hand.rows[0]
        await hand.press("1", "enter", "2", "4", "enter")
        assert "Do not go in, touch or pick until 23 July 08:00" in hand.said
        await hand.press("u", "u")
        assert hand.rows == ["Enter one"]


async def test_a_labelled_job_that_is_done_asks_for_its_label(opening, store) -> None:
    plant = plant_of(store, "cucumber")
    control = "labelled_powdery_mildew_product"
    troubles.take_control(store, plant.planting_id, plant.bed_id, None, "powdery_mildew_cucurbit", control, "today")
    async with opening() as hand:
        await hand.press("j", "1")
        await hand.choose("Done now")
        await hand.press("enter", "1", "escape", "escape")
        assert "until you know what its label says" in hand.said
    assert holds.standing(store)[0].harvest_interval_d is None


@pytest.mark.parametrize("typed", ["99:99", "2027-01-01"])
async def test_a_time_that_cannot_be_stays_to_be_mended_and_keeps_nothing(opening, store, typed: str) -> None:
    async with opening() as hand:
        await hand.press("b", "1")
        await hand.choose("A labelled product was used")
        await hand.press("enter", "2")
        await hand.type(typed)
        assert hand.said and hand.name == "TextPage" and hand.line.value == typed
        assert holds.standing(store) == ()
        await hand.type("6:30")
        await hand.press("7", "enter", "1", "2", "enter")
    assert holds.standing(store)[0].eat_from == "2026-07-29T06:30"
