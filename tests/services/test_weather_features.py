"""Wet hours, bee hours and soil water worked out from the records; what is missing stays missing."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest

from scout.diagnosis.evidence import Day
from scout.services import answers, walk, weather_features
from scout.services.garden import planted
from scout.services.plan import walk_plan
from scout.services.weather_features import with_features
from scout.services.weather_hours import import_hours_file

TODAY = date(2026, 7, 22)


def plant_of(context, crop: str):
    return next(one for one in planted(context) if one.crop.id == crop)


def hot_dry(days_n: int) -> list[Day]:
    """Days of 34/22 °C without rain up to today."""
    first = TODAY - timedelta(days=days_n - 1)
    return [Day(first + timedelta(days=n), 34.0, 22.0, 0.0) for n in range(days_n)]


@pytest.fixture
def at_40_north(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(weather_features, "latitude_of", lambda _: 40.0)


def water(context, clock, day: date, outcome: str = "watered") -> None:
    clock.on(day.month, day.day)
    walk.start(context, walk_plan(context).stops)
    while (stop := walk.current_stop(context)) is not None and stop.crop_id != "cucumber":
        walk.skip_stop(context, stop.id)
    answers.log_watering(context, stop.id, outcome)
    walk.finish(context)
    clock.on(7, 22)


def test_hours_tell_wet_hours_and_bee_hours_of_a_whole_day_alone(context, tmp_path) -> None:
    rows = ["time,temp_c,rh_pct,rain_mm,wind_ms"]
    rows += [f"2026-07-21T{hour:02d}:00,{18 if hour < 9 else 27},{95 if hour < 9 else 55},0,2" for hour in range(24)]
    rows += [f"2026-07-22T{hour:02d}:00,18,95,0,2" for hour in range(6)]
    file = tmp_path / "hours.csv"
    file.write_text("\n".join(rows) + "\n", encoding="utf-8")
    import_hours_file(context, file)
    days = with_features(context, plant_of(context, "cucumber"), [Day(date(2026, 7, 21)), Day(TODAY)])
    assert (days[0].wet_h, days[0].bee_hours_h) == (9.0, 6.0)
    assert (days[1].wet_h, days[1].bee_hours_h) == (None, None)


def test_measured_wet_hours_are_kept(context) -> None:
    (day,) = with_features(context, plant_of(context, "cucumber"), [Day(TODAY, wet_h=4.0)])
    assert day.wet_h == 4.0


def test_without_a_watering_log_or_latitude_nothing_is_told_of_the_soil(context, clock, at_40_north) -> None:
    assert {day.soil_water for day in with_features(context, plant_of(context, "cucumber"), hot_dry(10))} == {None}


def test_a_bed_without_latitude_stays_unknown(context, clock) -> None:
    water(context, clock, date(2026, 7, 15))
    assert {day.soil_water for day in with_features(context, plant_of(context, "cucumber"), hot_dry(10))} == {None}


def test_soil_is_known_from_the_first_filling_on_and_dries(context, clock, at_40_north) -> None:
    water(context, clock, date(2026, 7, 15))
    shares = [day.soil_water for day in with_features(context, plant_of(context, "cucumber"), hot_dry(10))]
    assert shares[:2] == [None, None]
    assert all(later < earlier for earlier, later in pairwise(shares[2:]))
    # Hargreaves at 40° N in July (FAO-56 eq. 52): about 6.8 mm a day by 1.05 off 75 mm
    assert shares[2] == pytest.approx(1.0 - 7.0 / 75.0, abs=0.01)


def test_a_day_without_rain_recorded_breaks_the_account_until_the_next_filling(context, clock, at_40_north) -> None:
    water(context, clock, date(2026, 7, 15))
    days = hot_dry(10)
    days[5] = replace(days[5], rain_mm=None)
    shares = [day.soil_water for day in with_features(context, plant_of(context, "cucumber"), days)]
    assert shares[4] is not None and shares[5:] == [None] * 5


def test_water_noted_for_one_zone_tells_nothing_of_another(context, clock, at_40_north) -> None:
    water(context, clock, date(2026, 7, 15))
    days = with_features(context, plant_of(context, "beet"), hot_dry(10))
    assert {day.soil_water for day in days} == {None}
