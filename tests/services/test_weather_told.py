"""Days told by the hours of a station; what a daily record says goes first, what is missing stays missing."""

from datetime import date

import pytest

from scout.diagnosis.conditions import conditions_on
from scout.services.evidence import evidence_for
from scout.services.weather import days_between, last_days
from scout.services.weather_files import Said, look_into, take_in

from ..small_garden import plant_of

TODAY = date(2026, 7, 22)
HEAD = "time,temp_c,rh_pct,rain_mm,wind_ms"


@pytest.fixture
def hours_of(context, tmp_path):
    """Take hourly rows in for a station."""

    def taken(rows: list[str], station: str = "here") -> None:
        file = tmp_path / f"{station}.csv"
        file.write_text("\n".join([HEAD, *rows]) + "\n", encoding="utf-8")
        take_in(context, look_into(context, file, Said(station=station, hourly=True)))

    return taken


def day_rows(day: int, *, damp_until: int = 9, rain: str = "0", t_c: float = 27.0, hours: int = 24) -> list[str]:
    """Hours of a July day, 18 °C at 95 % until `damp_until`, dry air after it."""
    return [
        f"2026-07-{day:02d}T{h:02d}:00,{18 if h < damp_until else t_c},{95 if h < damp_until else 55},{rain},2"
        for h in range(hours)
    ]


def test_a_day_known_by_its_hours_alone_is_a_day(context, hours_of) -> None:
    hours_of(day_rows(21, t_c=35.5))
    (day,) = [day for day in days_between(context, date(2026, 7, 21), date(2026, 7, 21))]
    assert (day.tmax_c, day.tmin_c, day.rain_mm, day.wet_h, day.bee_hours_h) == (35.5, 18.0, 0.0, 9.0, 6)
    line = next(line for line in last_days(context) if line.on == day.on)
    assert (line.tmax_c, line.basis) == (35.5, "hours")
    assert last_days(context)[2].basis is None


def test_a_part_of_a_day_tells_only_of_its_night(context, hours_of) -> None:
    hours_of([*day_rows(21), *day_rows(22, hours=10)])
    today = days_between(context, TODAY, TODAY)[-1]
    assert (today.tmax_c, today.wet_h, today.bee_hours_h) == (None, None, None)
    assert today.wet_night_h == 9.0


def test_what_the_daily_record_says_is_kept(context, hours_of) -> None:
    from scout.store.weather import set_day

    with context.write() as tx:
        set_day(tx, station="here", on="2026-07-21", kind="observed", basis="typed", tmax_c=33.0, wet_h=4.0)
    hours_of(day_rows(21))
    (day,) = days_between(context, date(2026, 7, 21), date(2026, 7, 21))
    assert (day.tmax_c, day.tmin_c, day.wet_h) == (33.0, 18.0, 4.0)
    # 4 h at 18 °C: severity value 1 (Madden et al. 1978)
    assert day.leaf_spot_n == 1.0


def test_the_garden_s_own_station_goes_before_another(context, hours_of) -> None:
    hours_of(day_rows(21, t_c=40.0), "airport")
    hours_of(day_rows(21, t_c=30.0), "here")
    hours_of(day_rows(20, t_c=41.0), "airport")
    found = {day.on.day: day.tmax_c for day in days_between(context, date(2026, 7, 20), date(2026, 7, 21))}
    assert found == {20: 41.0, 21: 30.0}


def test_hours_without_rain_readings_tell_nothing_of_rain_or_bees(context, hours_of) -> None:
    hours_of(day_rows(21, rain=""))
    (day,) = days_between(context, date(2026, 7, 21), date(2026, 7, 21))
    assert (day.rain_mm, day.bee_hours_h, day.wet_h) == (None, None, 9.0)


def test_rain_of_readings_within_the_hour_is_told_only_where_there_was_none(context, hours_of) -> None:
    hours_of(
        [row for h in range(24) for row in (f"2026-07-21T{h:02d}:00,20,60,0,2", f"2026-07-21T{h:02d}:30,20,60,0,2")]
    )
    (day,) = days_between(context, date(2026, 7, 21), date(2026, 7, 21))
    assert (day.rain_mm, day.wet_h) == (0.0, 0.0)
    hours_of(["2026-07-21T05:00,20,60,0.5,2", "2026-07-21T05:30,20,60,0.7,2"], "other")
    hours_of([row.replace(",0,2", ",0.4,2") for row in day_rows(20)] + ["2026-07-20T05:30,20,60,0.4,2"])
    assert days_between(context, date(2026, 7, 20), date(2026, 7, 20))[0].rain_mm is None


def test_humid_nights_become_infection_weather(context, hours_of) -> None:
    for day in (19, 20, 21):
        hours_of(day_rows(day, damp_until=12))
    found = {day.on.day: day for day in days_between(context, date(2026, 7, 19), date(2026, 7, 21))}
    # 12 h at 95 % and 18 °C: severity value 2 in the class 18-20 °C; Hutton asks for 6 h; downy mildew for 6 h
    # from 10 °C
    assert [found[day].leaf_spot_n for day in (19, 20, 21)] == [2.0, 2.0, 2.0]
    assert [found[day].blight_day for day in (19, 20, 21)] == [True, True, True]
    assert [found[day].downy_night for day in (19, 20, 21)] == [None, True, True]


def test_the_conditions_hear_of_it(context, clock, hours_of) -> None:
    clock.on(7, 22, 23)  # what is still to come is not taken for measured
    for day in range(8, 23):
        hours_of(day_rows(day, damp_until=12))
    days = days_between(context, date(2026, 7, 1), TODAY)
    held = conditions_on(context.knowledge, "cucumber", TODAY, days)
    names = ("wet_nights_lately", "blight_weather_lately", "wet_leaves_lately")
    assert [held[name] for name in names] == [True, True, True]
    plant = plant_of(context)
    assert evidence_for(context, plant).conditions["blight_weather_lately"] is True


def test_without_hours_infection_weather_is_unknown(context) -> None:
    held = conditions_on(context.knowledge, "tomato", TODAY, days_between(context, date(2026, 7, 1), TODAY))
    assert [held[name] for name in ("wet_nights_lately", "blight_weather_lately")] == [None, None]


def test_highs_and_lows_come_from_the_hours_only_where_the_days_lack_them(context, hours_of) -> None:
    from scout.services.weather import highs_and_lows
    from scout.store.weather import set_day

    with context.write() as tx:
        for day, high in ((17, 31.0), (19, 33.0)):
            on = f"2026-07-{day}"
            set_day(tx, station="here", on=on, kind="observed", basis="typed", tmax_c=high, tmin_c=15.0)
    for day in (17, 18, 20, 21):
        hours_of(day_rows(day))
    found = highs_and_lows(context, date(2026, 7, 16), TODAY)
    expected = {17: (15.0, 31.0), 18: (18.0, 27.0), 19: (15.0, 33.0), 20: (18.0, 27.0), 21: (18.0, 27.0)}
    assert {on.day: both for on, both in found.items()} == expected
