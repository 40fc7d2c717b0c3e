"""False and decisive verdicts on stripping over a thousand seasons, by spacing of visits and number of plants.

Run: BEDWALK_SEASONS=1000 pytest -n0 -s --benchmark-only tests/benchmarks/test_keeping_up.py
"""

import os
from itertools import product

import pytest

from ..simulators.field_epidemic import field_season
from ..simulators.known_speeds import known_season
from ..simulators.layered_plants import layered_season
from ..simulators.outcomes import Characteristics, Outcome, characteristics, judged
from ..simulators.splashed_stand import stand_season

SEASONS_N = int(os.environ.get("BEDWALK_SEASONS", "1000"))
FIRST_SEED = int(os.environ.get("BEDWALK_FIRST_SEED", "5000000"))
"""Each row has seeds of its own from here on. Those from 0, 20000, 30000 and 50000 served to choose,
and tell nothing new."""
WORLDS = {
    "layered plants": layered_season,
    "known speeds": known_season,
    "field epidemic": field_season,
    "splashed stand": stand_season,
}
FALSE_KEEPING_MOST, FALSE_LOSING_MOST, DECISIVE_LEAST, COVERAGE, COVERAGE_SLACK = 0.05, 0.10, 0.60, 0.90, 0.03


@pytest.mark.parametrize("world", WORLDS)
def test_verdicts_hold_over_many_seasons(world: str, benchmark) -> None:  # type: ignore[no-untyped-def]
    cells = benchmark.pedantic(table_of, args=(world,), rounds=1)
    every = characteristics(outcome for outcomes in cells.values() for outcome in outcomes)
    print(f"\n{world}, {SEASONS_N} seasons a row; per cent (95 % Monte Carlo limits)")
    print("days plants | false keeping up      | false losing         | decided at 21 d      | 90 % interval holds")
    for (spacing, plants), outcomes in cells.items():
        print(line(f"{spacing:>4} {plants:>6}", characteristics(outcomes)))
    print(line("        all", every))
    assert every.false_keeping.limits[0] <= FALSE_KEEPING_MOST
    assert every.false_losing.limits[0] <= FALSE_LOSING_MOST
    assert every.decisive.limits[1] >= DECISIVE_LEAST
    low, high = every.coverage.limits
    assert low - COVERAGE_SLACK <= COVERAGE <= high + COVERAGE_SLACK


def table_of(world: str) -> dict[tuple[int, int], list[Outcome]]:
    """Return every season's outcome by days between visits and number of plants."""
    cells: dict[tuple[int, int], list[Outcome]] = {}
    for row, (spacing, plants) in enumerate(product((3, 5, 7), (2, 3))):
        seeds = range(FIRST_SEED + 100_000 * row, FIRST_SEED + 100_000 * row + SEASONS_N)
        cells[spacing, plants] = [judged(WORLDS[world](seed, spacing, plants)) for seed in seeds]
    return cells


def line(head: str, found: Characteristics) -> str:
    shares = (found.false_keeping, found.false_losing, found.decisive, found.coverage)
    cells = " | ".join(f"{share!s:<20}" for share in shares)
    return f"{head} | {cells} | false keeping of all seasons {found.false_keeping_all}"
