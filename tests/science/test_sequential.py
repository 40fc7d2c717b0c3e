"""Wald's lines: look on, or stop."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.sequential import StopLines, wald_lines_for_numbers, wald_lines_for_shares

Row = dict[str, str]
Printed = Callable[[str], object]


def lines_of(kind: str, *figures: float) -> StopLines:
    return (wald_lines_for_shares if kind == "share" else wald_lines_for_numbers)(*figures)


@pytest.mark.table("wald_lines")
def test_slope_and_both_starts(row: Row, printed: Printed) -> None:
    lines = lines_of(row["kind"], *(float(row[name]) for name in ("low", "high", "alpha", "beta")))
    assert lines.slope_ratio == printed(row["slope"])
    assert lines.low_ratio == printed(row["h0"]) and lines.high_ratio == printed(row["h1"])


@pytest.mark.parametrize(
    ("figures", "looked", "below_at_most", "above_at_least"),
    [
        # Stop "below" with at most, "above" with at least (computed with the table above).
        ((0.1, 0.25, 0.1, 0.1), 10, None, 4),
        ((0.1, 0.25, 0.1, 0.1), 20, 1, 6),
        ((0.1, 0.25, 0.1, 0.1), 50, 6, 11),
        ((0.2, 0.4, 0.1, 0.1), 10, 0, 6),
        ((0.2, 0.4, 0.1, 0.1), 40, 9, 14),
    ],
)
def test_where_a_count_stops(
    figures: tuple[float, ...], looked: int, below_at_most: int | None, above_at_least: int
) -> None:
    lines = wald_lines_for_shares(*figures)
    sides = [lines.side(found, looked) for found in range(looked + 1)]
    assert [n for n, side in enumerate(sides) if side == "below"] == list(
        range((-1 if below_at_most is None else below_at_most) + 1)
    )
    assert sides.index("at_or_above") == above_at_least


@pytest.mark.parametrize(
    ("figures", "first"),
    [
        ((0.1, 0.25, 0.1, 0.1), 13),
        ((0.05, 0.15, 0.05, 0.1), 21),
        ((0.1, 0.3, 0.05, 0.05), 12),
        ((0.2, 0.4, 0.1, 0.1), 8),
    ],
)
def test_how_many_clean_plants_are_enough(figures: tuple[float, ...], first: int) -> None:
    # First number looked at that stops "below" with none found (computed).
    lines = wald_lines_for_shares(*figures)
    assert lines.side(0, first) == "below" and lines.side(0, first - 1) == "look_on"
    assert lines.more_to_look_at(0, 1) == first - 1


@given(st.integers(0, 40), st.integers(1, 40))
def test_as_many_more_at_the_same_rate_reach_a_line_and_one_fewer_does_not(found: int, looked: int) -> None:
    lines = wald_lines_for_numbers(0.5, 1.0, 0.1, 0.1)
    more = lines.more_to_look_at(found, looked)
    if not more:
        assert more == 0 and lines.side(found, looked) != "look_on"
        return
    rate = found / looked

    def reached(n: int) -> bool:
        count = rate * n
        return (
            count >= lines.slope_ratio * n + lines.high_ratio - 1e-6
            or count <= lines.slope_ratio * n + lines.low_ratio + 1e-6
        )

    assert reached(looked + more) and not any(reached(looked + fewer) for fewer in range(more) if fewer < more - 1)


def test_the_risks_are_kept_in_ten_thousand_walks() -> None:
    # Definition of the test: at the low mean at most about alpha say "above", at the high mean about beta say "below".
    rng = np.random.default_rng(5)
    lines = wald_lines_for_numbers(0.5, 1.0, 0.1, 0.1)
    for mean, wrong in ((0.5, "at_or_above"), (1.0, "below")):
        counts = np.cumsum(rng.poisson(mean, (10_000, 120)), axis=1)
        looked = np.arange(1, 121)
        above, below = (
            counts >= lines.slope_ratio * looked + lines.high_ratio,
            counts <= lines.slope_ratio * looked + lines.low_ratio,
        )
        first = [np.where(side.any(axis=1), side.argmax(axis=1), 999) for side in (above, below)]
        said_wrong = (first[0] < first[1]) if wrong == "at_or_above" else (first[1] < first[0])
        assert said_wrong.mean() < 0.11


def test_lines_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="low_frac"):
        wald_lines_for_shares(0.3, 0.3, 0.1, 0.1)
    with pytest.raises(ValueError, match="alpha_frac"):
        wald_lines_for_numbers(1.0, 2.0, 0.0, 0.1)
    with pytest.raises(ValueError, match="looked_n is 0"):
        wald_lines_for_numbers(1.0, 2.0, 0.1, 0.1).more_to_look_at(0, 0)
