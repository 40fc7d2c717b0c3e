"""Soil water worked out from rain, heat and the watering log; what is missing stays missing."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest

from scout.diagnosis.evidence import Day
from scout.services import answers, walk, weather_features
from scout.services.weather_features import with_features

from ..small_garden import plant_of, stop_at

TODAY = date(2026, 7, 22)


def hot_dry(days_n: int) -> list[Day]:
    """Days of 34/22 °C without rain up to today."""
    first = TODAY - timedelta(days=days_n - 1)
    return [Day(first + timedelta(days=n), 34.0, 22.0, 0.0) for n in range(days_n)]


@pytest.fixture
def at_40_north(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(weather_features, "latitude_of", lambda _: 40.0)


def water(context, clock, day: date, outcome: str = "watered") -> None:
    clock.on(day.month, day.day)
    answers.log_watering(context, stop_at(context).id, outcome)
    walk.finish(context)
    clock.on(7, 22)


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
    # FAO-56: eq. 52 gives 6.04 mm at 40° N in mid July (Ra 40.6 MJ by eq. 21); a bearing cucumber drinks as much
    # (table 12, 1.0) out of 0.7 m of loam (table 22) at 150 mm a metre.
    assert shares[2] == pytest.approx(1.0 - 6.04 / 105.0, abs=0.001)


def test_a_tub_is_dry_while_a_bed_is_still_half_full(context, clock, at_40_north) -> None:
    water(context, clock, date(2026, 7, 15))
    plant = plant_of(context, "cucumber")
    bed, tub = (
        [day.soil_water for day in with_features(context, replace(plant, bed_kind=kind), hot_dry(8))]
        for kind in ("bed", "tub")
    )
    # From the same figures: 6.04 mm off 25 mm on the first day; eight days of it off 105 mm
    assert tub[0] == pytest.approx(1.0 - 6.04 / 25.0, abs=0.005)
    assert bed[-1] == pytest.approx(1.0 - 8.0 * 6.04 / 105.0, abs=0.005)
    assert tub[-1] < 0.1


def test_rain_alone_makes_the_soil_known_once_it_filled_it_from_dry(context, clock, at_40_north) -> None:
    water(context, clock, date(2026, 7, 12), "missed")
    days = hot_dry(10)
    for wet in (3, 4):
        days[wet] = replace(days[wet], rain_mm=60.0)
    shares = [day.soil_water for day in with_features(context, plant_of(context, "cucumber"), days)]
    assert shares[:4] == [None] * 4
    assert shares[4] == 1.0 and shares[5] is not None and shares[5] < 1.0


def test_a_young_planting_drinks_less(context, clock, at_40_north) -> None:
    water(context, clock, date(2026, 7, 15))
    plant = plant_of(context, "cucumber")
    young = replace(plant, sown_on="2026-07-10", set_out_on=None)
    (old_share, young_share) = (with_features(context, one, hot_dry(8))[-1].soil_water for one in (plant, young))
    assert old_share is not None and young_share is not None and young_share > old_share + 0.1


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
