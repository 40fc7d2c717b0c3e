"""Counting back from the fruit to its flower, and forward from the flower to the fruit."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.windows import (
    Window,
    bud_window,
    flowering_window,
    last_n_days,
    picking_window,
)

days = st.dates(date(2000, 1, 1), date(2100, 1, 1))
spans = st.tuples(st.integers(0, 120), st.integers(0, 120)).map(lambda pair: (min(pair), max(pair)))


def test_a_cucumber_in_the_hand_flowered_five_to_twenty_days_ago() -> None:
    # Days from flower to harvest, cucumber 5-20: Encyclopaedia Britannica, "Vegetable farming".
    assert flowering_window(date(2026, 7, 20), (5, 20)) == (date(2026, 6, 30), date(2026, 7, 15))


def test_tomato_flowers_lost_in_a_heat_wave_are_missed_six_to_nine_weeks_later() -> None:
    # Tomato 45-60 days (same table); heat from 1 to 7 July.
    lost = Window(date(2026, 7, 1), date(2026, 7, 7))
    assert picking_window(lost, (45, 60)) == (date(2026, 8, 15), date(2026, 9, 5))


def test_buds_count_the_days_before_each_flower_opened() -> None:
    # Snap bean flowers are harmed from about ten days before opening (extension bulletins).
    flowering = Window(date(2026, 7, 10), date(2026, 7, 13))
    assert bud_window(flowering, 10) == (date(2026, 6, 30), date(2026, 7, 12))
    assert bud_window(Window(date(2026, 7, 10), date(2026, 7, 10)), 1) == (date(2026, 7, 9), date(2026, 7, 9))
    assert bud_window(flowering, 0) is None


def test_the_last_days_include_today_and_cross_months_and_leap_days() -> None:
    assert last_n_days(date(2026, 7, 20), 1) == (date(2026, 7, 20), date(2026, 7, 20))
    assert last_n_days(date(2028, 3, 2), 7) == (date(2028, 2, 25), date(2028, 3, 2))
    assert last_n_days(date(2026, 3, 2), 7).days()[0] == date(2026, 2, 24)


def test_part_days_widen_the_window() -> None:
    assert flowering_window(date(2026, 7, 20), (3.5, 7.5)) == (date(2026, 7, 12), date(2026, 7, 17))


@given(days, st.integers(1, 60))
def test_a_window_lists_each_day_once_in_order(on: date, days_n: int) -> None:
    listed = last_n_days(on, days_n).days()
    assert listed == sorted(set(listed))
    assert (len(listed), listed[-1]) == (days_n, on)


@given(days, spans)
def test_forward_undoes_backward(on: date, span: tuple[int, int]) -> None:
    flowering = flowering_window(on, span)
    picking = picking_window(flowering, span)
    assert picking.first <= on <= picking.last
    assert (flowering.last - flowering.first) == timedelta(days=span[1] - span[0])


@pytest.mark.parametrize("span", [(20, 5), (-1, 5), (5, 401), (float("nan"), 5), (5, float("nan"))])
def test_impossible_spans_are_refused(span: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="days from flower to harvest"):
        flowering_window(date(2026, 7, 20), span)


def test_impossible_numbers_of_days_are_refused() -> None:
    with pytest.raises(ValueError, match="days_n is 0"):
        last_n_days(date(2026, 7, 20), 0)
    with pytest.raises(ValueError, match="before_d is -1"):
        bud_window(Window(date(2026, 7, 1), date(2026, 7, 2)), -1)
