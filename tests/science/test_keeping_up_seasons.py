"""A small version of the thousand seasons: what the verdict says where the truth is known. See tests/benchmarks."""

import pytest

from ..simulators.known_speeds import known_season
from ..simulators.layered_plants import layered_season
from ..simulators.outcomes import Outcome, characteristics, judged

SEASONS_N = {known_season: 13, layered_season: 7}
CELLS = ((5, 2), (7, 3))


@pytest.fixture(scope="module")
def outcomes() -> list[Outcome]:
    return [judged(world(seed, *cell)) for world, n in SEASONS_N.items() for cell in CELLS for seed in range(n)]


def test_false_verdicts_at_any_visit_stay_within_what_chance_allows(outcomes: list[Outcome]) -> None:
    # Lower 95 % limit against the share promised: fails when a change breaks the verdict, not by luck of few seasons.
    found = characteristics(outcomes)
    assert found.false_keeping.of_n >= 10 and found.false_losing.of_n >= 10
    assert found.false_keeping.limits[0] <= 0.05
    assert found.false_losing.limits[0] <= 0.10


def test_where_the_truth_is_clear_many_seasons_are_decided_in_three_weeks(outcomes: list[Outcome]) -> None:
    found = characteristics(outcomes)
    assert found.decisive.of_n >= 15 and found.decisive.limits[1] >= 0.60 and found.decisive.value > 0.4


def test_the_interval_holds_the_truth_about_nine_times_in_ten(outcomes: list[Outcome]) -> None:
    low, high = characteristics(outcomes).coverage.limits
    assert low - 0.03 <= 0.90 <= high + 0.03


def test_false_comfort_is_caught_when_the_verdict_is_turned_round(outcomes: list[Outcome]) -> None:
    turned = [
        Outcome(o.truth_per_d, not o.losing, o.to_the_tip, o.verdicts, o.at_three_weeks, o.interval) for o in outcomes
    ]
    assert characteristics(turned).false_keeping.limits[0] > 0.05
