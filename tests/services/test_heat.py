"""The heat for the person: what is known, what is estimated, and what is said of it."""

from datetime import date

from scout.services import walk
from scout.services.heat import FIRST_AID, heat_today, hour_lines, person_lines, used_to_heat
from scout.services.plan import walk_plan
from scout.services.weather import type_forecast, type_line
from scout.services.weather_files import Said, look_into, take_in

from ..small_garden import Clock


def hours_file(tmp_path, *rows: str):
    file = tmp_path / "hours.csv"
    file.write_text("time,temp_c,rh_pct\n" + "\n".join(rows) + "\n", encoding="utf-8")
    return file


def take_hours(context, file, issued_at=None) -> None:
    take_in(context, look_into(context, file, Said(hourly=True, issued_at=issued_at)))


def test_without_weather_nothing_is_claimed(context) -> None:
    heat = heat_today(context)
    assert (heat.level, heat.hours, heat.danger_h) == ("unknown", (), None)
    assert "no weather is known" in heat.line


def test_from_high_and_low_every_hour_is_an_estimate_and_says_so(context) -> None:
    type_line(context, "36 25 0 dry")
    heat = heat_today(context)
    assert {hour.basis for hour in heat.hours} == {"estimated"}
    assert "estimated from today's high and low" in heat.line
    assert all(line.endswith("(est.)") for line in hour_lines(context, heat))


def test_yesterday_stands_in_with_its_name(context, clock: Clock) -> None:
    type_line(context, "31 20 0 dry")
    clock.on(7, 23)
    assert "estimated from yesterday" in heat_today(context).line


def test_a_forecast_high_goes_before_yesterday(context, clock: Clock) -> None:
    type_line(context, "24 15 0 dry")
    clock.on(7, 23)
    type_forecast(context, date(2026, 7, 23), 37.0)
    assert "estimated from the forecast" in heat_today(context).line


def test_a_cool_forecast_after_a_warm_night_is_still_told(context, clock: Clock) -> None:
    type_line(context, "30 22 0 dry")
    clock.on(7, 23)
    type_forecast(context, date(2026, 7, 23), 20.0)
    assert heat_today(context).level == "none"


def test_measured_hours_go_before_everything(context, tmp_path) -> None:
    # 92 °F and 60 %: heat index 105 °F, danger (NWS procedure; NOAA classes).
    take_hours(context, hours_file(tmp_path, "2026-07-22 10:00,29,60", "2026-07-22 11:00,33.3,60"))
    heat = heat_today(context)
    assert heat.level == "danger" and heat.danger_h is not None and heat.danger_h[0] == 11
    assert "measured, for 2 hours only" in heat.line


def test_at_danger_the_plan_keeps_what_cannot_wait_and_names_the_cool_hour(context, tmp_path, clock: Clock) -> None:
    rows = [f"2026-07-22 {hour}:00,{36 if 11 <= hour < 18 else 25},55" for hour in range(10, 21)]
    clock.on(7, 22, 12)
    take_hours(context, hours_file(tmp_path, *rows[:2]))
    take_in(
        context, look_into(context, hours_file(tmp_path, *rows[2:]), Said(hourly=True, issued_at="2026-07-22T06:00"))
    )
    plan = walk_plan(context)
    assert all(stop.must for stop in plan.stops)
    assert len(plan.stops) + len(plan.deferred) == 5 and plan.deferred
    assert all(str(stop.deferred_why).startswith("Too hot now; from 18:00") for stop in plan.deferred)


def test_a_morning_walk_ends_before_the_danger(context, tmp_path, clock: Clock) -> None:
    rows = [f"2026-07-22 {hour}:00,{36 if hour >= 11 else 25},55" for hour in range(6, 21)]
    clock.on(7, 22, 10)
    take_hours(context, hours_file(tmp_path, *rows[:4]))
    take_in(
        context, look_into(context, hours_file(tmp_path, *rows[4:]), Said(hourly=True, issued_at="2026-07-22T06:00"))
    )
    plan = walk_plan(context, start=10 * 60 + 55)
    assert plan.minutes <= 5.0 and plan.deferred


def test_who_is_new_to_the_heat_is_told_how_long(context, clock: Clock) -> None:
    # NIOSH: a fifth of the day on the first day of heat, a fifth more a day; 7 to 14 days to get used to it.
    assert "at most 96 minutes" in used_to_heat(context)
    for day in range(10, 18):
        clock.on(7, day, 8)
        type_line(context, "35 24 0 dry")
        walk.start(context, walk_plan(context, everything=True, start=360).stops)
        walk.finish(context)
    clock.on(7, 18)
    assert used_to_heat(context).startswith("You walked on 8 hot days") and "NIOSH" not in used_to_heat(context)


def test_first_aid_sends_to_the_emergency_service_and_is_no_medical_advice(context) -> None:
    type_line(context, "36 25 0 dry")
    told = person_lines(context, heat_today(context))
    assert set(FIRST_AID) <= set(told)
    assert "Call the emergency number at once" in FIRST_AID[0] and "Nothing to drink while confused" in FIRST_AID[0]
    assert "no medical advice" in FIRST_AID[-1]
