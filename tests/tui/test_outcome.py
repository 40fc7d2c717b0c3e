"""A job's re-look: counted before and now, answered with figures, said by one key."""

from scout.services import troubles
from scout.services.job_outcome import job_outcome

from ..small_garden import plant_of
from .conftest import PHONE


def take(store) -> str:
    plant = plant_of(store, "summer_squash")
    troubles.take_control(store, plant.planting_id, plant.bed_id, None, "squash_bug", "crush_eggs", "today")
    (job,) = troubles.job_lines(store)
    return job.id


async def test_eggs_are_counted_crushed_counted_again_and_it_worked(opening, store, clock) -> None:
    job = take(store)
    async with opening(PHONE) as hand:
        await hand.press("j", "1", "1", "6", "enter")
        assert "Egg groups on these 6 plants?" in hand.text
        await hand.press("1", "4", "enter")
        assert hand.name == "JobsPage"
    clock.on(7, 27)
    async with opening(PHONE) as hand:
        await hand.press("j", "1")
        assert "Cannot tell yet." in hand.text and "Before: 14 egg groups on 6 plants." in hand.text
        await hand.press("1", "6", "enter", "2", "enter")
        assert "Yes, it worked." in hand.text and "about 0.4 times in 100" in hand.text
        await hand.press("u")
        assert "Yes, it worked." not in hand.text
        await hand.press("1", "6", "enter", "2", "enter", "enter")  # the row of the answer waits under Enter
        assert hand.name == "JobsPage" and hand.rows == []
    assert job_outcome(store, job).verdict == "yes"


async def test_untreated_plants_are_counted_beside(opening, store, clock) -> None:
    job = take(store)
    troubles.job_done(store, job)
    clock.on(7, 27)
    async with opening() as hand:
        await hand.press("j", "1", "1", "6", "enter", "1", "enter", "2", "6", "enter", "1", "2", "enter")
        assert "fewer than untreated (Abbott)" in hand.text
        assert "Untreated plants had the same weather" in hand.text


async def test_jobs_stand_bed_by_bed_and_come_again(opening, store) -> None:
    take(store)
    plant = plant_of(store, "cucumber")
    troubles.take_control(store, plant.planting_id, plant.bed_id, None, "aphids", "water_jet", "today")
    async with opening() as hand:
        await hand.press("j", "b")
        assert [row.split(" · ")[1] for row in hand.rows] == ["Long bed, cucumber", "Short bed, summer squash"]
        await hand.press("1")
        await hand.choose("again in 3 days")
        await hand.press("escape")
        assert sum("25 July" in row for row in hand.rows) == 2
