"""Size and temperature narrow the days on which the fruit in the hand was in flower."""

from datetime import date, timedelta

import pytest

from scout.diagnosis.conditions import conditions_on, window_of
from scout.diagnosis.evidence import Day
from scout.diagnosis.fruit import (
    flowering_of,
    pace_of,
    picking_of,
    size_by_length,
    size_given,
    size_narrows,
)
from scout.science.windows import Window

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
ON = date(2026, 8, 20)
CUCUMBER, TOMATO = KNOWLEDGE.crops["cucumber"], KNOWLEDGE.crops["tomato"]
GROWN = [crop for crop in KNOWLEDGE.crops.values() if crop.growth is not None]


def steady(mean_c: float, days: int = 150, until: date = ON) -> dict[date, Day]:
    """Days with this mean, 6 °C above and below it."""
    dates = [until - timedelta(days=back) for back in range(days)]
    return {on: Day(on, mean_c + 6, mean_c - 6, 0.0) for on in dates}


def ages(crop, mean_c: float, size=None) -> tuple[int, int]:
    """Return the least and most days since the flower."""
    window = flowering_of(crop, ON, pace_of(crop, ON, steady(mean_c)), size)
    return (ON - window.last).days, (ON - window.first).days


@pytest.mark.parametrize(
    ("crop", "least", "most"),
    # Days from flower to harvest: Encyclopaedia Britannica, "Vegetable farming", table of market maturity.
    [
        ("cucumber", 5, 20),
        ("summer_squash", 3, 7),
        ("sweet_pepper", 45, 60),
        ("tomato", 45, 60),
        ("sweet_corn", 20, 27),
    ],
)
def test_without_weather_or_size_the_published_span_stands(crop: str, least: int, most: int) -> None:
    plant = KNOWLEDGE.crops[crop]
    window = flowering_of(plant, ON, pace_of(plant, ON, {}))
    assert window == (ON - timedelta(days=most), ON - timedelta(days=least))
    assert ages(plant, plant.growth.at_c) == (least, most)


@pytest.mark.parametrize(("mean_c", "days"), [(14.0, 95), (18.0, 65), (22.0, 46), (26.0, 42)])
def test_a_ripe_tomato_flowered_as_long_ago_as_was_measured(mean_c: float, days: int) -> None:
    # Adams, Cockshull & Cave 2001, Annals of Botany 88:869-877: flower to ripe fruit at four temperatures. The shape
    # of our pace is theirs, the span of 45-60 days is another's: both must agree at every temperature.
    least, most = ages(TOMATO, mean_c, "fruit_ripe")
    assert least <= days <= most


def test_a_pepper_is_not_ripe_sooner_than_the_fastest_that_was_measured() -> None:
    # Dickson and others 2024, HortScience 59:1293: at most 0.0252 of the way from flower to ripe fruit a day.
    least, _ = ages(KNOWLEDGE.crops["sweet_pepper"], 35.0, "fruit_ripe")
    assert 1 / 0.0252 - 10 <= least <= 1 / 0.0252


@pytest.mark.parametrize("mean_c", [20.0, 24.0, 28.0])
def test_a_full_cucumber_lies_within_the_published_span_and_half_of_it(mean_c: float) -> None:
    # 5-20 days: Encyclopaedia Britannica. Fastest growth about 8 days after pollination, over by 12-16: Ando and
    # others 2012, BMC Genomics 13:518 (greenhouse).
    least, most = ages(CUCUMBER, mean_c, "fruit_full")
    any_size, half = ages(CUCUMBER, mean_c), ages(CUCUMBER, mean_c, "fruit_half")
    assert least >= 5 and most <= 20
    assert most - least <= 0.6 * (any_size[1] - any_size[0])
    assert half[1] - half[0] <= 0.6 * (any_size[1] - any_size[0])
    assert half[0] < least and half[1] < most


def test_the_fastest_growth_of_a_cucumber_is_in_its_half_grown_days() -> None:
    # Ando and others 2012: peak of exponential growth 8 days after pollination, late or past it at 12-16 days.
    half, full = ages(CUCUMBER, 24.0, "fruit_half"), ages(CUCUMBER, 24.0, "fruit_full")
    assert half[0] <= 8 <= half[1] and full[0] <= 12 <= full[1] < 16


def test_market_size_of_squash_lies_within_the_days_found() -> None:
    # Notulae Botanicae 43(2), 2015: market size at 7 days after the flower in two kinds, 9 in a third; greenhouse.
    least, most = ages(KNOWLEDGE.crops["summer_squash"], 24.0, "fruit_full")
    assert least <= 7 and most >= 9


