"""The verdict on stripping: what makes it, what forbids it, and what it never rests on."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.keeping_up import Visit, fronts, new_leaf_sums, race
from scout.science.keeping_verdict import verdict_of

WEEKS = (0.0, 7.0, 14.0, 21.0, 28.0)


def plant(tops: list[int], spots: list[int], days: tuple[float, ...] = WEEKS) -> list[Visit]:
    return [Visit(day, top, spot) for day, top, spot in zip(days, tops, spots, strict=False)]


WINNING = [plant([16, 19, 21, 24, 26], [5, 6, 6, 7, 8]), plant([15, 17, 20, 22, 25], [4, 5, 6, 6, 7])]
LOSING = [plant([16, 18, 19, 21], [5, 8, 11, 14]), plant([14, 16, 18, 19], [3, 6, 9, 12])]


def until(plants: list[list[Visit]], day: float) -> list[list[Visit]]:
    return [[visit for visit in one if visit.day <= day] for one in plants]


def test_growth_well_ahead_of_the_spots_is_keeping_up() -> None:
    assert verdict_of(WINNING) == "keeping_up"
    assert race(WINNING).probability_losing < 0.01


def test_spots_well_ahead_of_growth_are_losing() -> None:
    assert verdict_of(LOSING) == "losing"


def test_no_verdict_before_four_visits_however_clear_they_look() -> None:
    steep = [plant([20, 24, 28], [2, 2, 2]), plant([20, 24, 28], [2, 2, 2])]
    assert race(steep).probability_losing < 0.1
    assert verdict_of(steep) == "cannot_tell"


def test_many_visits_within_a_few_days_make_no_verdict() -> None:
    days = (0.0, 2.0, 4.0, 6.0, 8.0)
    assert verdict_of([plant([16, 17, 18, 19, 20], [5, 5, 5, 5, 5], days)] * 3) == "cannot_tell"


def test_spotted_to_the_tip_is_losing_though_spots_and_growth_run_alike() -> None:
    tip = [plant([16, 18, 20, 22], [14, 16, 18, 20]), plant([15, 17, 19, 21], [13, 14, 17, 19])]
    assert abs(race(tip).difference.expected_per_d) < 0.1
    assert verdict_of(tip) == "losing"


def test_gaining_with_fewer_than_six_clean_leaves_is_not_keeping_up_yet() -> None:
    days = (0.0, 5.0, 10.0, 15.0, 20.0)
    poor, rich = ([plant([top + n for n in (0, 1, 2, 4, 5)], [7] * 5, days)] * 3 for top in (7, 17))
    assert race(poor).probability_losing == pytest.approx(race(rich).probability_losing)
    assert (verdict_of(poor), verdict_of(rich)) == ("cannot_tell", "keeping_up")


def test_plants_without_any_spot_get_no_verdict() -> None:
    assert verdict_of([plant([16, 19, 21, 24], [0, 0, 0, 0])] * 3) == "cannot_tell"


def test_nothing_measured_is_no_verdict() -> None:
    assert verdict_of([]) == "cannot_tell"
    assert verdict_of([[Visit(0.0, None, None)], []]) == "cannot_tell"


def test_one_wild_count_makes_no_verdict() -> None:
    level = plant([16, 17, 18, 19, 20], [6, 7, 8, 9, 10])
    wild = [*level[:-1], replace(level[-1], highest_diseased=15)]
    assert verdict_of([wild, level]) != "losing"


# what the knife does to the counts


def test_taking_the_spotted_leaves_off_never_brings_the_spots_down() -> None:
    stripped = [Visit(0.0, 16, 6, 6), Visit(7.0, 18, 0, 6), Visit(14.0, 20, 3, 6), Visit(21.0, 22, 9, 9)]
    assert fronts(stripped) == [(0.0, 6), (7.0, 6), (14.0, 6), (21.0, 9)]


def test_new_leaves_add_up_from_the_first_spot_on_and_begin_again_where_they_were_not_counted() -> None:
    plant = [Visit(0.0, 12, 0, None, 0), Visit(7.0, 14, 3, None, 2), Visit(14.0, 16, 4, None, 1), Visit(21.0, 18, 5)]
    assert new_leaf_sums(plant[:3]) == [(7.0, 0), (14.0, 1)]
    assert new_leaf_sums(plant) == [] and new_leaf_sums(plant[:1]) == []
    assert new_leaf_sums([*plant, Visit(28.0, 20, 7, None, 2)]) == [(21.0, 0), (28.0, 2)]


def test_many_new_leaves_make_losing_likelier_than_few_at_the_same_heights() -> None:
    def losing(new: int) -> float:
        plant = [Visit(7.0 * n, 14 + 2 * n, 4 + n, None, new) for n in range(4)]
        return race([plant, plant]).probability_losing

    assert losing(0) < losing(1) < losing(3)


def test_a_count_one_leaf_lower_is_a_count_and_is_kept() -> None:
    assert fronts([Visit(0.0, 16, 6), Visit(7.0, 18, 5)]) == [(0.0, 6), (7.0, 5)]


def test_looks_before_the_first_spot_do_not_make_it_climb() -> None:
    assert fronts([Visit(0.0, 16, 0), Visit(7.0, 18, 0), Visit(14.0, 20, 5)]) == [(14.0, 5)]


def test_stripping_everything_spotted_at_each_visit_gains_nothing_in_the_verdict() -> None:
    cut = [[replace(visit, stripped_to=visit.highest_diseased) for visit in one] for one in LOSING]
    assert race(cut).probability_losing == pytest.approx(race(LOSING).probability_losing)
    assert verdict_of(cut) == "losing"


def test_clean_leaves_taken_off_are_not_counted_as_clean() -> None:
    assert race([[Visit(0.0, 16, 3, 10), Visit(7.0, 18, 3, 10)]]).clean_depth == 8.0


def test_a_count_left_out_is_left_out_and_not_nought() -> None:
    gappy = [[*LOSING[0][:2], replace(LOSING[0][2], highest_diseased=None), LOSING[0][3]], LOSING[1]]
    assert 0.8 < race(gappy).probability_losing < 1.0


counts = st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), min_size=0, max_size=8)


@given(st.lists(counts, max_size=3), st.lists(st.none() | st.integers(0, 200), min_size=20, max_size=20))
def test_any_counts_give_a_chance_and_never_an_error(
    written: list[list[tuple[int, int]]], new: list[int | None]
) -> None:
    plants = [
        [Visit(4.0 * n, max(pair), min(pair), None, new[n % len(new)]) for n, pair in enumerate(one)] for one in written
    ]
    now = race(plants)
    low, high = now.difference.interval()
    assert 0.0 <= now.probability_losing <= 1.0 and low < now.difference.expected_per_d < high
    assert verdict_of(plants) in ("keeping_up", "losing", "cannot_tell")


@given(st.integers(0, 5))
def test_counting_everything_from_a_higher_tie_changes_no_speed(lift: int) -> None:
    lifted = [
        [Visit(v.day, (v.top_leaf or 0) + lift, (v.highest_diseased or 0) + lift) for v in one] for one in WINNING
    ]
    assert race(lifted).probability_losing == pytest.approx(race(WINNING).probability_losing, rel=1e-6)


def test_the_verdict_at_a_visit_uses_nothing_later() -> None:
    assert verdict_of(until(LOSING, 14.0)) == "cannot_tell"
