"""What the weather did: declared conditions are true, false or unknown, never guessed."""

from datetime import date, timedelta

import pytest

from scout.diagnosis.conditions import conditions_on, season_on
from scout.diagnosis.evidence import Day

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
ON = date(2026, 7, 22)


def days(count: int, **values: float | bool | None) -> list[Day]:
    return [Day(ON - timedelta(days=back), **values) for back in range(count)]


def test_without_weather_everything_is_unknown() -> None:
    assert set(conditions_on(KNOWLEDGE, "cucumber", ON, []).values()) == {None}


def test_a_condition_whose_feature_nobody_recorded_is_unknown_and_never_false() -> None:
    full = days(90, tmax_c=25.0, tmin_c=18.0, rain_mm=0.0, wet_h=0.0, wet_morning=False, rh_mean_pct=60.0)
    recorded = {"tmax_c", "tmin_c", "rain_mm", "wet_h", "wet_morning"}
    held = conditions_on(KNOWLEDGE, "tomato", ON, full)
    unknown = {key for key, condition in KNOWLEDGE.conditions.items() if condition.feature not in recorded}
    assert {key for key, value in held.items() if value is None} == unknown
    assert {"water_swings_while_filling", "few_bee_hours_at_flowering", "blight_weather_lately"} <= unknown
    assert held["hot_days_at_flowering"] is False
    assert held["dry_fortnight"] is True


@pytest.mark.parametrize(
    ("key", "met", "unmet"),
    # A day's value in every day of the window that meets the declared limit, and one that does not. Tomato has all of
    # a crop's limits: days and nights too hot, nights too cool.
    [
        ("hot_days_at_flowering", {"tmax_c": 40.0}, {"tmax_c": 20.0}),
        ("hot_nights_at_flowering", {"tmin_c": 29.0}, {"tmin_c": 15.0}),
        ("hot_nights_in_bud", {"tmin_c": 29.0}, {"tmin_c": 15.0}),
        ("cool_nights_in_bud", {"tmin_c": 4.0}, {"tmin_c": 18.0}),
        ("cool_nights_weeks_before_flower", {"tmin_c": 4.0}, {"tmin_c": 18.0}),
        ("rain_at_flowering", {"rain_mm": 2.0}, {"rain_mm": 1.9}),
        ("few_bee_hours_at_flowering", {"bee_hours_h": 1.0}, {"bee_hours_h": 5.0}),
        ("hot_days_lately", {"tmax_c": 33.0}, {"tmax_c": 32.9}),
        ("very_hot_lately", {"tmax_c": 35.0}, {"tmax_c": 34.9}),
        ("cool_week", {"tmax_c": 24.0}, {"tmax_c": 24.1}),
        ("cold_nights_lately", {"tmin_c": 10.0}, {"tmin_c": 10.1}),
        ("frost_lately", {"tmin_c": 1.0}, {"tmin_c": 1.1}),
        ("hot_nights_lately", {"tmin_c": 29.0}, {"tmin_c": 15.0}),
        ("wet_leaves_lately", {"wet_h": 6.0}, {"wet_h": 5.9}),
        ("wet_nights_lately", {"wet_night_h": 6.0}, {"wet_night_h": 5.0}),
        ("wet_mornings_lately", {"wet_morning": True}, {"wet_morning": False}),
        ("rainy_fortnight", {"rain_mm": 1.0}, {"rain_mm": 0.9}),
        ("dry_fortnight", {"rain_mm": 0.3}, {"rain_mm": 0.4}),
        ("heavy_rain_lately", {"rain_mm": 6.0}, {"rain_mm": 5.0}),
        ("blight_weather_lately", {"blight_day": True}, {"blight_day": False}),
    ],
)
def test_each_condition_is_met_denied_and_unknown(key, met, unmet) -> None:
    assert conditions_on(KNOWLEDGE, "tomato", ON, days(90, **met))[key] is True
    assert conditions_on(KNOWLEDGE, "tomato", ON, days(90, **unmet))[key] is False
    assert conditions_on(KNOWLEDGE, "tomato", ON, days(90))[key] is None


