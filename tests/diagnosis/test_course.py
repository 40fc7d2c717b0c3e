"""An open problem over its visits: what belongs together, what carries over, how it fades.

The half-life, the gap and the limits are this project's own choice, said where they stand; no published figure exists.
"""

from datetime import date, timedelta
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.diagnosis.carry import CARRIED_LIMIT, HALF_LIFE_D, carried
from scout.diagnosis.course import (
    GAP_D,
    Sighting,
    cleared,
    counts_text,
    course_of,
    earlier_bouts,
    spread_circumstances,
)
from scout.diagnosis.crop_net import crop_net
from scout.diagnosis.evidence import Bout, Count, Evidence, Response
from scout.diagnosis.rank import rank

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
TODAY = date(2026, 7, 22)
NET = crop_net(KNOWLEDGE, "tomato")
RINGS, HALO = "leaf.ringed_spots", "leaf.yellow_halo"


def on(days_ago: int) -> date:
    return TODAY - timedelta(days=days_ago)


def saw(
    days_ago: int, symptom: str = RINGS, affected: int | None = None, looked: int = 6, seen: bool = True
) -> Sighting:
    return Sighting(on(days_ago), symptom, seen, looked if affected else None, affected)


def course(*sightings: Sighting, ended: date | None = None):
    return course_of(sorted(sightings, key=lambda one: one.on), TODAY, ended)


def moved(*bouts: Bout, today: date = TODAY) -> np.ndarray:
    return carried(KNOWLEDGE, NET, NET.base, Evidence(crop="tomato", on=today, earlier=bouts))


def chances(**given) -> dict[str, float]:
    return {r.cause.id: r.probability for r in rank(KNOWLEDGE, Evidence(crop="tomato", on=TODAY, **given)).causes}


def test_sightings_without_a_gap_of_three_weeks_are_one_problem() -> None:
    found = course(saw(40), saw(18), saw(6), saw(0))
    assert found is not None and (found.since, found.last_seen) == (on(18), on(0))  # 22 days lie between 40 and 18
    assert course(saw(GAP_D + 1)) is None and course(saw(GAP_D)) is not None
    assert course() is None and course(saw(3, seen=False)) is None


def test_a_problem_judged_over_ends_and_what_comes_after_is_new() -> None:
    assert course(saw(10), saw(2), ended=on(5)).since == on(2)
    assert course(saw(10), ended=on(5)) is None


def test_each_sign_counts_once_where_it_was_answered_last() -> None:
    found = course(
        saw(16, RINGS, 2), saw(16, HALO), saw(12, RINGS, 3), saw(12, "leaf.mosaic", seen=False), saw(0, HALO)
    )
    (bout,) = earlier_bouts(found, on(7), {HALO})
    assert bout.on == on(12) and bout.seen == {RINGS: Count(6, 3)} and set(bout.not_seen) == {"leaf.mosaic"}
    assert [one.on for one in earlier_bouts(found, on(12), ())] == [
        on(16)
    ]  # what was given on that day is no earlier visit
    assert earlier_bouts(found, on(7), {HALO, RINGS, "leaf.mosaic"}) == () == earlier_bouts(None, TODAY, ())


def test_seeing_one_sign_again_and_again_says_no_more_than_seeing_it_last() -> None:
    again = course(saw(16), saw(12), saw(9), saw(0))
    once = course(saw(0))
    told = {RINGS: Count()}
    assert chances(seen=told, earlier=earlier_bouts(again, on(7), told)) == chances(
        seen=told, earlier=earlier_bouts(once, on(7), told)
    )


def test_what_is_carried_halves_with_every_half_life() -> None:
    bout = Bout(on(0), {RINGS: Count(), HALO: Count()})
    now = moved(bout)
    assert np.abs(now).max() > 0.5
    later = moved(bout, today=TODAY + timedelta(days=int(HALF_LIFE_D)))
    assert later == pytest.approx(now / 2, abs=1e-12)
    assert moved(bout, today=TODAY + timedelta(days=400)) == pytest.approx(0.0, abs=1e-6)


