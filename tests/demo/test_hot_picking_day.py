"""A wet, hot picking day of the demo garden: what fits before the heat, in which order, and what must wait."""

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from scout import paths
from scout.intake.garden_file import read_garden
from scout.services.bed_water import bed_waters
from scout.services.context import Context
from scout.services.heat import heat_today
from scout.services.plan import walk_plan
from scout.services.stop_facts import facts_of
from scout.services.today import today_view
from scout.tui.app import BedwalkApp

from ..tui.hand import Hand
from .planting import SEASON_END, answer_at, plant_at


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


def test_the_beds_whose_timer_failed_have_less_water_than_those_that_were_watered(evening) -> None:
    zones = {one.name: one.water_zone for one in read_garden(paths.demo_folder() / "garden.toml").beds}
    known = [water for water in bed_waters(evening(SEASON_END)) if water.share is not None]
    watered = [water.share for water in known if zones[water.bed] == "north"]
    failed = [water.share for water in known if zones[water.bed] == "west" and water.kind == "bed"]
    assert watered and failed and max(failed) < min(watered)
