"""The pick tally: share misshapen, and two picks running under half of the best."""

from datetime import date

import pytest

from scout.services.pick_tally import PickRow, pick_rows, pick_tally, tally_of
from scout.store.records import PickView

from ..small_garden import plant_of


def picks(*days: tuple[int, int, int]) -> list[PickView]:
    return [PickView(str(day), "p", sound, odd, None, f"2026-07-{day:02d}T08:00") for day, sound, odd in days]


def test_the_share_misshapen_is_that_of_the_last_two_picks(context) -> None:
    from scout.store.tables_log import Pick

    plant = plant_of(context)
    with context.write() as tx:
        for day, sound, odd in ((15, 20, 0), (19, 9, 0), (22, 1, 10)):
            tx.add(Pick, planting_id=plant.planting_id, sound_n=sound, odd_n=odd, observed_at=f"2026-07-{day}T08:00")
    found = pick_tally(context, plant)
    # 10 of 20: Wilson 0.2993-0.7007 (Wilson 1927; statsmodels agrees).
    assert found.odd_share == (10, 20, pytest.approx(0.2993, abs=5e-5), pytest.approx(0.7007, abs=5e-5))
    assert found.lines[0] == "Odd: 10 of 20 in the last two picks, 50 % (30-70 %)."


def test_a_pick_is_told_for_each_plant_and_week_so_that_gaps_do_not_mislead() -> None:
    rows = pick_rows(picks((1, 5, 0), (3, 16, 0), (10, 16, 2)), 8)
    assert [row.a_week for row in rows] == [None, 7.0, 2.0]
    assert pick_rows(picks((1, 5, 0), (1, 3, 1)), 8) == (PickRow(date(2026, 7, 1), 8, 1, None),)


def test_two_picks_under_half_of_the_best_are_said_and_one_is_not() -> None:
    # The rule of the trade (common practice, no source): two picks in a row under 50 % of the planting's peak.
    best = [(1, 9, 0), (4, 12, 0), (7, 30, 0)]
    one = tally_of(pick_rows(picks(*best, (10, 20, 0), (13, 10, 0)), 1))
    two = tally_of(pick_rows(picks(*best, (10, 14, 0), (13, 10, 0)), 1))
    again = tally_of(pick_rows(picks(*best, (10, 14, 0), (13, 20, 0)), 1))
    assert (one.under_half, two.under_half, again.under_half) == (False, True, False)
    assert "past its best, or a gap after heat" in two.lines[1]


def test_few_picks_say_nothing_of_the_best() -> None:
    assert not tally_of(pick_rows(picks((1, 30, 0), (2, 1, 0), (3, 1, 0)), 1)).under_half
    assert tally_of(()).lines == ("Nothing picked yet.",)
