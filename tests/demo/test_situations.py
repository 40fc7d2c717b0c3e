"""The five situations of the demo garden: what the app says in each of them."""

import csv
import shutil
from collections.abc import Callable
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from scipy import stats

from scout import paths
from scout.intake.walk_file import read_walk
from scout.science.counts import compare_poisson_counts, fisher_exact_two_sided
from scout.services import garden, marked, site
from scout.services.answer_shape import Answer
from scout.services.answering import answer_evidence
from scout.services.backdating import backdated_lines
from scout.services.causes import as_view
from scout.services.context import Context
from scout.services.demo import Replay
from scout.services.evidence import bedside_for, evidence_for
from scout.services.heat import heat_today
from scout.services.keeping_source import followed_in_garden
from scout.services.keeping_up import Judgement, judge
from scout.services.keeping_words import lines_below, verdict_sentence
from scout.services.last_visit import last_visit
from scout.services.plan import walk_plan
from scout.services.stop_facts import facts_of
from scout.services.today import today_view
from scout.tui.app import BedwalkApp

from ..shipped import shipped_knowledge
from ..tui.hand import Hand

SEASON_END = date(2026, 8, 21)
AFTER = [date(2026, 7, 16), date(2026, 7, 17), date(2026, 7, 22), date(2026, 7, 26), date(2026, 8, 5), date(2026, 8, 9)]


@pytest.fixture(scope="module")
def folders(tmp_path_factory: pytest.TempPathFactory) -> dict[date, Path]:
    """The demo replayed once; a copy of its folder as it stood in the evening of each day wanted."""
    top = tmp_path_factory.mktemp("demo")
    replay = Replay(top / "now", paths.demo_folder())
    replay.begin(SEASON_END)
    replay.weather(SEASON_END)
    kept: dict[date, Path] = {}
    for file in sorted((paths.demo_folder() / "walks").glob("*.toml")):
        written = read_walk(file)
        replay.walk(written)
        if written.date in AFTER:
            kept[written.date] = copy_of(top / "now", top / written.date.isoformat())
    replay.close()
    kept[SEASON_END] = top / "now"
    return kept


def copy_of(home: Path, to: Path) -> Path:
    from scout.store.database import back_up

    to.mkdir()
    back_up(paths.database(home), paths.database(to))
    return to


@pytest.fixture
def evening(folders: dict[date, Path], tmp_path: Path) -> Callable[[date], Context]:
    def opened(day: date) -> Context:
        home = Path(shutil.copytree(folders[day], tmp_path / day.isoformat()))
        context = Context(home, on=day)
        context.__dict__["knowledge"] = shipped_knowledge()
        site.open_garden(context)
        return context

    return opened


def answer_at(context: Context, bed: str, crop: str, variety: str | None = None) -> Answer:
    plant = plant_at(context, bed, crop, variety)
    evidence = evidence_for(context, plant)
    return answer_evidence(context.knowledge, evidence, bedside=bedside_for(context, plant, evidence))


def plant_at(context: Context, bed: str, crop: str, variety: str | None = None) -> garden.Planted:
    return next(
        one
        for one in garden.planted(context)
        if one.bed == bed and one.crop.id == crop and variety in (None, one.variety)
    )


def firsts(answer: Answer, count: int = 3) -> list[str]:
    return [cause.id for cause in answer.causes[:count]]


# tapered cucumbers


def test_tapered_cucumbers_are_told_as_heat_at_flowering_and_nothing_living(evening) -> None:
    context = evening(date(2026, 7, 22))
    answer = answer_at(context, "Trellis", "cucumber")
    assert answer.causes[0].id == "heat_misshapen_cucurbit" and answer.cannot_tell is None
    assert answer.called_sick is not None and answer.called_sick < 0.2
    reasons = {clue.id for clue in answer.causes[0].because}
    assert {"hot_days_at_flowering", "hot_nights_at_flowering"} <= reasons
    today = [act.control for act in answer.causes[0].act if act.when == "today"]
    assert "pick_off_misshapen" in today
    assert not [act for act in answer.causes[0].act if act.kind == "labelled" or "feed" in act.control]
    assert any("feed" in text.casefold() for text in answer.causes[0].dont)
    assert any("spray" in text.casefold() for text in answer.causes[0].dont)


