"""The order of a walk, what fits into the minutes, and the clock: held for any garden."""

from collections.abc import Iterable
from itertools import combinations
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.diagnosis.budget import Room, chosen
from scout.diagnosis.due import Pass
from scout.diagnosis.route import SICK, Visit, walking_order, wash_before
from scout.diagnosis.timetable import DayHours, clock_text, laid_out

PASSES = get_args(Pass)
GROUPS = st.sampled_from(PASSES)
MINUTES = st.integers(1, 24).map(lambda halves: halves / 2.0)


def worth_of(visits: Iterable[Visit], keys: frozenset[str]) -> int:
    """What stops are worth together, in hundredths; one that cannot wait goes before any number of others."""
    return sum(max(1, round(100 * one.worth)) + 10**7 * one.must for one in visits if one.key in keys)


@st.composite
def gardens(draw: st.DrawFn, most: int = 12) -> list[Visit]:
    """Any garden: some stops in any beds, of any state."""
    stops = draw(
        st.lists(st.tuples(st.integers(0, 9), GROUPS, MINUTES, st.floats(0.0, 40.0), st.booleans()), max_size=most)
    )
    return [Visit(f"stop {n}", *stop) for n, stop in enumerate(stops)]


@given(gardens())
def test_no_clean_bed_comes_after_a_sick_one(visits: list[Visit]) -> None:
    sick = [visit.sick for visit in walking_order(visits)]
    assert sick == sorted(sick)


@given(gardens())
def test_each_pass_goes_in_walking_order(visits: list[Visit]) -> None:
    ordered = walking_order(visits)
    for part in (
        [visit for visit in ordered if not visit.sick],
        [visit for visit in ordered if visit.group == "spotted"],
        [visit for visit in ordered if visit.group == "suspect"],
    ):
        places = [visit.position for visit in part]
        assert places == sorted(places)
    assert [v.group for v in ordered if v.sick] == sorted((v.group for v in ordered if v.sick), key=PASSES.index)


@given(gardens())
def test_hands_are_washed_once_before_the_first_sick_bed(visits: list[Visit]) -> None:
    ordered = walking_order(visits)
    at = wash_before(ordered)
    mixed = {visit.sick for visit in ordered} == {True, False}
    assert (at is not None) == mixed
    if at is not None:
        assert ordered[at].sick and not ordered[at - 1].sick


@given(gardens(), st.integers(0, 60), st.integers(0, 60))
def test_the_minutes_are_never_overrun(visits: list[Visit], all_min: int, sick_min: int) -> None:
    keys = chosen(visits, Room(all_min, sick_min))
    taken = [visit for visit in visits if visit.key in keys]
    assert sum(visit.minutes for visit in taken) <= all_min
    assert sum(visit.minutes for visit in taken if visit.sick) <= min(sick_min, all_min)


@given(gardens(most=7), st.integers(0, 25), st.integers(0, 25))
def test_no_other_set_of_stops_is_worth_more(visits: list[Visit], all_min: int, sick_min: int) -> None:
    # Oracle: every set that fits is tried.
    best = 0
    for size in range(len(visits) + 1):
        for some in combinations(visits, size):
            sick = sum(visit.minutes for visit in some if visit.sick)
            if sum(visit.minutes for visit in some) <= all_min and sick <= sick_min:
                best = max(best, worth_of(some, frozenset(visit.key for visit in some)))
    assert worth_of(visits, chosen(visits, Room(all_min, sick_min))) == best


@given(gardens(), st.integers(0, 50), st.integers(0, 50))
def test_more_minutes_are_never_worth_less(visits: list[Visit], few: int, more: int) -> None:
    with_few = worth_of(visits, chosen(visits, Room(few, few)))
    with_more = worth_of(visits, chosen(visits, Room(few + more, few + more)))
    assert with_more >= with_few


@given(gardens(), st.integers(0, 60))
def test_the_same_garden_gives_the_same_plan_in_whatever_order_it_is_read(visits: list[Visit], minutes: int) -> None:
    room = Room(minutes, minutes)
    assert chosen(visits, room) == chosen(list(reversed(visits)), room)


@given(gardens())
def test_with_minutes_for_all_nothing_is_left_out(visits: list[Visit]) -> None:
    enough = sum(visit.minutes for visit in visits)
    assert chosen(visits, Room(enough, enough)) == frozenset(visit.key for visit in visits)


