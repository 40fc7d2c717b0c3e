"""Did the job work: counts before and after, untreated plants, the weather, and the days a disease needs to show."""

import pytest
from scipy import stats

from scout.errors import BadInput
from scout.services import troubles, weather
from scout.services.counting import Count, keep_count, read_count_text
from scout.services.job_outcome import job_outcome
from scout.services.undo import undo
from scout.store import jobs as stored

from ..small_garden import plant_of


def taken(context, crop: str, cause: str, control: str, done: bool = True) -> str:
    plant = plant_of(context, crop)
    troubles.take_control(context, plant.planting_id, plant.bed_id, None, cause, control, "today")
    with context.read() as session:
        job = stored.jobs_of(session=session, planting_id=plant.planting_id)[-1]
    if done:
        troubles.job_done(context, job.id)
    return job.id


def job(context, job_id: str):
    with context.read() as session:
        return stored.job(session=session, job_id=job_id)


def days(context, first: int, last: int, line: str) -> None:
    for day in range(first, last + 1):
        weather.type_line(context, f"2026-07-{day:02d} {line}")


def crushed(context, clock, before: Count, after: Count, there: tuple[Count, Count] | None = None) -> str:
    made = taken(context, "summer_squash", "squash_bug", "crush_eggs")
    keep_count(context, made, "before", before)
    if there:
        keep_count(context, made, "before", there[0], untreated=True)
    clock.on(7, 27)
    keep_count(context, made, "after", after)
    if there:
        keep_count(context, made, "after", there[1], untreated=True)
    return made


def test_eggs_that_are_gone_after_crushing_are_a_yes(context, clock) -> None:
    found = job_outcome(context, crushed(context, clock, Count(14, 6), Count(2, 6)))
    assert (found.verdict, found.why, found.before, found.after) == ("yes", "clear", (14, 6), (2, 6))
    # Exact Poisson comparison of 2 against 14 in equal looks, twice the tail of a binomial(16, 1/2): 137/32768.
    assert found.p == pytest.approx(2 * (1 + 16 + 120) / 65536)
    assert found.lines == (
        "Yes, it worked.",
        "Before: 14 egg groups on 6 plants.",
        "After: 2 egg groups on 6 plants.",
        "Chance alone does as much about 0.4 times in 100.",
        "The weather was not recorded; it may have had a part in it.",
    )


def test_few_are_chance_and_it_says_how_many_to_look_at(context, clock) -> None:
    found = job_outcome(context, crushed(context, clock, Count(5, 6), Count(2, 6)))
    assert (found.verdict, found.why) == ("cannot_tell", "chance")
    assert found.look_at_n and any(f"look at about {found.look_at_n} plants each time" in line for line in found.lines)


def test_a_cool_week_may_explain_the_fall(context, clock) -> None:
    clock.on(7, 27)
    days(context, 14, 22, "34 24 0")
    days(context, 23, 27, "22 14 0")
    clock.on(7, 22)
    found = job_outcome(context, crushed(context, clock, Count(14, 6), Count(2, 6)))
    assert (found.verdict, found.why) == ("cannot_tell", "weather")
    assert "The days after were cooler: mean 29 °C before, 18 °C after." in found.lines
    assert found.weather is not None and found.weather.known


def test_untreated_plants_beside_take_the_weather_out(context, clock) -> None:
    clock.on(7, 27)
    days(context, 14, 22, "34 24 0")
    days(context, 23, 27, "22 14 0")
    clock.on(7, 22)
    there = (Count(13, 6), Count(12, 6))
    found = job_outcome(context, crushed(context, clock, Count(24, 6), Count(2, 6), there))
    assert (found.verdict, found.efficacy_by) == ("yes", "henderson_tilton")
    # Henderson & Tilton 1955 on equal numbers of plants: 1 − 2/24 · 13/12.
    assert found.efficacy_pct == pytest.approx(100 * (1 - 2 / 24 * 13 / 12))
    assert "Untreated plants had the same weather: it is not the weather." in found.lines


def test_steady_weather_is_no_excuse(context, clock) -> None:
    clock.on(7, 27)
    days(context, 14, 27, "30 20 0")
    clock.on(7, 22)
    found = job_outcome(context, crushed(context, clock, Count(14, 6), Count(2, 6)))
    assert found.verdict == "yes" and found.weather is not None and found.weather.helps is None


def test_a_rise_in_a_hot_spell_is_not_held_against_the_job(context, clock) -> None:
    clock.on(7, 27)
    days(context, 14, 22, "22 14 0")
    days(context, 23, 27, "34 24 0")
    clock.on(7, 22)
    found = job_outcome(context, crushed(context, clock, Count(4, 6), Count(19, 6)))
    assert (found.verdict, found.why) == ("cannot_tell", "weather_against")
    assert any("warmer: mean 18 °C before, 29 °C after" in line for line in found.lines)