def test_the_tapered_cucumbers_are_dated_back_to_the_four_hot_days(evening) -> None:
    context = evening(date(2026, 7, 22))
    cause = context.knowledge.causes["heat_misshapen_cucurbit"]
    plant = plant_at(context, "Trellis", "cucumber")
    lines = backdated_lines(context, plant, cause, evidence_for(context, plant))
    # by the crop's 5-20 days it flowered 2-17 July at a mean of 24 °C; the days since were warmer, so each counts for
    # more than one and the window is shorter; of it 7-17 July are above its 32 °C, 14 July the hottest
    assert lines[0] == "In flower 5 Jul to 18 Jul: hot days while these fruits were in flower"
    assert lines[1] == "..###########."
    assert lines[2] == "# 7-17 July; worst 37 °C, 14 Jul"
    # a flower of 18 July grew 1.0 + 0.93 + 0.89 + 0.89 + 0.95 = 4.66 days' worth by the 22nd, under the least 5; then
    # 1.25 a day (mean of the last fortnight), 13 more days until 20 are passed
    assert lines[-1] == "Fruit of later flowers: from 23 Jul on, all by 5 Aug."


def test_the_next_pick_after_the_cool_week_is_a_real_fall_and_the_tub_is_too_few() -> None:
    # 7 of 19 against 1 of 17, and 1 of 9 against 7 of 19: Fisher's exact test, two-sided; scipy is the reference.
    fell = fisher_exact_two_sided(7, 12, 1, 16)
    assert fell == pytest.approx(stats.fisher_exact([[7, 12], [1, 16]]).pvalue, abs=1e-12)
    assert round(fell, 2) == 0.04
    tub = fisher_exact_two_sided(1, 8, 7, 12)
    assert tub == pytest.approx(stats.fisher_exact([[1, 8], [7, 12]]).pvalue, abs=1e-12)
    assert tub > 0.2


def test_lumpy_beans_of_the_same_week_are_told_as_warm_nights(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 22)), "Bean rows", "snap_bean", "Thimble Green")
    assert answer.causes[0].kind == "heat"


def test_the_weather_of_the_flowering_days_is_in_the_files() -> None:
    with (paths.demo_folder() / "weather_daily.csv").open() as file:
        days = {row["date"]: row for row in csv.DictReader(file)}
    flowering = [days[f"2026-07-{day}"] for day in (11, 12, 13, 14)]
    assert {35.5, 37.0} <= {float(day["tmax_c"]) for day in flowering} <= {35.5, 36.0, 36.5, 37.0}
    assert all(25.0 <= float(day["tmin_c"]) <= 26.0 for day in flowering)
    with (paths.demo_folder() / "weather_hourly.csv").open() as file:
        rainy = [
            row["time"] for row in csv.DictReader(file) if row["time"] < "2026-07-14" and float(row["rain_mm"]) > 0
        ]
    assert [time for time in rainy if time.startswith("2026-07-13")] == [f"2026-07-13 {h:02}:00" for h in range(6, 11)]


# four tomato beds


def lines_of(context: Context, bed: str) -> str:
    return " ".join(marked.marked_table(context, plant_at(context, bed, "tomato").planting_id).lines)


def test_the_kiln_bed_shows_fewer_new_leaves_after_the_stripping(evening) -> None:
    said = lines_of(evening(SEASON_END), "Kiln bed")
    assert "Top leaf: 16 to 26 in 28 days" in said
    assert "Highest spotted leaf: 5 to 8 in 28 days" in said
    assert "12 in 3.0 plant-weeks, then 7 in 6.0 (chance alone: p 0.012)" in said
    # Exact conditional binomial, sum of outcomes no likelier than 12 of 19 at 1/3; scipy is the reference.
    p = stats.binomtest(12, 19, 1 / 3).pvalue
    assert compare_poisson_counts(12, 21, 7, 42).p_least_likely == pytest.approx(p, abs=1e-9)


