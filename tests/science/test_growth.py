"""Speed of a node count, and the clean leaves above the highest diseased one."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from scout.science.growth import clean_depth, node_speed_per_d


def test_a_leaf_every_second_day_is_half_a_node_a_day() -> None:
    speed = node_speed_per_d([0.0, 7.0, 14.0, 21.0], [10.0, 13.5, 17.0, 20.5])
    assert speed is not None
    assert speed.per_d == pytest.approx(0.5, abs=1e-12)
    assert speed.std_error_per_d == pytest.approx(0.0, abs=1e-12)
    assert (speed.visits_n, speed.span_d) == (4, 21.0)


looks = st.lists(st.tuples(st.integers(0, 90), st.integers(0, 60)), min_size=3, max_size=15)


def varied(pairs: list[tuple[int, int]]) -> bool:
    """Keep what scipy can answer: it gives no error where all nodes are equal."""
    return all(len(set(column)) > 1 for column in zip(*pairs, strict=True))


@given(looks.filter(varied))
def test_slope_and_error_equal_scipys_line(pairs: list[tuple[int, int]]) -> None:
    days, nodes = zip(*pairs, strict=True)
    speed, theirs = node_speed_per_d(days, nodes), stats.linregress(days, nodes)
    assert speed is not None
    assert speed.per_d == pytest.approx(theirs.slope, rel=1e-9, abs=1e-9)
    assert speed.std_error_per_d == pytest.approx(theirs.stderr, rel=1e-5, abs=1e-6)


def test_missing_counts_are_left_out() -> None:
    with_gap = node_speed_per_d([0.0, 4.0, 7.0, 14.0], [10.0, None, 13.0, 18.0])
    assert with_gap == node_speed_per_d([0.0, 7.0, 14.0], [10.0, 13.0, 18.0])


def test_two_visits_give_a_speed_but_no_error() -> None:
    speed = node_speed_per_d([0.0, 7.0], [10.0, 13.0])
    assert speed is not None
    assert speed.per_d == pytest.approx(3 / 7, abs=1e-12)
    assert speed.std_error_per_d is None


@pytest.mark.parametrize(
    ("days", "nodes"), [([], []), ([3.0], [10.0]), ([3.0, 3.0], [10.0, 11.0]), ([0.0, 7.0], [10.0, None])]
)
def test_one_day_is_no_speed(days: list[float], nodes: list[float | None]) -> None:
    assert node_speed_per_d(days, nodes) is None


def test_impossible_counts_are_refused() -> None:
    with pytest.raises(ValueError, match="node_n is -1"):
        node_speed_per_d([0.0, 7.0], [-1.0, 3.0])
    with pytest.raises(ValueError, match="zip"):
        node_speed_per_d([0.0, 7.0], [1.0])


def test_clean_depth_counts_the_leaves_above_the_highest_diseased() -> None:
    assert clean_depth(18, 7) == 11
    assert clean_depth(18, 18) == 0


def test_none_diseased_differs_from_not_measured() -> None:
    assert clean_depth(18, 0) == 18
    assert clean_depth(18, None) is None


@pytest.mark.parametrize(("top", "diseased"), [(5, 6), (-1, 0), (5, -1)])
def test_a_diseased_leaf_above_the_top_is_refused(top: int, diseased: int) -> None:
    with pytest.raises(ValueError, match=r"highest_diseased_n|top_leaf_n"):
        clean_depth(top, diseased)
