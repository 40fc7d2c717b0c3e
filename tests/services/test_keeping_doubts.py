"""Counts in a file that can hardly be are questioned beside the verdict, and the verdict is given."""

import pytest

from scout.services.keeping_doubts import doubt_lines, doubts_in
from scout.services.keeping_followed import Followed
from scout.services.keeping_json import as_json
from scout.services.keeping_up import judge
from scout.services.marked import MeasuredRow


def row(day: int, top: int | None, spot: int | None, strip: int | None = None, new: int | None = None) -> MeasuredRow:
    return MeasuredRow(f"2026-07-{day:02d}", "A", top, spot, strip, new, None, "not_felt")


def test_a_spotted_leaf_above_the_top_is_questioned_and_counts_as_the_tip() -> None:
    rows = tuple(row(day, 15 + day // 4, 14 + day // 4 + day // 20) for day in (1, 8, 15, 22, 29))
    (said, *rest) = doubts_in((*rows, row(30, 22, 24)))
    assert said == "A, 30 July: highest spotted leaf 24 is above the top leaf 22; taken as 22." and not rest
    answer = as_json(judge(Followed(None, (*rows, row(30, 22, 24)))))
    assert answer["verdict"] == "losing" and answer["doubts"] == [said]


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ((row(1, 14, 3, 15),), "A, 1 July: stripped up to 15 is above the top leaf 14; taken as 14."),
        ((row(1, 14, 3, 2, 15),), "A, 1 July: 15 newly spotted leaves are more than the plant has (top leaf 14)."),
        ((row(9, 11, 3), row(1, 14, 3)), "A, 9 July: the top leaf was 14 before and is 11 now."),
        ((row(1, 14, 9, 8), row(9, 15, 9, 5)), "A, 9 July: the strip line was 8 before and is 5 now."),
    ],
)
def test_what_can_hardly_be_is_named_with_plant_and_day(rows: tuple[MeasuredRow, ...], said: str) -> None:
    assert doubts_in(rows) == (said,)


def test_a_slip_of_counting_gaps_and_spots_whose_leaf_was_taken_off_are_no_doubt() -> None:
    assert doubts_in((row(1, 14, 9, 4), row(5, 13, 2, 3), row(9, None, 20), row(12, 15, None, None, 0))) == ()


def test_more_than_three_doubts_are_counted_in_the_lines() -> None:
    lines = doubt_lines(tuple(row(day, 5, 9) for day in range(1, 7)))
    assert len(lines) == 4 and lines[-1] == "3 more counts can hardly be; --json lists them."


def test_where_nothing_was_counted_no_spot_is_not_said() -> None:
    answer = as_json(judge(Followed(None, tuple(row(day, None, None) for day in (1, 8, 15, 22)))))
    assert answer["because"] == "no_counts" and answer["sentence"] == "Cannot tell yet: nothing is measured."