def test_the_orchard_wall_runs_out_of_clean_leaves_while_what_is_left_looks_better(evening) -> None:
    context = evening(SEASON_END)
    said = lines_of(context, "Orchard wall")
    assert "Top leaf: 15 to 20 in 21 days" in said and "Highest spotted leaf: 4 to 13 in 21 days" in said
    assert "Clean leaves above it: 7" in said
    assert "proves nothing" in said


def test_two_then_five_new_leaves_are_no_difference(evening) -> None:
    assert "2 in 2.0 plant-weeks, then 5 in 2.0 (chance alone: p 0.45)" in lines_of(evening(SEASON_END), "Well bed")


def test_a_bushy_kind_that_finishes_is_measured_as_standing_still(evening) -> None:
    context = evening(SEASON_END)
    assert "+0.00 leaves a day" in lines_of(context, "Lean-to")
    assert plant_at(context, "Lean-to", "tomato").habit == "determinate"


def judged_at(context: Context, bed: str) -> Judgement:
    return judge(followed_in_garden(context, plant_at(context, bed, "tomato")))


def test_the_kiln_bed_keeps_up(evening) -> None:
    told = judged_at(evening(SEASON_END), "Kiln bed")
    assert told.verdict == "keeping_up" and told.clean_depth == 18
    assert any("12 in 3.0 plant-weeks" in line and "7 in 6.0" in line for line in lines_below(told))


def test_the_orchard_wall_loses_and_has_under_six_clean_leaves_in_about_six_days(evening) -> None:
    told = judged_at(evening(SEASON_END), "Orchard wall")
    assert told.verdict == "losing" and told.clean_depth == 7
    assert told.below_six_on is not None and told.last_on is not None
    assert 4 <= (told.below_six_on - told.last_on).days <= 8
    assert not any("everity" in line for line in lines_below(told))


def test_the_well_bed_cannot_be_told_yet_and_says_what_would(evening) -> None:
    told = judged_at(evening(SEASON_END), "Well bed")
    assert told.verdict == "cannot_tell" and told.probability_losing is not None and told.probability_losing < 0.5
    assert "More than six visits at this rate; mark a third plant" in " ".join(lines_below(told))


def test_the_lean_to_stands_still_by_nature(evening) -> None:
    told = judged_at(evening(SEASON_END), "Lean-to")
    assert told.verdict == "cannot_tell" and "standing still is normal" in verdict_sentence(told)
    assert told.below_six_on is None


# limp at half past two


def test_limp_on_moist_soil_in_the_afternoon_is_never_answered_with_water(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 16)), "Squash corner", "summer_squash")
    assert "heat_wilt" in firsts(answer)
    for cause in answer.causes[:5]:
        assert not [act for act in cause.act if act.control == "water_now_at_soil"], cause.id


def test_at_dawn_it_is_three_times_heat_and_one_borer(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 17)), "Squash corner", "summer_squash")
    assert {"squash_vine_borer", "heat_wilt"} == set(firsts(answer, 2))
    assert set(answer.also_together[0].causes) == {"squash_vine_borer", "heat_wilt"}


def test_the_dry_tub_is_watered_at_once(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 16)), "Black tub", "sweet_pepper")
    assert answer.causes[0].id == "water_shortage"
    assert "water_now_at_soil" in [act.control for act in answer.causes[0].act if act.when == "today"]


def test_bitter_on_the_volunteer_is_a_stop_before_any_cause(evening) -> None:
    from scout.diagnosis.evidence import Count, Evidence

    context = evening(date(2026, 7, 16))
    assert not [one for one in garden.planted(context) if one.bed == "Compost edge"]
    answer = answer_evidence(context.knowledge, Evidence("summer_squash", seen={"fruit.bitter_taste": Count(1, 1)}))
    view = as_view(context, answer)
    assert view.stop is not None and not view.causes