@pytest.mark.parametrize(
    ("crop", "first", "last"),
    # How long after heat at the flower odd fruit is seen, in days: common practice, no source.
    [("tomato", 21, 42), ("snap_bean", 7, 21), ("cucumber", 5, 20), ("sweet_pepper", 28, 56), ("sweet_corn", 20, 27)],
)
def test_half_to_full_fruit_is_seen_when_the_trade_says(crop: str, first: int, last: int) -> None:
    plant = KNOWLEDGE.crops[crop]
    spans = [ages(plant, plant.growth.at_c, size) for size in ("fruit_half", "fruit_full")]
    seen = range(min(s[0] for s in spans), max(s[1] for s in spans) + 1)
    assert (first + last) // 2 in seen
    assert len(set(seen) & set(range(first, last + 1))) >= 0.6 * min(len(seen), last - first + 1)


@pytest.mark.parametrize("crop", GROWN, ids=lambda crop: crop.id)
def test_warmth_brings_the_flower_nearer_and_a_larger_fruit_is_older(crop) -> None:
    warm, cool = ages(crop, 26.0), ages(crop, 18.0)
    assert warm[0] < cool[0] and warm[1] < cool[1]
    by_size = [ages(crop, 24.0, one.size) for one in crop.growth.sizes]
    assert by_size == sorted(by_size) and len({most for _, most in by_size}) == len(by_size)


def test_a_day_without_record_counts_like_the_days_before_it() -> None:
    records = steady(28.0)
    with_gap = {on: day for on, day in records.items() if on.day % 3}
    assert flowering_of(CUCUMBER, ON, pace_of(CUCUMBER, ON, with_gap)) == flowering_of(
        CUCUMBER, ON, pace_of(CUCUMBER, ON, records)
    )


def test_a_length_says_the_size_where_the_crop_tells_it_so() -> None:
    sizes = [size_by_length(CUCUMBER, cm).size for cm in (5, 8, 12, 18, 40)]
    assert sizes == ["fruit_small", "fruit_small", "fruit_half", "fruit_full", "fruit_full"]
    assert size_by_length(TOMATO, 6) is None


def test_the_size_is_asked_only_where_it_narrows() -> None:
    assert size_narrows(CUCUMBER, ON, pace_of(CUCUMBER, ON, steady(24.0)))
    for crop in ("okra", "pea", "melon", "beet"):  # no sizes known, or nothing grows from a flower
        plant = KNOWLEDGE.crops[crop]
        assert not size_narrows(plant, ON, pace_of(plant, ON, steady(24.0)))


def test_heat_before_a_half_grown_cucumber_flowered_is_no_longer_held_against_it() -> None:
    """Two hot days 15-16 days ago: inside the 5-20 days of any fruit, outside the flowering of a half-grown one."""
    hot = {ON - timedelta(days=back) for back in (15, 16)}
    days = [Day(on, 37.0 if on in hot else 29.0, 19.0, 0.0) for on in steady(24.0, 40)]
    assert conditions_on(KNOWLEDGE, "cucumber", ON, days)["hot_days_at_flowering"] is True
    assert conditions_on(KNOWLEDGE, "cucumber", ON, days, "fruit_half")["hot_days_at_flowering"] is False


def test_a_green_tomato_starves_in_its_second_and_third_week_and_a_catface_is_made_weeks_before_the_flower() -> None:
    # Rot of the flower end is set in fruit one to two weeks old: from memory. Catfacing: about three weeks before
    # bloom, University of Florida HS954.
    flowering = Window(date(2026, 7, 10), date(2026, 7, 14))
    young = window_of(KNOWLEDGE.conditions["water_swings_while_young"], TOMATO, ON, flowering)
    assert young.first <= date(2026, 7, 17) and date(2026, 7, 28) <= young.last < ON
    bud = window_of(KNOWLEDGE.conditions["cool_nights_weeks_before_flower"], TOMATO, ON, flowering)
    assert bud.first <= date(2026, 6, 19) and date(2026, 6, 23) <= bud.last < date(2026, 7, 10)


def test_the_newest_size_holds_and_none_is_none() -> None:
    assert size_given({"fruit_half": True, "mulched": True}) == "fruit_half"
    assert size_given({"fruit_half": False}) is None


def test_fruit_of_todays_flowers_comes_sooner_in_warmth() -> None:
    warm = picking_of(TOMATO, ON, pace_of(TOMATO, ON, steady(26.0)))
    cool = picking_of(TOMATO, ON, pace_of(TOMATO, ON, steady(18.0)))
    # Adams and others 2001: 42 days at 26 °C, 65 at 18 °C.
    assert warm.first <= ON + timedelta(days=42) <= warm.last < cool.last
    assert cool.first <= ON + timedelta(days=65) <= cool.last
