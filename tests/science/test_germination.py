"""Days to seedlings against the printed table, cell by cell, and what lies between and beyond."""

import pytest

from scout.science.germination import Emergence, emergence
from scout.science.units import c_from_f

Row = dict[str, str]
COLUMNS_F = ("32", "41", "50", "59", "68", "77", "86", "95", "104")


@pytest.mark.table("emergence")
def test_every_printed_cell(row: Row) -> None:
    warm = [int(f) for f in COLUMNS_F if row[f].isdigit()]
    for column in COLUMNS_F:
        found = emergence(row["crop"], c_from_f(float(column)))
        if row[column] == "NG":
            assert found == Emergence(None, "too_cold" if int(column) < min(warm) else "too_hot")
        elif row[column] == "-":
            assert found == Emergence(None, "not_tested")
        else:
            assert found == Emergence(float(row[column]), "yes")


@pytest.mark.parametrize(
    ("crop", "soil_f", "days"),
    # straight lines between printed cells, worked by hand
    [("cucumber", 72.5, 5.0), ("snap_bean", 81.5, 7.0), ("tomato", 63.5, 11.0)],
)
def test_between_two_printed_figures_a_straight_line(crop, soil_f, days) -> None:
    assert emergence(crop, c_from_f(soil_f)).days_d == pytest.approx(days)


@pytest.mark.parametrize(
    ("crop", "soil_c", "why"),
    [
        ("tomato", 7.0, "too_cold"),
        ("tomato", 37.0, "too_hot"),
        ("lettuce", 33.0, "too_hot"),
        ("cucumber", 38.0, "not_tested"),
        ("cucumber", -3.0, "not_tested"),
        ("cucumber", 45.0, "not_tested"),
        ("sweet_potato", 25.0, "not_tested"),
    ],
)
def test_no_line_is_drawn_to_where_nothing_grew_or_nobody_tried(crop, soil_c, why) -> None:
    assert emergence(crop, soil_c) == Emergence(None, why)


def test_what_is_not_a_number_is_refused() -> None:
    with pytest.raises(ValueError, match="soil_c"):
        emergence("tomato", float("nan"))
