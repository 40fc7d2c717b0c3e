"""The few lines of the first screen, and putting one away."""

import pytest

from scout.errors import BadInput
from scout.services import garden, troubles, walk
from scout.services.alerts import MOST, alerts_of, put_away
from scout.services.context import Context
from scout.services.dues import dues
from scout.services.plan import walk_plan
from scout.services.today import today_view
from scout.services.undo import undo
from scout.services.weather import type_line

from ..small_garden import Clock, plant_of


def alerts(context: Context):
    return alerts_of(context, dues(context))


def walked(context: Context) -> None:
    walk.start(context, walk_plan(context, everything=True).stops)
    while (stop := walk.current_stop(context)) is not None:
        walk.clear(context, stop.id, "glance", 2)


@pytest.fixture
def wet(context: Context, clock: Clock) -> Context:
    """A walk, then three wet nights over tomatoes in two beds."""
    for name in ("A", "B"):
        bed = garden.add_bed(context, name)
        garden.add_planting(context, (bed,), "tomato", plants_n=6, set_out_on="2026-05-20")
    walked(context)
    for day in (23, 24, 25):
        clock.on(7, day)
        type_line(context, "28 19 0 wet")
    return context


def test_the_same_weather_over_many_beds_is_one_line(wet) -> None:
    (tomato,) = [alert for alert in alerts(wet) if "tomato" in alert.text]
    assert tomato.text == "Three wet nights since Wednesday: lower tomato leaves — A, B"


def test_on_several_crops_it_is_one_line_that_names_the_crop_due_first(wet, clock: Clock) -> None:
    for day in (26, 27):
        clock.on(7, day)
        type_line(wet, "28 19 0 wet")
    (line,) = [alert for alert in alerts(wet) if alert.title == "Wet nights"]
    assert line.text.startswith("Wet nights: spots may show on cucumber and 2 more — ")


def test_put_away_with_a_reason_it_stays_away_and_is_kept(wet, reopen) -> None:
    (tomato,) = [alert for alert in alerts(wet) if "tomato" in alert.text]
    put_away(wet, tomato, "looked at them from the path")
    assert not [alert for alert in alerts(reopen()) if "tomato" in alert.text]


def test_another_wet_night_does_not_bring_it_back_and_the_next_visit_does(wet, clock: Clock) -> None:
    (tomato,) = [alert for alert in alerts(wet) if "tomato" in alert.text]
    put_away(wet, tomato, "seen to")
    clock.on(7, 26)
    type_line(wet, "28 19 0 wet")
    assert not [alert for alert in alerts(wet) if "tomato" in alert.text]
    walked(wet)
    for day in (27, 28, 29):
        clock.on(7, day)
        type_line(wet, "28 19 0 wet")
    assert [alert for alert in alerts(wet) if "tomato" in alert.text]


def test_without_a_reason_nothing_is_put_away(wet) -> None:
    with pytest.raises(BadInput, match="why it can go"):
        put_away(wet, alerts(wet)[0], "  ")


def test_undo_brings_it_back(wet) -> None:
    (tomato,) = [alert for alert in alerts(wet) if "tomato" in alert.text]
    put_away(wet, tomato, "by mistake")
    undo(wet)
    assert [alert for alert in alerts(wet) if "tomato" in alert.text]


def test_what_was_put_away_is_nobody_s_job(wet) -> None:
    before = len(troubles.job_lines(wet))
    put_away(wet, alerts(wet)[0], "seen to")
    assert len(troubles.job_lines(wet)) == before


def test_a_job_left_for_days_is_a_line_with_its_day(context, clock: Clock) -> None:
    plant = plant_of(context)
    cause = context.knowledge.causes["powdery_mildew_cucurbit"]
    control = cause.do[0].control
    troubles.take_control(context, plant.planting_id, plant.bed_id, None, cause.id, control, "today")
    assert not alerts(context)
    clock.on(7, 25)
    assert alerts(context)[0].text.startswith("Late since 22 July: ")
    assert alerts(context)[0].text.endswith(" — Long bed")


def test_there_are_never_more_than_three(context, clock: Clock) -> None:
    plants = garden.planted(context)
    cause = context.knowledge.causes["powdery_mildew_cucurbit"]
    for plant, act in zip(plants * 2, [act for act in cause.do] * 3, strict=False):
        troubles.take_control(context, plant.planting_id, plant.bed_id, None, cause.id, act.control, "today")
    clock.on(7, 29)
    assert len(alerts(context)) == MOST == len(today_view(context).alerts)
