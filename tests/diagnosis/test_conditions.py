"""What the weather did: declared conditions are true, false or unknown, never guessed."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from scout.diagnosis.conditions import conditions_on, season_on
from scout.diagnosis.evidence import Day
from scout.knowledge.load import load_knowledge

KNOWLEDGE = load_knowledge(Path(__file__).parents[2] / "knowledge")
ON = date(2026, 7, 22)


def days(count: int, **values: float | bool | None) -> list[Day]:
    return [Day(ON - timedelta(days=back), **values) for back in range(count)]


def test_without_weather_everything_is_unknown() -> None:
    assert set(conditions_on(KNOWLEDGE, "cucumber", ON, []).values()) == {None}


def test_a_condition_that_cannot_be_computed_yet_is_unknown_and_never_false() -> None:
    full = days(60, tmax_c=25.0, tmin_c=18.0, rain_mm=0.0, wet_h=0.0, wet_morning=False, rh_mean_pct=60.0)
    held = conditions_on(KNOWLEDGE, "cucumber", ON, full)
    for key, condition in KNOWLEDGE.conditions.items():
        if condition.feature == "soil_water":
            assert held[key] is None
    assert held["hot_days_at_flowering"] is False
    assert held["dry_fortnight"] is True


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
