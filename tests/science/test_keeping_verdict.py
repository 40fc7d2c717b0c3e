"""What was told at one visit and what becomes of it at the next."""

import pytest

from scout.science.keeping_up import Race, Visit, race
from scout.science.keeping_verdict import KEEPING_AT_MOST, Verdict, verdict_of

from .test_keeping_up import LOSING, WINNING, plant, until


def wet_week(first: int, second: int) -> list[list[Visit]]:
    """The winning bed, where the last week's spots reached these leaves."""
    return [plant([16, 19, 21, 24, 26], [5, 6, 6, 7, first]), plant([15, 17, 20, 22, 25], [4, 5, 6, 6, second])]


def test_keeping_up_stays_told_after_one_wet_week_that_would_not_let_it_be_told_anew() -> None:
    bed = wet_week(10, 10)
    assert verdict_of(until(bed, 21.0)) == "keeping_up"
    assert race(bed).probability_losing > KEEPING_AT_MOST
    assert verdict_of(bed) == "keeping_up"
    assert verdict_of(bed, told="cannot_tell") == "cannot_tell"


def test_keeping_up_is_taken_back_once_the_counts_turn() -> None:
    bed = wet_week(14, 13)
    assert verdict_of(until(bed, 21.0)) == "keeping_up"
    assert verdict_of(bed) == "cannot_tell"


def test_losing_stays_told_after_one_dry_week() -> None:
    days = (0.0, 7.0, 14.0, 21.0, 28.0)
    bed = [plant([16, 18, 19, 21, 24], [5, 7, 10, 12, 12], days), plant([14, 16, 18, 19, 22], [3, 5, 8, 10, 11], days)]
    assert verdict_of(until(bed, 21.0)) == "losing"
    assert 0.5 <= race(bed).probability_losing < 0.7
    assert verdict_of(bed) == "losing"
    assert verdict_of(bed, told="cannot_tell") == "cannot_tell"


@pytest.mark.parametrize("bed", [WINNING, LOSING, wet_week(10, 10), wet_week(14, 13)])
def test_the_verdict_is_the_same_asked_once_or_carried_from_visit_to_visit(bed: list[list[Visit]]) -> None:
    told: Verdict | None = None
    before: Race | None = None
    for day in sorted({visit.day for one in bed for visit in one}):
        now = race(until(bed, day))
        told, before = verdict_of(until(bed, day), now, before, told), now
        assert told == verdict_of(until(bed, day))
