"""The ladder of leaves: soil at the bottom, each visit a column, signs instead of colour."""

from scout.services.keeping_ladder import ladder
from scout.services.marked import MeasuredRow


def row(on: str, top: int | None, spots: int | None, strip: int | None, label: str = "A") -> MeasuredRow:
    return MeasuredRow(on, label, top, spots, strip, None, None, "not_felt")


def test_leaves_are_clean_above_the_spots_and_gone_below_the_strip_line() -> None:
    drawn = ladder([row("2026-07-01", 4, 2, 0), row("2026-07-08", 5, 3, 2)], 45)
    assert drawn == [
        "  5 |          o",
        "  4 |   o      o",
        "  3 |   o      x",
        "  2 |   x      -",
        "  1 |   x      -",
        "soil  1 Jul  8 Jul",
    ]


def test_a_stripped_leaf_stays_gone_at_visits_that_stripped_nothing() -> None:
    drawn = ladder([row("2026-07-01", 3, 2, 2), row("2026-07-08", 3, 0, None)], 45)
    assert [line.count("-") for line in drawn[:3]] == [0, 2, 2]


def test_spots_that_were_not_counted_are_not_drawn_as_clean() -> None:
    assert "?" in ladder([row("2026-07-01", 3, None, 0)], 45)[0]


def test_the_last_visits_are_kept_where_not_all_fit() -> None:
    rows = [row(f"2026-07-{day:02}", 10, 2, 0) for day in range(1, 15)]
    foot = ladder(rows, 45)[-1]
    assert "14 Jul" in foot and " 1 Jul" not in foot and len(foot) <= 45


def test_tall_plants_are_drawn_several_leaves_a_row() -> None:
    drawn = ladder([row("2026-07-01", 40, 5, 0)], 45)
    assert len(drawn) <= 13 and drawn[0].startswith(" 40 |")


def test_nothing_counted_draws_nothing() -> None:
    assert ladder([], 45) == [] and ladder([row("2026-07-01", None, 3, 0)], 45) == []