# wet, hot picking day


def in_the_morning(context: Context, hour: int, minute: int = 0) -> Context:
    """Set the clock of a context to an hour of its day."""
    context.clock = lambda: datetime(2026, 8, 21, hour, minute, tzinfo=ZoneInfo("America/New_York"))
    return context


def test_the_hot_day_is_called_dangerous_from_the_hour_it_is_so(evening) -> None:
    # NWS procedure: 92 °F and 60 % give a heat index of 105 °F = 40.5 °C, category danger (103-124 °F).
    heat = heat_today(evening(SEASON_END))
    eleven = next(hour for hour in heat.hours if hour.clock_h == 11)
    assert (heat.level, eleven.level, eleven.basis) == ("danger", "danger", "measured")
    assert eleven.index_c == pytest.approx(40.5, abs=0.3)
    assert heat.danger_h is not None and heat.danger_h[0] == 11
    assert "danger from 11:00" in heat.line and any("emergency" in text for text in heat.advice)


def test_thirty_one_stops_in_a_hundred_and_ten_minutes(evening) -> None:
    context = in_the_morning(evening(SEASON_END), 9, 10)
    assert len(walk_plan(context, start=5 * 60 + 30).stops) == 31
    plan = walk_plan(context, 110, dry_from=9 * 60 + 40)  # the dew lay until 9:40
    groups = [stop.group for stop in plan.stops]
    assert plan.minutes <= 110
    assert groups == ["clean"] * 18 + ["spotted"] * 7 + ["suspect"]
    assert plan.stops[-1].bed == "Slate tub"
    assert plan.wash_before == 18 and any("wash hands" in line for line in plan.lines)
    first_sick = plan.stops[18].at.split(":")
    assert int(first_sick[0]) * 60 + int(first_sick[1]) >= 9 * 60 + 40


def test_the_five_stops_left_out_say_why_and_when(evening) -> None:
    plan = walk_plan(in_the_morning(evening(SEASON_END), 9, 10), 110)
    assert len(plan.deferred) == 5 and {stop.group for stop in plan.deferred} == {"clean"}
    for stop in plan.deferred:
        assert stop.deferred_why is not None
        assert stop.deferred_why.startswith("No time before the heat at 11:00; from 20:00. Due: ")


def test_in_the_heat_of_the_day_only_what_cannot_wait_is_left(evening) -> None:
    plan = walk_plan(in_the_morning(evening(SEASON_END), 13))
    assert plan.stops and all(stop.must for stop in plan.stops)
    assert {stop.bed for stop in plan.stops} == {
        "Green tub",
        "Black tub",
        "Step tub",
        "Twin tub",
        "Slate tub",
        "Zinc tub",
    }
    assert plan.stops[0].at == "20:00" and len(plan.stops) + len(plan.deferred) == 31
    assert any(line.startswith("Too hot now") for line in plan.lines)


def test_the_first_screen_has_few_lines_to_know_of(evening) -> None:
    shown = today_view(in_the_morning(evening(SEASON_END), 6, 30))
    assert 1 <= len(shown.alerts) <= 3
    assert shown.alerts[0].text.startswith("Three wet nights since Tuesday: lower tomato leaves")


async def test_the_hot_day_is_walked_in_under_a_hundred_and_sixty_keys(evening, record_property) -> None:
    context = in_the_morning(evening(SEASON_END), 9, 10)
    async with BedwalkApp(context).run_test(size=(45, 20)) as pilot:
        hand = await Hand(pilot).opened()
        await hand.press("w", "m", "1", "1", "0", "enter")
        assert hand.head == "26 stops, about 110 minutes"
        waiting = [row for row in hand.rows if row.startswith("waits: ")]
        wash = next(n for n, row in enumerate(hand.rows) if row.startswith("-- Wash hands"))
        assert (len(waiting), wash) == (5, 18)
        await hand.press("enter")
        assert hand.head.startswith("1/26 ")
        for number in range(26):
            if number in (18, 25):
                await spotted_again(hand)
            else:
                await hand.press("g")
        assert hand.name == "SummaryPage" and hand.head == "Walk done: 26 stops, 24 clear, 2 findings"
    record_property("keys", hand.keys_n)
    assert hand.keys_n <= 160


