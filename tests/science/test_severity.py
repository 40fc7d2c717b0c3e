"""Severity values cell by cell, and the rules of humid nights."""

import pytest

from scout.science import severity

Row = dict[str, str]


def cells(row: Row) -> list[int]:
    begins = [int(row[name]) for name in ("one_h", "two_h", "three_h", "four_h")]
    return [sum(hour >= begin for begin in begins) for hour in range(25)]


@pytest.mark.table("leaf_spot_severity")
def test_leaf_spot_values_in_every_cell(row: Row) -> None:
    expected = cells(row)
    assert sum(expected) == int(row["row_sum"])
    for t_c in range(int(row["from_c"]), int(row["to_c"]) + 1):
        assert [severity.leaf_spot_severity_n(hour, float(t_c)) for hour in range(25)] == expected


@pytest.mark.table("late_blight_severity")
def test_late_blight_values_in_every_cell(row: Row) -> None:
    expected = cells(row)
    assert sum(expected) == int(row["row_sum"])
    for t_c in (float(row["from_c"]), float(row["to_c"])):
        assert [severity.late_blight_severity_n(hour, t_c) for hour in range(25)] == expected


@pytest.mark.parametrize("t_c", [-5.0, 12.9, 30.0, 41.0])
def test_outside_its_temperatures_a_wet_day_is_worth_nothing(t_c) -> None:
    assert severity.leaf_spot_severity_n(24, t_c) == 0


def test_smith_1956_and_hutton_2017_need_two_days_in_a_row() -> None:
    assert severity.two_humid_days([10.0, 10.0], [11, 11], severity.SMITH_H)
    assert not severity.two_humid_days([10.0, 10.0], [11, 10], severity.SMITH_H)
    assert severity.two_humid_days([10.0, 10.0], [6, 6])
    assert not severity.two_humid_days([10.0, 9.9], [24, 24])
    assert not severity.two_humid_days([10.0, 5.0, 10.0], [12, 0, 12])


@pytest.mark.parametrize(
    ("wet_h", "t_c", "infects"),
    # abstract of the factorial study named in the function: least wet hours by temperature
    [
        (2, 20.0, True),
        (2, 19.0, False),
        (6, 10.0, True),
        (5, 15.0, False),
        (12, 5.0, True),
        (12, 4.0, False),
        (24, 29.0, False),
    ],
)
def test_nights_that_infect_cucumber_leaves(wet_h, t_c, infects) -> None:
    assert severity.downy_mildew_night(wet_h, t_c) is infects


def test_a_day_of_25_hours_is_refused() -> None:
    with pytest.raises(ValueError, match="wet_h"):
        severity.leaf_spot_severity_n(25, 20.0)