def test_every_declared_condition_is_tried() -> None:
    tried = {row[0] for row in test_each_condition_is_met_denied_and_unknown.pytestmark[0].args[1]}
    assert set(KNOWLEDGE.conditions) - tried == {
        "wet_after_dry",
        "water_swings_while_filling",
        "water_swings_while_young",
    }


def test_a_soaking_after_a_dry_spell() -> None:
    dry = {ON - timedelta(days=back): 0.0 for back in range(14)}
    soaked = dry | {ON: 25.0}
    found = [
        conditions_on(KNOWLEDGE, "cucumber", ON, [Day(on, rain_mm=rain) for on, rain in series.items()])
        for series in (soaked, dry)
    ]
    assert [held["wet_after_dry"] for held in found] == [True, False]


def test_a_swing_of_the_soil_while_the_fruit_filled() -> None:
    full = [Day(ON - timedelta(days=back), soil_water=0.9) for back in range(30)]
    swung = [*full[1:], Day(ON, soil_water=0.4)]
    found = [conditions_on(KNOWLEDGE, "cucumber", ON, series) for series in (swung, full)]
    assert [held["water_swings_while_filling"] for held in found] == [True, False]


def test_a_swing_of_the_soil_counts_for_a_starved_flower_end_only_while_the_fruit_was_young() -> None:
    # A tomato of picking size flowered 45-60 days ago and was young from 55 to 25 days ago: age 5-20 days.
    full = [Day(ON - timedelta(days=back), soil_water=0.9) for back in range(90)]
    early, late = ([day if n != at else Day(day.on, soil_water=0.2) for n, day in enumerate(full)] for at in (40, 10))
    held = [conditions_on(KNOWLEDGE, "tomato", ON, series)["water_swings_while_young"] for series in (early, late)]
    assert held == [True, False]


def test_a_forecast_and_the_days_after_never_serve_as_a_record() -> None:
    hot = [Day(day.on, tmax_c=40.0, tmin_c=28.0, forecast=True) for day in days(30)]
    later = [Day(ON + timedelta(days=n), tmax_c=40.0, tmin_c=28.0) for n in range(1, 5)]
    assert conditions_on(KNOWLEDGE, "cucumber", ON, hot + later)["very_hot_lately"] is None


def test_two_hot_days_in_the_flowering_window_are_enough_though_others_are_missing() -> None:
    # 11-14 July lie 8-11 days before 22 July, inside the 5-20 days from flower to pick of a cucumber
    # (table of market maturity in a general encyclopaedia).
    hot = [Day(date(2026, 7, 11) + timedelta(days=n), tmax_c=36.0, tmin_c=25.5) for n in range(4)]
    held = conditions_on(KNOWLEDGE, "cucumber", ON, hot)
    assert held["hot_days_at_flowering"] is True
    assert held["hot_nights_at_flowering"] is True
    assert held["very_hot_lately"] is None


def test_a_root_crop_has_no_flowering_window() -> None:
    full = days(90, tmax_c=40.0, tmin_c=28.0, rain_mm=0.0)
    assert conditions_on(KNOWLEDGE, "beet", ON, full)["hot_days_at_flowering"] is None


@pytest.mark.parametrize(
    ("on", "season"),
    [
        (date(2026, 5, 1), "early"),
        (date(2026, 6, 4), "early"),
        (date(2026, 6, 5), "high"),
        (date(2026, 8, 28), "high"),
        (date(2026, 8, 29), "late"),
        (date(2026, 10, 28), "late"),
    ],
)
def test_the_season_is_counted_from_the_sites_own_frosts(on, season) -> None:
    # 20 April + 45 days = 4 June; 28 October - 60 days = 29 August: calendar arithmetic.
    assert season_on(KNOWLEDGE, on, "04-20", "10-28") == season


def test_a_southern_garden_counts_over_the_turn_of_the_year() -> None:
    assert season_on(KNOWLEDGE, date(2026, 12, 20), "09-15", "05-10") == "high"
    assert season_on(KNOWLEDGE, date(2027, 4, 1), "09-15", "05-10") == "late"


def test_without_frost_dates_the_season_is_unknown() -> None:
    assert season_on(KNOWLEDGE, ON, None, "10-28") is None
