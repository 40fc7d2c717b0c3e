"""Days marked one by one, missing ones kept apart, and the fruit of later flowers."""

from datetime import date, timedelta

from scout.diagnosis.backdate import fruit_of_later_flowers, strips
from scout.diagnosis.evidence import Day

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
TODAY = date(2026, 7, 22)
CUCUMBER = KNOWLEDGE.crops["cucumber"]
HEAT = KNOWLEDGE.causes["heat_misshapen_cucurbit"]


def days(hot: set[int], missing: set[int] = frozenset(), forecast: set[int] = frozenset()) -> list[Day]:
    """July of 2026 at 28 °C, some days at 36 °C; the mean is 24 °C, for which the crop's days are told, throughout."""
    return [
        Day(date(2026, 7, n), *((36.0, 12.0) if n in hot else (28.0, 20.0)), 0.0, forecast=n in forecast)
        for n in range(1, 23)
        if n not in missing
    ]


def hot_days(known: list[Day]):
    return next(s for s in strips(KNOWLEDGE, CUCUMBER, HEAT, TODAY, known) if s.condition.id == "hot_days_at_flowering")


def test_the_days_of_flowering_are_marked_one_by_one() -> None:
    strip = hot_days(days({1, 11, 12, 20}))
    assert (strip.days[0], strip.days[-1]) == (TODAY - timedelta(days=20), TODAY - timedelta(days=5))
    assert strip.culprits == (date(2026, 7, 11), date(2026, 7, 12))  # 1 and 20 July lie outside 2-17 July


def test_a_day_without_record_and_a_forecast_are_missing_not_clear() -> None:
    strip = hot_days(days({11}, missing={10}, forecast={11}))
    assert strip.marks[strip.days.index(date(2026, 7, 10))] == "missing"
    assert strip.marks[strip.days.index(date(2026, 7, 11))] == "missing"
    assert strip.culprits == ()


def test_fruit_of_later_flowers_comes_by_the_span_of_the_crop() -> None:
    # cucumber: 5 to 20 days from flower to pick in the crop file, where no weather is known
    window = fruit_of_later_flowers(CUCUMBER, date(2026, 7, 14), TODAY)
    assert (window.first, window.last) == (date(2026, 7, 20), date(2026, 8, 4))


def test_a_crop_that_is_not_picked_from_a_flower_has_no_later_fruit() -> None:
    assert fruit_of_later_flowers(KNOWLEDGE.crops["beet"], TODAY, TODAY) is None
