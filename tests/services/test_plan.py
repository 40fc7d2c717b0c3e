"""The plan of a day in a whole garden: reasons, minutes, clock, dew, what waits."""

from datetime import date

import pytest

from scout.services import answers, garden, holds, marked, troubles, walk
from scout.services.context import Context
from scout.services.dues import dues
from scout.services.outside import note_near_report
from scout.services.plan import coming_lines, hour_lists, next_due, walk_plan
from scout.services.stop_minutes import BACK_D, measured_by_kind
from scout.services.weather import type_line
from scout.store.asking import rows

from ..small_garden import Clock, plant_of, stop_at


def walked_clear(context: Context) -> None:
    """Walk every bed and clear it."""
    walk.start(context, walk_plan(context, everything=True).stops)
    while (stop := walk.current_stop(context)) is not None:
        walk.clear(context, stop.id, "glance", 2)


def sick(context: Context, crop: str, cause: str) -> None:
    """Open a problem on a planting, through a control taken for it."""
    plant = plant_of(context, crop)
    control = context.knowledge.causes[cause].do[0].control
    troubles.take_control(context, plant.planting_id, plant.bed_id, None, cause, control, "season")


def why_of(context: Context, crop: str) -> str:
    plant = plant_of(context, crop)
    return next(due.why for one, due in next_due(context) if one.planting_id == plant.planting_id)


def test_wet_mornings_typed_since_the_last_walk_send_to_the_lower_leaves(context, clock: Clock) -> None:
    walked_clear(context)
    for day in (23, 24, 25):
        clock.on(7, day)
        type_line(context, "30 21 0 wet")
    clock.on(7, 27)
    # Cucumbers are picked every second day, beets never: their wet nights of 23 to 25 July show from the 28th on.
    beet = next(one for one in dues(context) if one.plant.crop.id == "beet")
    assert (beet.due.on, beet.due.why) == (date(2026, 7, 28), "three wet nights since Wednesday: lower beet leaves")


def test_sick_beds_are_walked_after_every_clean_one_and_washed_before(context) -> None:
    sick(context, "cucumber", "powdery_mildew_cucurbit")
    plan = walk_plan(context)
    assert [stop.group for stop in plan.stops] == ["clean"] * 4 + ["spotted"]
    assert plan.stops[-1].bed == "Long bed" and plan.wash_before == 4
    assert [stop.bed for stop in plan.stops[:4]] == ["Short bed", "Mixed bed", "Mixed bed", "Black tub"]


def test_clock_times_follow_the_minutes(context) -> None:
    plan = walk_plan(context, start=6 * 60)
    begun = 6 * 60.0
    for stop in plan.stops:
        hour, minute = stop.at.split(":")
        assert int(hour) * 60 + int(minute) == round(begun)
        begun += stop.minutes
    assert begun > 6 * 60


def test_before_dawn_the_plan_begins_at_five(context, clock: Clock) -> None:
    clock.on(7, 22, 2)
    assert walk_plan(context).stops[0].at == "5:00"


def test_after_a_wet_morning_the_sick_bed_waits_for_dry_leaves(context, clock: Clock) -> None:
    sick(context, "cucumber", "powdery_mildew_cucurbit")
    type_line(context, "29 18 0 wet")
    plan = walk_plan(context, start=6 * 60)
    assert plan.stops[-1].at == "9:30" and plan.wait_min > 0
    assert any("Feel a leaf first" in line for line in plan.lines)


def test_what_the_grower_felt_goes_before_the_estimate(context) -> None:
    sick(context, "cucumber", "powdery_mildew_cucurbit")
    type_line(context, "29 18 0 wet")
    assert walk_plan(context, start=6 * 60, dry_from=8 * 60).stops[-1].at == "8:00"


def test_what_is_left_out_says_why_and_when(context) -> None:
    plan = walk_plan(context, 4.0, start=7 * 60)
    assert plan.minutes <= 4.0 and plan.deferred
    for stop in plan.deferred:
        assert stop.deferred_why == "Not in these 4 minutes; this evening. Due: not looked at yet"


def test_stops_left_for_later_are_not_counted_into_the_walk(context) -> None:
    plan = walk_plan(context, 4.0, start=7 * 60)
    walk.start(context, (*plan.stops, *plan.deferred))
    stop = walk.current_stop(context)
    assert stop is not None and (stop.number, stop.total) == (1, len(plan.stops))
    walk.defer(context, stop.id, "the leaves are wet")
    assert walk.progress(context) in ((1, len(plan.stops)), None)


