"""On screen: what can hardly be is asked about before it is kept."""

from scout.services import marked

from .conftest import PHONE
from .test_walking import plant_of


async def test_a_strip_line_above_the_top_is_questioned_mended_or_kept(opening, store) -> None:
    plant = plant_of(store, "cucumber")
    marked.mark_plant(store, plant.planting_id, "1st", "indeterminate")
    async with opening(PHONE) as hand:
        await hand.press("w", "enter", "v", "1")
        await hand.press("9", "enter", "2", "enter", "0", "enter", "1", "2", "enter", "8", "enter", "1")
        assert "Stripped up to 12 is above the top leaf 9." in hand.text and "Is that right?" in hand.text
        await hand.press("1")
        assert "9 (Enter keeps it)" in hand.text
        await hand.press("enter", "enter", "enter", "2", "enter", "enter", "1")
        assert "stripped to 2" in hand.rows[0]
        await hand.press("1", "9", "enter", "2", "enter", "0", "enter", "1", "2", "enter", "8", "enter", "1", "2")
        assert "stripped to 12" in hand.rows[0]
