"""Dates that follow from the race: clean leaves short, next strip, days bought, more visits, fruit before spots."""

import math

import pytest
from scipy import stats

from scout.science.keeping_ahead import (
    days_bought_d,
    next_strip_after_d,
    own_rate_per_d,
    reached_before_ripe_frac,
    reaches_in_d,
    runs_short_in_d,
    visits_until_told,
)
from scout.science.keeping_up import Visit, race
from scout.science.keeping_verdict import verdict_of
from scout.science.node_drift import FRONT, common_drift

WEEKS = (0.0, 7.0, 14.0, 21.0)


def plant(tops: list[int], spots: list[int], strips: list[int] | None = None) -> list[Visit]:
    lines = strips or [0] * len(tops)
    return [Visit(d, top, spot, line) for d, top, spot, line in zip(WEEKS, tops, spots, lines, strict=False)]


LOSING = [plant([16, 18, 19, 21], [5, 8, 11, 14]), plant([14, 16, 18, 19], [3, 6, 9, 12])]


def test_clean_leaves_run_short_at_the_speed_they_go() -> None:
    now = race(LOSING)
    short = runs_short_in_d(now)
    # seven clean leaves, one above six, over the loss a day
    assert short == pytest.approx(1.0 / now.difference.expected_per_d)
    assert short is not None and 4.0 < short < 8.0


def test_fewer_than_six_already_is_today_and_a_gain_is_never() -> None:
    assert runs_short_in_d(race([plant([12, 13, 14, 15], [7, 9, 10, 11])])) == 0.0
    assert runs_short_in_d(race([plant([16, 19, 22, 25], [5, 5, 6, 6])] * 2)) is None


def test_the_next_stripping_is_due_a_day_before_the_spots_make_spores() -> None:
    # Septoria: spots at 6 days, spores at 14 (INRAE): 8 days less one.
    assert next_strip_after_d([(6.0, 14.0)]) == 7.0
    assert next_strip_after_d([(6.0, 14.0), (3.0, 6.0)]) == 2.0


def test_spores_within_two_days_of_the_spot_leave_no_date() -> None:
    assert next_strip_after_d([(2.0, 3.0), (6.0, 14.0)]) is None
    assert next_strip_after_d([]) is None


def test_spores_before_the_spot_cannot_be() -> None:
    with pytest.raises(ValueError, match="latent_d"):
        next_strip_after_d([(6.0, 5.0)])


def test_days_bought_are_ln_k_over_the_gardens_own_rate() -> None:
    # Vanderplank 1963: ln(k)/r. Rate by scipy's least squares on the logits; half of the eight leaves left went, k = 2.
    plants = [plant([16, 17, 18, 20], [4, 6, 9, 12], [0, 4, 4, 8])]
    shares = [4 / 16, 6 / 17, 9 / 18, 12 / 20]
    rate = stats.linregress([0, 7, 14, 21], [math.log(y / (1 - y)) for y in shares]).slope
    assert own_rate_per_d(plants) == pytest.approx(rate)
    assert days_bought_d(plants) == pytest.approx(math.log(2.0) / rate)


def test_two_visits_give_the_rate_between_them() -> None:
    rate = (math.log(0.6 / 0.4) - math.log(0.25 / 0.75)) / 7.0
    assert own_rate_per_d([plant([16, 20], [4, 12])]) == pytest.approx(rate)


def test_nothing_is_bought_where_nothing_was_taken_or_nothing_spreads() -> None:
    assert days_bought_d(LOSING) is None
    assert days_bought_d([plant([16, 20, 24, 28], [8, 8, 8, 8], [0, 0, 0, 4])]) is None


def test_more_visits_are_told_and_bring_the_verdict_if_it_goes_on() -> None:
    early = [one[:2] for one in LOSING]
    more = visits_until_told(early)
    assert more is not None and more >= 2  # four visits are needed at least
    going_on = [[*one, *(Visit(7.0 * n, one[-1].top_leaf + n, one[-1].highest_diseased + 3 * n)
                         for n in range(2, 2 + more))] for one in early]  # fmt: skip
    assert verdict_of(going_on) == "losing"


def test_a_race_too_close_to_call_has_no_number_of_visits() -> None:
    even = [plant([16, 18, 20, 22], [6, 8, 10, 12]), plant([15, 17, 19, 21], [5, 7, 9, 11])]
    assert visits_until_told(even) is None
    assert visits_until_told([]) is None


def test_the_fruit_is_reached_at_the_speed_of_the_spots() -> None:
    front = common_drift([(list(WEEKS), [2.0, 4.0, 6.0, 8.0])] * 3, FRONT)
    assert reaches_in_d(8.0, 11, front) == pytest.approx(3.0 / front.expected_per_d)
    assert reaches_in_d(11.0, 11, front) == 0.0
    soon, late = (reached_before_ripe_frac(8.0, 11, days, front) for days in (3.0, 40.0))
    assert soon < 0.05 and late > 0.95
    assert reached_before_ripe_frac(12.0, 11, 0.0, front) == 1.0
    assert reached_before_ripe_frac(8.0, 11, 0.0, front) == 0.0