def test_a_disease_reported_near_by_is_looked_for_daily(context, clock: Clock) -> None:
    walked_clear(context)
    note_near_report(context, "downy_mildew_cucurbit", 20.0)
    clock.on(7, 23)
    due = {one.plant.crop.id: one.due for one in dues(context)}
    assert due["cucumber"].on == date(2026, 7, 23) and due["cucumber"].must
    assert due["cucumber"].why.startswith("downy mildew of cucumber") or "reported near here" in due["cucumber"].why
    assert due["beet"].on > date(2026, 7, 23)


def test_the_garden_s_own_minutes_replace_the_default(context, clock: Clock) -> None:
    assert measured_by_kind(context) == {}
    for day in (22, 23, 24):
        clock.on(7, day, 7)
        walk.start(context, walk_plan(context, everything=True).stops)
        minute = 0
        while (stop := walk.current_stop(context)) is not None:
            minute += 4
            clock.now = clock.now.replace(minute=minute)
            walk.clear(context, stop.id, "glance", 2)
    assert measured_by_kind(context) == {False: 4.0}
    clock.on(7, 30)
    assert {stop.minutes for stop in walk_plan(context).stops} == {4.0}


def test_walks_of_long_ago_are_not_timed(context, clock: Clock) -> None:
    walked_clear(context)
    clock.now = clock.now.replace(month=7 + BACK_D // 30 + 1)
    assert measured_by_kind(context) == {}


def test_limp_by_day_comes_up_on_the_dawn_list(context) -> None:
    assert hour_lists(context) == {"dawn": (), "dark": ()}
    answers.add_finding(context, stop_at(context, "summer_squash").id, "whole_plant.limp_midday", "glance", looked_n=4)
    dawn = hour_lists(context)["dawn"]
    assert dawn and {line.bed for line in dawn} == {"Short bed"}
    assert walk_plan(context).dawn == dawn


def test_the_plan_asks_no_question_for_each_planting(context, monkeypatch: pytest.MonkeyPatch) -> None:
    from scout.store import asking

    asked: list[str] = []

    def counted(door, sql, **given):
        asked.append(sql)
        return rows(door, sql, **given)

    monkeypatch.setattr(asking, "rows", counted)
    walk_plan(context)
    few = len(asked)
    assert few > 5
    bed = garden.add_bed(context, "One more")
    for _ in range(10):
        garden.add_planting(context, (bed,), "beet", plants_n=5)
    asked.clear()
    walk_plan(context)
    assert len(asked) <= few


def test_a_marked_planting_in_two_beds_is_two_stops(context) -> None:
    one, two = garden.add_bed(context, "Left"), garden.add_bed(context, "Right")
    planting = garden.add_planting(context, (one, two), "tomato", plants_n=6, set_out_on="2026-05-20")
    marked.mark_plant(context, planting, "red", "indeterminate")
    assert [stop.bed for stop in walk_plan(context).stops if stop.planting_id == planting] == ["Left", "Right"]


def test_what_is_due_already_is_counted_and_what_comes_later_has_its_date(context) -> None:
    assert coming_lines(context) == ("Due by today: 5 stops; the walk (w) has them.",)
    walk.start(context, walk_plan(context).stops)
    while (stop := walk.current_stop(context)) is not None:
        walk.clear(context, stop.id, "glance", 2)
    head, *later = coming_lines(context)
    assert head == "Due by today: 0 stops; the walk (w) has them." and len(later) == 5
    assert all(" July  " in line for line in later)


def test_a_bed_that_nobody_may_enter_yet_waits_and_says_until_when(context) -> None:
    plant = next(one for one in garden.planted(context) if one.crop.id == "cucumber")
    used = context.here_and_now.replace(tzinfo=None)
    holds.record_hold(context, plant.planting_id, "labelled product", used, 7, 12)
    plan = walk_plan(context)
    assert plant.planting_id not in [stop.planting_id for stop in plan.stops]
    (waits,) = [stop for stop in plan.deferred if stop.planting_id == plant.planting_id]
    assert waits.deferred_why.startswith("Keep out until 23 July 00:00, by the label.")