def test_a_disease_count_before_its_incubation_is_over_tells_nothing(context, clock) -> None:
    made = taken(context, "cucumber", "downy_mildew_cucurbit", "base_watering")
    spots = context.knowledge.causes["downy_mildew_cucurbit"].incubation_d
    assert spots is not None
    keep_count(context, made, "before", Count(30, 5))
    clock.on(7, 23)
    keep_count(context, made, "after", Count(2, 5))
    found = job_outcome(context, made)
    assert (found.verdict, found.why) == ("cannot_tell", "too_early") and found.tells_from > "2026-07-23"
    clock.on(8, 9)
    keep_count(context, made, "after", Count(2, 5))
    assert job_outcome(context, made).verdict == "yes"


def test_more_is_better_for_fruit_pollinated_by_hand(context, clock) -> None:
    made = taken(context, "summer_squash", "poor_pollination_cucurbit", "hand_pollinate")
    keep_count(context, made, "before", Count(2, 12))
    clock.on(7, 27)
    keep_count(context, made, "after", Count(10, 12))
    assert job_outcome(context, made).verdict == "yes"


def test_the_picks_count_themselves(context, clock) -> None:
    from scout.store.tables_log import Pick

    made = taken(context, "cucumber", "poor_pollination_cucurbit", "pick_off_misshapen", done=False)
    plant = plant_of(context)
    with context.write() as tx:
        tx.add(Pick, planting_id=plant.planting_id, sound_n=12, odd_n=7, observed_at="2026-07-22T08:00")
        tx.add(Pick, planting_id=plant.planting_id, sound_n=16, odd_n=1, observed_at="2026-07-26T08:00")
    troubles.job_done(context, made)
    clock.on(7, 28)
    found = job_outcome(context, made)
    assert (found.verdict, found.before, found.after) == ("yes", (7, 19), (1, 17))
    assert found.p == pytest.approx(stats.fisher_exact([[7, 12], [1, 16]]).pvalue)  # two-sided, scipy


def test_what_was_never_counted_is_judged_by_eye(context, clock) -> None:
    made = taken(context, "summer_squash", "squash_bug", "crush_eggs")
    clock.on(7, 27)
    assert job_outcome(context, made).why == "no_before"
    keep_count(context, made, "before", Count(9, 6))
    assert job_outcome(context, made).why == "no_after"
    eye = taken(context, "cucumber", "poor_pollination_cucurbit", "flowers_for_bees")
    found = job_outcome(context, eye)
    assert found.why == "not_counted" and any("It worked when" in line for line in found.lines)
    with pytest.raises(BadInput, match="nothing to count here"):
        keep_count(context, eye, "after", Count(1, 2))


def test_only_untreated_plants_after_still_tell(context, clock) -> None:
    made = taken(context, "summer_squash", "squash_bug", "crush_eggs")
    clock.on(7, 27)
    keep_count(context, made, "after", Count(1, 6))
    keep_count(context, made, "after", Count(12, 6), untreated=True)
    found = job_outcome(context, made)
    assert (found.verdict, found.efficacy_by) == ("yes", "abbott")
    assert found.efficacy_pct == pytest.approx(100 * (12 - 1) / 12)


def test_cannot_tell_comes_up_again_and_no_does_not(context, clock) -> None:
    made = crushed(context, clock, Count(5, 6), Count(2, 6))
    troubles.judged(context, made, "cannot_tell")
    assert job(context, made).look_again_on == "2026-07-30"
    assert [line.look_again for line in troubles.job_lines(context)] == [True]
    troubles.judged(context, made, "no")
    assert troubles.job_lines(context) == ()
    undo(context)
    assert len(troubles.job_lines(context)) == 1


def test_a_job_done_late_is_looked_at_late_and_may_come_again(context, clock) -> None:
    made = taken(context, "summer_squash", "squash_bug", "crush_eggs", done=False)
    assert (job(context, made).due_on, job(context, made).look_again_on) == ("2026-07-22", "2026-07-25")
    clock.on(7, 29)
    troubles.job_done(context, made, again_in_d=3)
    assert job(context, made).look_again_on == "2026-08-01"
    lines = troubles.job_lines(context)
    assert [(line.due_on, line.look_again) for line in lines] == [("2026-08-01", False), ("2026-08-01", True)]
    undo(context)
    assert [line.due_on for line in troubles.job_lines(context)] == ["2026-07-22"]


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("14/6", Count(14, 6)),
        (" 3 of 8 ", Count(3, 8)),
        ("3,0,5", Count(8, 3, (3, 0, 5))),
        ("0 0", Count(0, 2, (0, 0))),
    ],
)
def test_a_count_is_read_as_written(text: str, count: Count) -> None:
    assert read_count_text(text) == count


@pytest.mark.parametrize("text", ["", "14", "3/0", "-1/4", "a/b", "3.5/7"])
def test_a_count_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        read_count_text(text)


def test_nothing_is_counted_after_a_job_that_is_not_done(context) -> None:
    made = taken(context, "cucumber", "aphids", "water_jet", done=False)
    keep_count(context, made, "before", Count(8, 10))
    with pytest.raises(BadInput, match="is not done yet; note it done first"):
        keep_count(context, made, "after", Count(1, 10))


def test_a_share_over_all_is_refused(context) -> None:
    made = taken(context, "cucumber", "aphids", "water_jet")
    with pytest.raises(BadInput, match="11 of 10 tips cannot be"):
        keep_count(context, made, "before", Count(11, 10))
