"""Treated against untreated."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.science.efficacy import abbott_pct, henderson_tilton_pct

Row = dict[str, str]
Printed = Callable[[str], object]


@pytest.mark.table("efficacy_abbott")
def test_corrected_mortality(row: Row, printed: Printed) -> None:
    living = [(100 - int(row[name]), 100) for name in ("treated_dead_pct", "control_dead_pct")]
    corrected = abbott_pct(*living)
    assert corrected == printed(row["corrected_pct"])


@pytest.mark.parametrize(
    ("control_n", "treated_n", "expected"), [(300, 75, 75), (40, 10, 75), (100, 100, 0), (50, 0, 100), (80, 120, -50)]
)
def test_abbott_from_living_counts(control_n: int, treated_n: int, expected: float) -> None:
    # Constructed, exact.
    assert abbott_pct((treated_n, 10), (control_n, 10)) == pytest.approx(expected, abs=1e-9)


@pytest.mark.table("efficacy_henderson_tilton")
def test_counts_before_and_after(row: Row, printed: Printed) -> None:
    *counts, expected = row.values()
    assert henderson_tilton_pct(*((int(count), 10) for count in counts)) == printed(expected)


@given(st.integers(1, 500), st.integers(0, 500), st.integers(1, 500))
def test_without_change_in_the_control_it_is_the_plain_fall(before: int, after: int, control: int) -> None:
    plain = 100.0 * (before - after) / before
    assert henderson_tilton_pct((before, 9), (after, 9), (control, 9), (control, 9)) == pytest.approx(plain, abs=1e-9)


def test_what_cannot_be_compared_is_refused() -> None:
    with pytest.raises(ValueError, match="control_living_n"):
        abbott_pct((5, 10), (0, 10))
    with pytest.raises(ValueError, match="looked_n"):
        abbott_pct((5, 0), (5, 10))
    with pytest.raises(ValueError, match="found_n"):
        abbott_pct((-1, 10), (5, 10))
    for counts in ((0, 5, 5, 5), (5, 5, 0, 5), (5, 5, 5, 0), (5, -1, 5, 5)):
        with pytest.raises(ValueError, match=r"is -?[01], the least"):
            henderson_tilton_pct(*((count, 10) for count in counts))