def test_what_cannot_wait_goes_before_any_number_of_others() -> None:
    must = Visit("must", 9, "clean", 10.0, 0.1, must=True)
    others = [Visit(f"{n}", n, "clean", 1.0, 40.0) for n in range(9)]
    assert chosen([*others, must], Room(10.0, 10.0)) == frozenset({"must"})


def test_a_third_of_a_minute_over_is_over() -> None:
    assert chosen([Visit("a", 1, "clean", 2.2, 1.0)], Room(2.4, 2.4)) == frozenset()
    assert chosen([Visit("a", 1, "clean", 2.2, 1.0)], Room(2.5, 2.5)) == frozenset({"a"})


# the clock


def test_sick_beds_wait_until_leaves_are_dry() -> None:
    visits = [Visit("tomato", 1, "spotted", 7.0, 9.0), Visit("bean", 2, "clean", 3.0, 1.0)]
    walk = laid_out(visits, DayHours(start=6 * 60, dry_from=9 * 60 + 40))
    assert [(timed.visit.key, clock_text(timed.at)) for timed in walk.stops] == [("bean", "6:00"), ("tomato", "9:40")]
    assert walk.wait_min == 217


def test_a_sick_bed_that_finds_no_dry_gap_before_the_heat_is_left_out() -> None:
    visits = [Visit("tomato", 1, "spotted", 7.0, 9.0), Visit("bean", 2, "clean", 3.0, 1.0)]
    day = DayHours(start=9 * 60, dry_from=10 * 60 + 55, hot_from=11 * 60, hot_until=19 * 60)
    walk = laid_out(visits, day)
    assert [timed.visit.key for timed in walk.stops] == ["bean"] and [v.key for v in walk.left] == ["tomato"]


def test_in_dangerous_heat_only_what_cannot_wait_is_walked_and_once_it_is_cooler() -> None:
    visits = [Visit("tub", 1, "clean", 3.0, 1.0, must=True), Visit("bean", 2, "clean", 3.0, 9.0)]
    walk = laid_out(visits, DayHours(start=13 * 60, hot_from=11 * 60, hot_until=19 * 60))
    assert walk.only_musts and [(timed.visit.key, timed.at) for timed in walk.stops] == [("tub", 19 * 60)]
    assert [visit.key for visit in walk.left] == ["bean"]


@given(gardens(), st.integers(300, 1200), st.integers(300, 800), st.integers(300, 900), st.integers(0, 200))
def test_nobody_is_at_a_stop_in_the_heat_and_no_wet_bed_is_touched(
    visits: list[Visit], start: int, dry: int, hot: int, minutes: int
) -> None:
    day = DayHours(start=start, dry_from=dry, hot_from=hot, hot_until=hot + 300)
    walk = laid_out(visits, day, float(minutes))
    assert {timed.visit.key for timed in walk.stops} | {v.key for v in walk.left} == {v.key for v in visits}
    for timed in walk.stops:
        ends = timed.at + timed.visit.minutes
        if walk.only_musts:
            assert timed.visit.must
            continue
        assert ends <= start + minutes + 1  # times are told in whole minutes
        assert start >= hot or ends <= hot + 1
        assert timed.visit.group not in SICK or timed.at >= dry


def test_an_hour_is_told_as_a_clock_shows_it() -> None:
    assert [clock_text(minute) for minute in (0, 580, 20 * 60 + 5)] == ["0:00", "9:40", "20:05"]


def test_without_a_limit_every_stop_is_made() -> None:
    visits = [Visit("a", 1, "clean", 600.0, 1.0), Visit("b", 2, "spotted", 600.0, 1.0)]
    assert len(laid_out(visits, DayHours(start=360)).stops) == 2


def test_a_garden_without_stops_has_an_empty_plan() -> None:
    assert laid_out([], DayHours(start=360, hot_from=400, hot_until=500), 10.0).stops == ()


@pytest.mark.parametrize("minutes", [0.0, 0.4])
def test_no_minutes_make_no_stop(minutes: float) -> None:
    assert chosen([Visit("a", 1, "clean", 0.5, 1.0)], Room(minutes, minutes)) == frozenset()