def test_a_fresh_visit_carries_what_its_signs_did_to_each_cause_as_summed_over_all_combinations() -> None:
    """Brute force over the causes linked to one sign; the others stay as they were."""
    column = NET.column[HALO]
    linked = [i for i in range(len(NET.causes)) if NET.strength[i, column] > 0 and HALO not in NET.causes[i].excludes]
    prior = 1 / (1 + np.exp(-NET.base))
    total, with_cause = 0.0, np.zeros(len(linked))
    for present in product((0, 1), repeat=len(linked)):
        chance, silent = 1.0, 1.0 - NET.leak[column]
        for there, i in zip(present, linked, strict=True):
            chance *= prior[i] if there else 1 - prior[i]
            silent *= 1 - NET.strength[i, column] if there else 1
        total += chance * (1 - silent)
        with_cause += chance * (1 - silent) * np.array(present)
    after = with_cause / total
    expected = np.log(after / (1 - after)) - NET.base[linked]
    assert len(linked) < 18
    assert moved(Bout(TODAY, {HALO: Count()}))[linked] == pytest.approx(np.clip(expected, -4, 4), abs=1e-9)


@given(st.lists(st.sampled_from(sorted(NET.column)), min_size=1, max_size=12, unique=True), st.integers(0, 60))
def test_what_is_carried_stays_within_its_limit_and_never_grows_with_time(signs, days) -> None:
    bout = Bout(TODAY, dict.fromkeys(signs[::2], Count()), dict.fromkeys(signs[1::2], Count(4)))
    now, later = moved(bout), moved(bout, today=TODAY + timedelta(days=days))
    assert np.abs(now).max() <= CARRIED_LIMIT + 1e-12
    assert (np.abs(later) <= np.abs(now) + 1e-12).all() and np.isfinite(later).all()


def test_signs_of_earlier_visits_raise_the_cause_that_shows_them_and_are_given_as_a_reason() -> None:
    spots = {HALO: Count()}
    earlier = (Bout(on(10), {RINGS: Count()}),)
    case = Evidence(crop="tomato", on=TODAY, seen=spots, earlier=earlier)
    assert chances(seen=spots, earlier=earlier)["early_blight"] > chances(seen=spots)["early_blight"]
    found = next(r for r in rank(KNOWLEDGE, case).causes if r.cause.id == "early_blight")
    assert ("earlier", on(10).isoformat()) in {(reason.kind, reason.subject) for reason in found.because}


def test_a_control_that_did_not_help_speaks_against_the_cause_it_was_tried_for() -> None:
    seen = {RINGS: Count(), HALO: Count()}
    failed = chances(seen=seen, responses={"early_blight": Response("strip_lowest_leaves", -1.0)})
    worked = chances(seen=seen, responses={"early_blight": Response("strip_lowest_leaves", 1.0)})
    assert failed["early_blight"] < chances(seen=seen)["early_blight"] < worked["early_blight"]


def test_more_plants_at_the_later_count_is_spreading_and_the_same_number_after_days_is_not() -> None:
    assert spread_circumstances(course(saw(5, RINGS, 2), saw(0, RINGS, 4)), TODAY) == {
        "spreading_plants": True,
        "not_spreading": False,
    }
    assert spread_circumstances(course(saw(5, RINGS, 2), saw(0, RINGS, 2)), TODAY) == {
        "spreading_plants": False,
        "not_spreading": True,
    }
    assert spread_circumstances(course(saw(2, RINGS, 2), saw(0, RINGS, 2)), TODAY) == {}
    assert spread_circumstances(course(saw(5), saw(0)), TODAY) == {}  # nobody counted
    more_looked_at = course(saw(5, RINGS, 2, looked=4), saw(0, RINGS, 3, looked=8))
    assert spread_circumstances(more_looked_at, TODAY) == {"spreading_plants": False, "not_spreading": True}
    fewer_looked_at = course(saw(5, RINGS, 2, looked=8), saw(0, RINGS, 2, looked=4))
    assert spread_circumstances(fewer_looked_at, TODAY) == {"spreading_plants": False, "not_spreading": True}


def test_a_problem_is_cleared_when_every_sign_was_looked_for_again_and_not_seen() -> None:
    assert cleared(course(saw(9), saw(0, seen=False)))
    assert not cleared(course(saw(9), saw(9, HALO), saw(0, seen=False)))


def test_counts_are_told_from_the_first_to_the_last() -> None:
    assert counts_text(course(saw(9, RINGS, 2), saw(0, RINGS, 4))) == "2, now 4 of 6 plants"
    assert counts_text(course(saw(9, RINGS, 2, looked=3), saw(0, RINGS, 4))) == "2 of 3, now 4 of 6 plants"
    assert counts_text(course(saw(0, RINGS, 4))) == "4 of 6 plants"
    assert counts_text(course(saw(0))) is None
