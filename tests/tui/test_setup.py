"""Setting up a garden by keys; a bed with one planting is a matter of few keys."""

import pytest

from scout.services import garden, site

SECONDS_A_KEY = 2.0
"""A pressed key of this flow, reading included: common practice, no source; a bed under 30 s leaves 15 of them."""


@pytest.fixture
def empty(tmp_path):
    return tmp_path / "new"


async def begin(hand):
    """Answer the five questions about the garden."""
    await hand.press("1")
    await hand.type("Test plot")
    await hand.type("America/Chicago")
    await hand.press("2")
    await hand.type("04-20")
    await hand.type("10-28")


async def test_a_bed_with_one_planting_takes_few_keys(opening, empty, garden_of, record_property) -> None:
    async with opening(folder=empty) as hand:
        assert hand.rows[0] == "Set up my garden"
        await begin(hand)
        assert "Next bed" in hand.head
        hand.keys_n = 0
        await hand.press(*"East", "enter", "1")  # name, bed
        await hand.press(*"cuc")
        assert hand.rows == ["Cucumber"]
        await hand.press("1", "enter", "8", "enter", "3", "2")  # variety not known, 8 plants, 6 weeks ago, own seed
        keys = hand.keys_n
        assert "Next bed" in hand.head
        await hand.press("escape")
        assert hand.name == "TodayPage" and hand.rows[0].startswith("Walk: 1 stop, about")
    record_property("keys_a_bed", keys)
    assert keys * SECONDS_A_KEY <= 30
    store = garden_of(empty)
    (plant,) = garden.planted(store)
    assert (plant.bed, plant.bed_kind, plant.crop.id, plant.plants_n) == ("East", "bed", "cucumber", 8)
    assert (plant.variety, plant.sown_on, plant.origin) == (None, "2026-06-10", "bought_seed")


async def test_what_was_planted_last_autumn_has_its_day_typed(opening, empty, garden_of) -> None:
    async with opening(folder=empty) as hand:
        await begin(hand)
        await hand.press(*"East", "enter", "1", *"garlic", "1", "enter", "9", "enter")
        assert "Garlic: set out when?" in hand.text or "Garlic: sown when?" in hand.text
        await hand.choose("Type the day")
        await hand.type("20 Oct 2030")
        assert hand.name == "TextPage" and "still to come" in hand.said
        await hand.type("20 Oct 2025")
        await hand.press("2")
    (plant,) = garden.planted(garden_of(empty))
    assert "2025-10-20" in (plant.sown_on, plant.set_out_on)


def test_the_zone_of_this_machine_is_suggested_where_it_says(tmp_path, monkeypatch) -> None:
    zone = tmp_path / "zoneinfo" / "Europe" / "Rome"
    zone.parent.mkdir(parents=True)
    zone.touch()
    (tmp_path / "localtime").symlink_to(zone)
    monkeypatch.delenv("TZ", raising=False)
    assert site.machine_zone(tmp_path / "localtime") == "Europe/Rome"
    monkeypatch.setenv("TZ", "America/Chicago")
    assert site.machine_zone(tmp_path / "localtime") == "America/Chicago"
    monkeypatch.setenv("TZ", "EST5EDT")
    assert site.machine_zone(tmp_path / "none") == "UTC"


async def test_the_site_is_kept_as_answered(opening, empty, garden_of) -> None:
    async with opening(folder=empty) as hand:
        await begin(hand)
    made = site.open_garden(garden_of(empty))
    assert (made.name, made.zone, made.units) == ("Test plot", "America/Chicago", "us")
    assert (made.last_frost, made.first_frost) == ("04-20", "10-28")


async def test_letters_narrow_a_long_list_and_rubbed_out_they_widen_it(opening, empty) -> None:
    async with opening(folder=empty) as hand:
        await begin(hand)
        await hand.press(*"East", "enter", "1")
        crops = hand.rows
        await hand.press(*"zucch")
        assert hand.rows == ["Summer squash"]
        await hand.press(*["backspace"] * 5)
        await hand.press(*"SQ")
        assert hand.rows == [name for name in crops if "squash" in name.casefold()]
        await hand.press("z")  # nothing holds "sqz": the letter is not taken
        assert len(hand.rows) == len([name for name in crops if "squash" in name.casefold()])
        await hand.press("backspace", "backspace")
        assert hand.rows == crops and len(crops) > 9


async def test_left_half_way_nothing_is_made(opening, empty, garden_of) -> None:
    async with opening(folder=empty) as hand:
        await hand.press("1")
        await hand.type("Test plot")
        await hand.press("escape")
        assert hand.name == "TodayPage" and hand.rows[0] == "Set up my garden"
    assert site.open_garden(garden_of(empty)) is None


async def test_a_refused_answer_asks_again_with_what_was_given(opening, empty, garden_of) -> None:
    async with opening(folder=empty) as hand:
        await hand.press("1")
        too_long = "plot " * 100
        for answer in (too_long, "America/Chicago", None, "20 April", ""):
            await (hand.press("1") if answer is None else hand.type(answer))
        assert hand.name == "TextPage" and hand.said
        assert hand.line.value == too_long
        await hand.type("Test plot")
        assert hand.line.value == "America/Chicago"
        await hand.press("enter", "1")
        assert hand.line.value == "04-20"
        await hand.press("enter", "enter")
        assert "Next bed" in hand.head
    assert site.open_garden(garden_of(empty)).zone == "America/Chicago"


async def test_an_empty_bed_and_a_tub_are_kept_without_a_planting(opening, empty, garden_of) -> None:
    async with opening(folder=empty) as hand:
        await begin(hand)
        await hand.type("Herb tub")
        await hand.press("2", "escape", "escape")
        assert hand.name == "TodayPage"
    store = garden_of(empty)
    assert [(name, kind) for _, name, kind in garden.bed_names(store)] == [("Herb tub", "tub")]


async def test_a_garden_file_is_taken_in_and_a_mistyped_path_stays_to_be_mended(
    opening, empty, garden_of, tmp_path
) -> None:
    file = tmp_path / "garden.toml"
    file.write_text(
        '[garden]\nname = "From file"\nzone = "UTC"\n\n[[beds]]\nname = "Bed [1]"\n\n'
        '[[plantings]]\nbeds = ["Bed [1]"]\ncrop = "cucumber"\nplants = 6\n',
        encoding="utf-8",
    )
    async with opening(folder=empty) as hand:
        await hand.press("2")
        await hand.type(str(tmp_path / "gardn.toml"))
        assert hand.name == "TextPage" and "gardn.toml" in hand.said
        await hand.type(str(file))
        assert "Taken in: 1 bed, 1 planting." in hand.said
        assert hand.rows[0].startswith("Walk: 1 stop, about")
    assert garden.planted(garden_of(empty))[0].bed == "Bed [1]"


async def test_a_zone_or_a_frost_that_cannot_be_stays_in_its_line_and_a_frost_may_be_said_in_words(
    opening, empty, garden_of
) -> None:
    async with opening(folder=empty) as hand:
        await hand.press("1")
        await hand.type("Plot")
        await hand.type("Chicago")
        assert hand.name == "TextPage" and "is no time zone" in hand.said and hand.line.value == "Chicago"
        await hand.type("america/chicago")
        await hand.press("1")
        await hand.type("sometime")
        assert "is no day of the year" in hand.said and hand.line.value == "sometime"
        await hand.type("20 April")
        await hand.type("Oct 28")
    made = site.open_garden(garden_of(empty))
    assert (made.zone, made.last_frost, made.first_frost) == ("America/Chicago", "04-20", "10-28")
