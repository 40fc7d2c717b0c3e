"""From an odd fruit to the days that made it, by keys; what proves a cause; the gap that is coming."""

from datetime import timedelta

from scout.services.answers import add_finding
from scout.services.own_history import own_counts
from scout.services.weather import HERE

from .conftest import PHONE
from .hand import stop_at

PINCHED = "fruit.pinched_blossom_end"


def hot_week(store) -> None:
    """8-12 July at 37 and 26 °C, the rest of ten weeks at 29 and 19 °C."""
    from scout.store.weather import set_day

    with store.write() as tx:
        for back in range(70):
            on = store.today - timedelta(days=back)
            high, low = (37.0, 26.0) if (on.month, on.day) in {(7, n) for n in range(8, 13)} else (29.0, 19.0)
            set_day(
                tx,
                station=HERE,
                on=on.isoformat(),
                kind="observed",
                basis="station",
                tmax_c=high,
                tmin_c=low,
                rain_mm=0.0,
            )


async def test_on_a_phone_the_answer_fits_and_one_key_narrows_its_days(opening, store) -> None:
    hot_week(store)
    async with opening(PHONE) as hand:
        await stop_at(hand, "Long bed")
        stop = hand.page._stop.id
        add_finding(store, stop, PINCHED, "look", looked_n=6)
        add_finding(store, stop, "fruit.seeds_missing_where_thin", "asked", looked_n=3)
        await hand.press("r")
        assert hand.text.split("\n")[0] == "Very likely heat while it was in flower, 8-12 July."
        assert "no leaf was looked at" in hand.text and "How big is the odd fruit?" in hand.text
        first_row = hand.screen.split("\n").index(next(line for line in hand.screen.split("\n") if "1 Heat" in line))
        assert first_row < 18  # the first cause stands on the screen without scrolling
        await hand.press("s", "2")
        assert "How big" not in hand.text and "half grown" in hand.said
        assert "July" not in hand.text.split("\n")[0]  # a half-grown one flowered after the heat
        await hand.press("u")
        assert "8-12 July" in hand.text


async def test_a_cause_is_confirmed_listed_and_taken_back(opening, store) -> None:
    hot_week(store)
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        add_finding(store, hand.page._stop.id, PINCHED, "look", looked_n=6)
        add_finding(store, hand.page._stop.id, "fruit.seeds_missing_where_thin", "asked", looked_n=3)
        await hand.press("r")
        await hand.choose("Heat while it was in flower")
        assert "#####" in hand.text
        await hand.press("c")
        await hand.choose("a plant clinic says so")
        assert "1 of 1; odds at first sight" in hand.said
        assert own_counts(store, "cucumber") == {"heat_misshapen_cucurbit": (1, 1)}
        await hand.press("h")
        assert hand.rows == ["2026-07-22  Cucumber was heat while it was in flower, by a clinic"]
        await hand.choose("Cucumber was heat")
        await hand.choose("Take this one back")
        assert "Nothing confirmed yet." in hand.text
        await hand.press("u")
        assert len(hand.rows) == 1


async def test_the_first_screen_says_which_gaps_are_coming(opening, store) -> None:
    hot_week(store)
    async with opening(PHONE) as hand:
        assert "Gaps after the heat:" in hand.text
        await hand.press("g")
        assert "flowers failed in the heat of 8-12 July" in hand.text
