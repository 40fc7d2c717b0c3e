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


def test_the_printed_whole_degrees_are_read_up_to_the_next_one() -> None:
    """The table leaves gaps such as 17.5 °C and 15.05 °C; they belong to the class below. Our choice."""
    assert severity.leaf_spot_severity_n(24, 17.5) == severity.leaf_spot_severity_n(24, 17.0) == 3
    assert severity.leaf_spot_severity_n(24, 29.9) == 4
    assert severity.late_blight_severity_n(24, 15.05) == 4 and severity.late_blight_severity_n(10, 15.05) == 0
    assert [severity.late_blight_severity_n(24, t_c) for t_c in (7.1, 26.7)] == [0, 0]


def test_ten_days_of_leaf_spot_values() -> None:
    """A made-up run; the values read off the printed table by hand."""
    days = [(16, 7), (16, 6), (19, 9), (22, 13), (24, 21), (27, 4), (12, 24), (30, 24), (20, 23), (17, 24)]
    values = [severity.leaf_spot_severity_n(wet_h, float(t_c)) for t_c, wet_h in days]
    assert values == [1, 0, 2, 3, 4, 1, 0, 0, 4, 3]


@pytest.mark.parametrize(
    ("tmin_c", "humid_h", "fit"),
    # Hutton criteria 2017 (levy board summary): 10 °C and six hours at 90 % humidity
    [(10.0, 6, True), (9.9, 14, False), (12.0, 5.9, False), (12.0, 24, True)],
)
def test_a_day_fit_for_late_blight_is_warm_and_humid_enough(tmin_c, humid_h, fit) -> None:
    assert severity.humid_day(tmin_c, humid_h) is fit


@pytest.mark.parametrize(
    ("wet_h", "t_c", "infects"),
    # abstract of the factorial study named in the function: least wet hours by temperature, greatest 25 °C
    [
        (2, 20.0, True),
        (1.5, 20.0, False),
        (2, 18.0, False),
        (6, 12.0, True),
        (5, 15.0, False),
        (6, 8.0, False),
        (12, 8.0, True),
        (12, 5.0, True),
        (12, 4.0, False),
        (12, 25.0, True),
        (12, 26.0, False),
    ],
)
def test_nights_that_infect_cucumber_leaves(wet_h, t_c, infects) -> None:
    assert severity.downy_mildew_night(wet_h, t_c) is infects


def test_a_day_of_25_hours_is_refused() -> None:
    with pytest.raises(ValueError, match="wet_h"):
        severity.leaf_spot_severity_n(25, 20.0)


def test_a_temperature_that_is_not_a_number_is_refused_and_never_worth_nothing() -> None:
    for model in (severity.leaf_spot_severity_n, severity.late_blight_severity_n, severity.downy_mildew_night):
        with pytest.raises(ValueError, match="nan"):
            model(10, float("nan"))
    with pytest.raises(ValueError, match="tmin_c"):
        severity.humid_day(float("nan"), 12)
