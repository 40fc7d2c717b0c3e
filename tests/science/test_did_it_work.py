"""Did it work: exact tests, untreated plants, and no verdict from chance."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from scout.science.did_it_work import Looked, judge_numbers, judge_shares
from scout.science.efficacy import (
    abbott_pct,
    henderson_tilton_pct,
)


def test_none_against_six_is_the_first_clear_fall_in_equal_looks() -> None:
    # Exact Poisson comparison, equal exposure: 0 against 5 has p 0.0625, 0 against 6 p 0.03125.
    assert judge_numbers(Looked(5, 7), Looked(0, 7), "fewer").verdict == "cannot_tell"
    clear = judge_numbers(Looked(6, 7), Looked(0, 7), "fewer")
    assert (clear.verdict, clear.reason) == ("yes", "clear") and clear.p == pytest.approx(0.03125)


def test_two_against_five_is_chance_and_says_how_many_would_tell() -> None:
    found = judge_numbers(Looked(5, 7), Looked(2, 7), "fewer")
    assert (found.verdict, found.reason) == ("cannot_tell", "chance") and found.p == pytest.approx(0.453125)
    # 4/(√m − √(m/2))² for m = 5/7 (van Belle 2008, from memory).
    assert found.wanted_n == 66


def test_a_fall_that_is_surely_small_and_a_rise_are_no() -> None:
    assert judge_numbers(Looked(200, 10), Looked(170, 10), "fewer").reason == "small"
    assert judge_numbers(Looked(200, 10), Looked(160, 10), "fewer").verdict == "no"
    rise = judge_numbers(Looked(5, 10), Looked(25, 10), "fewer")
    assert (rise.verdict, rise.reason) == ("no", "worse")


def test_more_is_better_where_more_is_wanted() -> None:
    assert judge_shares(Looked(3, 15), Looked(12, 15), "more").verdict == "yes"
    assert judge_shares(Looked(12, 15), Looked(3, 15), "more").reason == "worse"
    assert judge_numbers(Looked(4, 5), Looked(20, 5), "more").verdict == "yes"


def test_the_odd_cucumbers_of_two_picks() -> None:
    # Fisher's exact test of 7 in 19 against 1 in 17: p 0.04 (scipy).
    found = judge_shares(Looked(7, 19), Looked(1, 17), "fewer")
    assert found.verdict == "yes" and found.p == pytest.approx(stats.fisher_exact([[1, 16], [7, 12]]).pvalue)
    assert judge_shares(Looked(4, 19), Looked(1, 17), "fewer").verdict == "cannot_tell"


def test_what_was_not_there_cannot_fall() -> None:
    assert judge_numbers(Looked(0, 9), Looked(0, 9), "fewer").reason == "none_before"
    assert judge_shares(Looked(0, 9), Looked(3, 9), "fewer").reason == "none_before"


def test_untreated_plants_take_away_a_fall_that_would_have_come_anyway() -> None:
    # Treated 40 to 8, untreated 42 to 10 on as many plants: both fell alike.
    alone = judge_numbers(Looked(40, 10), Looked(8, 10), "fewer")
    beside = judge_numbers(Looked(40, 10), Looked(8, 10), "fewer", (Looked(42, 10), Looked(10, 10)))
    assert alone.verdict == "yes" and beside.verdict == "cannot_tell"
    assert beside.efficacy_by == "henderson_tilton"
    assert beside.efficacy_pct == pytest.approx(henderson_tilton_pct((40, 1), (8, 1), (42, 1), (10, 1)))


def test_untreated_plants_show_a_success_that_the_counts_hide() -> None:
    # Treated 80 stays 40 to 38 while the untreated doubles: Henderson-Tilton 51 %.
    beside = judge_numbers(Looked(40, 10), Looked(38, 10), "fewer", (Looked(40, 10), Looked(78, 10)))
    assert beside.verdict == "yes" and beside.efficacy_pct == pytest.approx(100 * (1 - 38 / 78))


def test_only_the_after_of_the_untreated_gives_abbott() -> None:
    found = judge_numbers(Looked(40, 10), Looked(10, 10), "fewer", (None, Looked(40, 10)))
    assert (found.verdict, found.efficacy_by) == ("yes", "abbott")
    # Living counts 40 and 10: 75 % (constructed, Abbott 1925).
    assert found.efficacy_pct == pytest.approx(abbott_pct((10, 1), (40, 1))) == 75.0


def test_shares_beside_untreated_plants_that_were_not_alike_tell_nothing() -> None:
    assert judge_shares(Looked(18, 20), Looked(2, 20), "fewer", (Looked(2, 20), Looked(2, 20))).reason == "not_alike"
    assert judge_shares(Looked(18, 20), Looked(2, 20), "fewer", (Looked(17, 20), Looked(16, 20))).verdict == "yes"


def test_unlike_numbers_of_plants_are_brought_to_one_plant() -> None:
    # Henderson-Tilton rows on equal plots, looked at on unlike numbers of plants with the same means.
    assert henderson_tilton_pct((300, 10), (60, 20), (500, 10), (600, 10)) == pytest.approx(91.667, abs=5e-4)
    assert abbott_pct((5, 10), (40, 20)) == pytest.approx(75.0)
    # Twice as many plants looked at after, on both: the verdict's figures stay those of the means.
    found = judge_numbers(Looked(40, 10), Looked(16, 20), "fewer", (Looked(40, 10), Looked(80, 20)))
    assert found.verdict == "yes" and found.efficacy_pct == pytest.approx(80.0)


def test_one_crowded_plant_is_not_taken_for_a_fall() -> None:
    lumped = judge_numbers(Looked(30, 5, (30, 0, 0, 0, 0)), Looked(0, 5, (0,) * 5), "fewer")
    spread = judge_numbers(Looked(30, 5, (6, 7, 5, 6, 6)), Looked(2, 5, (0, 1, 0, 0, 1)), "fewer")
    assert lumped.verdict == "cannot_tell" and spread.verdict == "yes"


@pytest.mark.parametrize("mean", [0.5, 2.0])
def test_without_any_change_it_seldom_says_yes(mean: float) -> None:
    # Simulated without effect: "yes" in at most 2.5 % (half of two-sided 5 %), and three sampling errors of 250.
    rng = np.random.default_rng(3)
    counts = rng.poisson(mean * 8, (250, 4))
    said = [
        judge_numbers(Looked(int(tb), 8), Looked(int(ta), 8), "fewer", (Looked(int(cb), 8), Looked(int(ca), 8))).verdict
        for tb, ta, cb, ca in counts
    ]
    assert said.count("yes") / len(said) <= 0.025 + 3 * 0.01
    plain = [judge_numbers(Looked(int(tb), 8), Looked(int(ta), 8), "fewer").verdict for tb, ta, _, _ in counts]
    assert plain.count("yes") / len(plain) <= 0.025 + 3 * 0.01


@given(st.integers(1, 30), st.integers(0, 30), st.integers(1, 30), st.integers(0, 30))
def test_an_answer_always_hangs_together(tb: int, ta: int, cb: int, ca: int) -> None:
    for control in (None, (Looked(cb, 30), Looked(ca, 30)), (None, Looked(ca, 30))):
        for judge in (judge_numbers, judge_shares):
            for better in ("fewer", "more"):
                found = judge(Looked(tb, 30), Looked(ta, 30), better, control)  # type: ignore[arg-type]
                assert (found.verdict == "yes") == (found.reason == "clear")
                assert (found.verdict == "no") == (found.reason in ("small", "worse"))
                assert found.p is None or 0.0 <= found.p <= 1.0
                assert found.low is None or found.high is None or found.low <= found.high
