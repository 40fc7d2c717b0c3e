"""The pages beside the walk: jobs, weather, beds, what is coming."""

from scout.services import garden, troubles
from scout.services.weather import days_between, last_days

from ..small_garden import plant_of
from .conftest import PHONE


def take(store) -> None:
    plant = plant_of(store, "cucumber")
    troubles.take_control(store, plant.planting_id, plant.bed_id, None, "powdery_mildew_cucurbit", "mulch", "today")


async def test_a_job_is_done_looked_at_again_and_judged(opening, store, clock) -> None:
    take(store)
    async with opening() as hand:
        await hand.press("j", "1")
        await hand.choose("Done now")
        assert "How many plants did you look at?" in hand.text
        await hand.press("escape")
        assert len(hand.rows) == 1 and "look again" in hand.rows[0]
    clock.on(7, 31)
    async with opening() as hand:
        await hand.press("j")
        assert "late" in hand.rows[0]
        await hand.press("1")
        assert "Did it work?" in hand.text and "It worked when:" in hand.text
        await hand.choose("Yes")
        assert hand.rows == []
    assert troubles.open_causes(store, plant_of(store, "cucumber").planting_id) == ()


async def test_a_job_is_left_undone_with_a_reason(opening, store) -> None:
    from scout.store import jobs

    take(store)
    (job,) = troubles.job_lines(store)
    async with opening() as hand:
        await hand.press("2", "1", "2")
        await hand.type("no straw here")
        assert hand.name == "JobsPage" and hand.rows == []
    with store.read() as session:
        kept = jobs.job(session=session, job_id=job.id)
    assert (kept.state, kept.skipped_why) == ("skipped", "no straw here")


async def test_weather_is_typed_in_one_line_with_a_decimal_comma(opening, store) -> None:
    async with opening() as hand:
        await hand.press("e", "1")
        await hand.type("34 22 3,5 wet")
        assert "22 July: max 34 °C, min 22 °C, rain 3.5 mm, wet morning" in hand.said
        row = next(line for line in hand.text.split("\n") if line.startswith("Wed 22"))
        assert row.split() == ["Wed", "22", "34.0", "22.0", "3.5", "wet", "typed", "hot"]
        assert "missing" in next(line for line in hand.text.split("\n") if line.startswith("Tue 21"))
    (today,) = days_between(store, store.today, store.today)
    assert (today.tmax_c, today.tmin_c, today.rain_mm, today.wet_morning) == (34.0, 22.0, 3.5, True)


async def test_weather_that_cannot_be_read_stays_in_the_line_to_be_mended(opening, store) -> None:

    async with opening() as hand:
        await hand.press("e", "1")
        await hand.type("hot and dry")
        assert hand.name == "TextPage" and hand.said
        assert hand.line.value == "hot and dry"
        await hand.type("31 18")
        assert hand.name == "WeatherPage" and "31.0" in hand.text
    assert last_days(store)[0].tmax_c == 31.0


async def test_a_forecast_is_never_a_measurement(opening, store) -> None:
    async with opening() as hand:
        await hand.press("e", "2", "3", "8", "enter", "enter")
        assert hand.name == "WeatherPage" and "38" not in hand.text.split("underline")[-1]
    assert days_between(store, store.today, store.today) == ()


async def test_a_weather_file_is_shown_as_understood_before_it_is_taken_in(opening, store, tmp_path) -> None:
    file = tmp_path / "days.csv"
    file.write_text("date,tmax_c,tmin_c,rain_mm\n2026-07-20,33,21,0\n2026-07-21,34.5,22,x\n", encoding="utf-8")
    async with opening() as hand:
        await hand.press("e", "3")
        await hand.type(str(tmp_path / "none.csv"))
        assert hand.name == "TextPage" and "none.csv" in hand.said
        await hand.type(str(file))
        await hand.until(lambda: hand.name != "WorkPage")
        assert hand.name == "ChoicePage" and "1 days read, 1 refused." in hand.text
        assert days_between(store, store.today.replace(day=20), store.today) == ()
        await hand.press("1")
        await hand.until(lambda: hand.name != "WorkPage")
        assert hand.name == "WeatherPage" and "33.0" in hand.text


async def test_on_a_phone_letters_stand_for_what_stands_out_and_nothing_is_cut_off(opening, store) -> None:
    async with opening(PHONE) as hand:
        await hand.press("e", "1")
        await hand.type("34 22 3,5 wet")
        row = next(line for line in hand.text.split("\n") if line.startswith("Wed 22"))
        assert row.split() == ["Wed", "22", "34.0", "22.0", "3.5", "wet", "t", "H"]
        assert "H: 33 °C or more" in hand.text and "13 of 13 days are missing" in hand.text
        assert all(len(line) <= 42 for line in hand.text.split("\n") if line[:3] in ("Wed", "Tue", "day"))


async def test_pests_by_warmth_and_water_in_the_beds_are_pages_of_the_weather(opening, store) -> None:
    from scout.services.site import latitude_of

    async with opening(PHONE) as hand:
        await hand.press("e", "4")
        assert hand.head == "Pests by warmth" and "Squash vine borer" in hand.text and "an estimate" in hand.text
        await hand.press("escape", "5")
        assert hand.head == "Water in the beds" and "latitude is not set" in hand.text
        await hand.press("1")
        await hand.type("91")
        assert "between -90 and 90" in hand.said
        await hand.type("40")
        assert hand.head == "Water in the beds" and hand.rows == [] and "nobody noted water" in hand.text
    assert latitude_of(store) == 40.0


async def test_beds_show_what_stands_where_and_its_stage_can_be_set(opening, store) -> None:
    async with opening() as hand:
        await hand.press("b")
        assert hand.rows[0] == "Long bed · Cucumber Testina × 8 · fruiting"
        await hand.press("1", "2")
        await hand.choose("first flowers")
        assert "· flowering" in hand.rows[0]
    assert plant_of(store, "cucumber").stage == "flowering"


async def test_an_empty_bed_is_listed_and_can_be_planted(opening, store) -> None:
    garden.add_bed(store, "New bed")
    async with opening() as hand:
        await hand.press("b")
        await hand.choose("New bed (bed) · empty")
        await hand.choose("Beet")
        await hand.press("enter", "9", "enter", "1", "2", "escape")
        assert any(row.startswith("New bed · Beet × 9") for row in hand.rows)


async def test_a_bed_name_in_use_is_asked_again_with_what_was_typed(opening, store) -> None:

    async with opening() as hand:
        await hand.press("b")
        await hand.choose("Add a bed")
        await hand.type("Long bed")
        await hand.press("1")
        assert hand.name == "TextPage" and "There is a bed named 'Long bed' already" in hand.said
        assert hand.line.value == "Long bed"
    assert len(garden.bed_names(store)) == 4


async def test_what_falls_due_next_is_listed_by_day(opening) -> None:
    async with opening() as hand:
        await hand.choose("Nothing due tomorrow")
        assert hand.head == "Next looks" and hand.text == "Due by today: 5 stops; the walk (w) has them."
        await hand.press("enter")
        assert hand.name == "TodayPage"