async def spotted_again(hand: Hand) -> None:
    """Note what is seen at the first look, on every plant, leave the causes for later, and go on."""
    await hand.press("1", "1", "1", "enter")
    while hand.name != "StopPage":
        await hand.press("escape")
    await hand.press("n")


def test_the_bed_with_a_labelled_product_is_not_eaten_before_the_24th(evening) -> None:
    context = evening(SEASON_END)
    facts = facts_of(context, plant_at(context, "Low bed", "summer_squash"))
    assert facts.holds and facts.holds[0].startswith("Do not eat until 24 August")


def test_stripping_is_refused_with_heat_ahead_and_with_wet_leaves(evening) -> None:
    context = evening(SEASON_END)
    answer = answer_at(context, "Kiln bed", "tomato")
    assert answer.causes[0].id == "early_blight"
    assert "strip_lowest_leaves" not in [act.control for act in answer.causes[0].act]


# false alarms


def test_small_spots_cannot_be_told_apart_and_what_to_do_is_the_same(evening) -> None:
    answer = answer_at(evening(date(2026, 8, 5)), "Long row", "tomato")
    assert answer.cannot_tell is not None and answer.cannot_tell.same_action
    assert answer.cannot_tell.look_again_d == 4
    assert {"early_blight", "septoria_leaf_spot", "bacterial_spot"} <= set(answer.cannot_tell.causes)


def test_four_days_later_it_is_septoria(evening) -> None:
    answer = answer_at(evening(date(2026, 8, 9)), "Long row", "tomato")
    assert answer.causes[0].id == "septoria_leaf_spot" and answer.cannot_tell is None
    assert answer.causes[0].look_again_d <= 7


def test_one_papery_blotch_after_a_fierce_day_is_scald_rather_than_late_blight(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 26)), "South frame", "tomato")
    order = [cause.id for cause in answer.causes]
    assert order[0] == "sunscald" and order.index("late_blight") > 3
    assert not [act for act in answer.causes[0].act if "pull" in act.control]
    plant = plant_at(evening(SEASON_END), "South frame", "tomato")
    assert plant.plants_n == 12


def test_cupped_peppers_with_mites_under_the_lens_are_no_virus(evening) -> None:
    answer = answer_at(evening(date(2026, 8, 5)), "Step tub", "sweet_pepper")
    assert answer.causes[0].id == "broad_mite"
    viral = [cause for cause in answer.causes if cause.kind == "viral"]
    assert max(cause.probability for cause in viral) < 0.3
    assert not [act for cause in viral for act in cause.act if act.control == "pull_and_bag"]


def test_nothing_on_six_plants_could_still_be_up_to_39_percent(evening) -> None:
    context = evening(date(2026, 8, 5))
    said = last_visit(context, plant_at(context, "Twin tub", "sweet_pepper").planting_id)
    assert "0 of 6 (could still be up to 39 %)" in said[0]


# the data itself


def test_the_garden_is_as_large_as_it_says() -> None:
    from scout.intake.garden_file import read_garden

    read = read_garden(paths.demo_folder() / "garden.toml")
    kinds = [bed.kind for bed in read.beds]
    assert kinds.count("bed") >= 14 and kinds.count("tub") >= 5
    walks = sorted((paths.demo_folder() / "walks").glob("*.toml"))
    assert len(walks) >= 16
    assert read.garden.latitude is None


def test_no_day_of_weather_is_missing() -> None:
    with (paths.demo_folder() / "weather_daily.csv").open() as file:
        days = [date.fromisoformat(row["date"]) for row in csv.DictReader(file)]
    assert days == [date(2026, 5, 1) + timedelta(days=n) for n in range(123)]
