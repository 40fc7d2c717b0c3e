from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.errors import BadInput
from scout.intake.sheet import Hints, Intake, RefusedRow
from scout.intake.weather_csv import DayRow, read_days
from scout.science.weather_day import LIMITS


def _days(tmp_path: Path, text: str, encoding: str = "utf-8", **options: object) -> Intake[DayRow]:
    file = tmp_path / "days.csv"
    file.write_bytes(text.encode(encoding))
    return read_days(file, Hints(**options))  # type: ignore[arg-type]


def _day(number: int, *figures: float | bool | None) -> DayRow:
    return DayRow(date(2026, 7, number), *figures)  # type: ignore[arg-type]


PLAIN = """date,tmax_c,tmin_c,rain_mm,wet_h,wet_morning,rh_mean_pct
2026-07-01,31.5,18,0.4,6.5,1,71
2026-07-02,29,17.5,,,0,
"""


def test_the_projects_own_headings_are_read(tmp_path: Path) -> None:
    intake = _days(tmp_path, PLAIN)
    assert intake.rows == (_day(1, 31.5, 18.0, 0.4, 6.5, True, 71.0), _day(2, 29.0, 17.5, None, None, False, None))
    assert intake.refused == ()


def test_what_was_understood_is_told_before_anything_is_written(tmp_path: Path) -> None:
    told = " ".join(_days(tmp_path, "Day;High °F;Low °F;Rain;Moon\n1.7.2026;88;61;0,5;full\n").understood)
    for part in ("semicolon", "decimal comma", "“High °F” is highest temperature, °F", "Not used: Moon"):
        assert part in told
    assert "“Rain” is rain, mm (no unit given)" in told and "day/month/year" in told


@pytest.mark.parametrize(
    "heading",
    [
        "Date,Max temp (°C),Min temp (°C),Rain (mm)",
        "day,tmax,tmin,rain",
        "DATE,TMAX,TMIN,PRCP",
        "Datum,Temp. max. [°C],Temp. min. [°C],Niederschlag [mm]",
        "date,High,Low,Precip",
        '"Date","Daily high, °C","Daily low, °C","Rainfall (mm)"',
        "Date,Maximum temperature C,Minimum temperature C,Total precipitation mm",
    ],
)
def test_headings_in_common_use_are_recognised(tmp_path: Path, heading: str) -> None:
    assert _days(tmp_path, f"{heading}\n2026-07-01,31.5,18,2\n").rows == (_day(1, 31.5, 18.0, 2.0, None, None, None),)


def test_fahrenheit_and_inches_from_the_headings_become_metric(tmp_path: Path) -> None:
    """50 °F = 10 °C and 95 °F = 35 °C by definition of the scale; 1 inch = 25.4 mm by definition."""
    (row,) = _days(tmp_path, "Date,High (°F),Low (°F),Rain (in)\n2026-07-01,95,50,1\n").rows
    assert (row.tmax_c, row.tmin_c, row.rain_mm) == (35.0, 10.0, 25.4)


def test_units_in_a_row_of_their_own_are_read(tmp_path: Path) -> None:
    intake = _days(tmp_path, "Date,Tmax,Tmin,Rain\n,°F,°F,in\n2026-07-01,95,50,1\n")
    assert [(row.tmax_c, row.rain_mm) for row in intake.rows] == [(35.0, 25.4)]


def test_the_hint_gives_the_units_the_headings_leave_out(tmp_path: Path) -> None:
    (row,) = _days(tmp_path, "Date,High,Low,Rain\n2026-07-01,95,50,1\n", units_hint="us").rows
    assert (row.tmax_c, row.tmin_c, row.rain_mm) == (35.0, 10.0, 25.4)


def test_temperatures_too_high_for_celsius_without_a_unit_are_asked_about(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="goes up to 95 and names no unit"):
        _days(tmp_path, "Date,High,Low\n2026-07-01,95,50\n")


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_each_delimiter_is_found(tmp_path: Path, delimiter: str) -> None:
    assert _days(tmp_path, PLAIN.replace(",", delimiter)).rows == _days(tmp_path, PLAIN).rows


def test_decimal_commas_are_read_with_semicolons_and_in_quotation_marks(tmp_path: Path) -> None:
    expected = (_day(1, 31.5, 18.0, 0.25, None, None, None),)
    assert _days(tmp_path, "date;tmax;tmin;rain\n01.07.2026;31,5;18;0,25\n").rows == expected
    assert _days(tmp_path, 'date,tmax,tmin,rain\n2026-07-01,"31,5",18,"0,25"\n').rows == expected


def test_three_decimals_after_a_comma_are_settled_by_the_rest_of_the_file(tmp_path: Path) -> None:
    (row,) = _days(tmp_path, "date;tmax;tmin\n2026-07-01;31,375;18,5\n").rows
    assert row.tmax_c == 31.375


def test_a_bare_decimal_comma_in_a_comma_file_is_refused_with_the_mend(tmp_path: Path) -> None:
    (refused,) = _days(tmp_path, "date,tmax,tmin\n2026-07-01,31,5,18\n").refused
    assert refused.row == 2 and "4 cells where the heading has 3" in refused.reason and "quotation" in refused.reason


def test_two_decimal_signs_in_one_file_are_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match=r"days\.csv.*decimal comma and some a decimal point"):
        _days(tmp_path, "date;tmax;tmin\n2026-07-01;31,5;18.5\n")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "latin-1", "cp1252"])
def test_each_encoding_is_read(tmp_path: Path, encoding: str) -> None:
    (row,) = _days(tmp_path, "Date,Max (°C),Min (°C)\n2026-07-01,31.5,18\n", encoding).rows
    assert (row.tmax_c, row.tmin_c) == (31.5, 18.0)


@pytest.mark.parametrize("ending", ["\r\n", "\r", "\n"])
def test_each_line_ending_is_read(tmp_path: Path, ending: str) -> None:
    assert len(_days(tmp_path, PLAIN.replace("\n", ending)).rows) == 2


@pytest.mark.parametrize(
    ("first", "second"), [("13/07/2026", "14/07/2026"), ("07/13/2026", "07/14/2026"), ("13.07.26", "14.07.26")]
)
def test_the_order_of_day_and_month_comes_from_the_data(tmp_path: Path, first: str, second: str) -> None:
    rows = _days(tmp_path, f"date,tmax,tmin\n{first},31,18\n{second},30,17\n").rows
    assert [row.on for row in rows] == [date(2026, 7, 13), date(2026, 7, 14)]


def test_dates_that_can_be_read_two_ways_are_refused_and_an_order_settles_them(tmp_path: Path) -> None:
    text = "date,tmax,tmin\n01/07/2026,31,18\n05/07/2026,30,17\n"
    with pytest.raises(BadInput, match=r"days\.csv.*day/month or month/day"):
        _days(tmp_path, text)
    assert _days(tmp_path, text, date_order="dmy").rows[1].on == date(2026, 7, 5)


def test_a_time_of_day_behind_the_date_of_a_day_is_passed_over(tmp_path: Path) -> None:
    for text in ("2026-07-01T00:00", "2026-07-01 00:00:00", "1 JUL 2026", "01.07.2026 12:00"):
        (row,) = _days(tmp_path, f"date,tmax,tmin\n{text},31,18\n").rows
        assert row.on == date(2026, 7, 1)


def test_lines_above_the_heading_and_blank_lines_are_passed_over(tmp_path: Path) -> None:
    intake = _days(tmp_path, f"Station 12, garden\nExported, weekly\n\n{PLAIN}\n\n2026-07-03,30,18,,,,\n,,,,,,\n")
    assert [row.on.day for row in intake.rows] == [1, 2, 3]
    assert intake.refused == ()


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("2026-07-01,30,18,1", "already in row 2"),
        ("2026-07-09,99,18,1", "99 °C cannot be (possible is -60 to 60 °C)"),
        ("2026-07-09,30,18,-1", "cannot be"),
        ("2026-07-09,17,18,1", "lowest temperature (18 °C) is above the highest (17 °C)"),
        ("2026-02-30,30,18,1", "no day of the calendar"),
        ("soon,30,18,1", "not a date"),
        ("2026-07-09,30,18", "3 cells where the heading has 4"),
        ("2026-07-09,30,18,1,9", "5 cells where the heading has 4"),
        ("2026-07-09,warm,18,1", "“warm” is not a number"),
        ("2026-07-09,1_0,8,1", "“1_0” is not a number"),
        ("2026-07-09,inf,8,1", "“inf” is not a number"),
        ("2026-07-09,,,", "no figure"),
    ],
)
def test_a_row_that_cannot_be_is_refused_with_number_and_reason(tmp_path: Path, row: str, said: str) -> None:
    intake = _days(tmp_path, f"date,tmax (°C),tmin (°C),rain (mm)\n2026-07-01,30,18,1\n{row}\n2026-07-03,31,19,0\n")
    assert [kept.on.day for kept in intake.rows] == [1, 3]
    (refused,) = intake.refused
    assert refused.row == 3 and said in refused.reason and refused.reason.endswith(".")


def test_refused_rows_come_in_the_order_of_the_file(tmp_path: Path) -> None:
    intake = _days(tmp_path, "date,tmax,tmin\nsoon,30,18\n2026-07-01,30\n2026-07-02,17,18\n2026-07-03,30,18\n")
    assert [refused.row for refused in intake.refused] == [2, 3, 4]


def test_loggers_marks_for_no_reading_become_missing_never_a_figure(tmp_path: Path) -> None:
    intake = _days(tmp_path, "date,tmax,tmin,rain\n2026-07-01,-999,18,NaN\n2026-07-02,30,--,-99\n2026-07-03,M,18,T\n")
    assert [(row.tmax_c, row.tmin_c, row.rain_mm) for row in intake.rows] == [
        (None, 18.0, None),
        (30.0, None, None),
        (None, 18.0, 0.0),
    ]


def test_wetness_in_minutes_becomes_hours(tmp_path: Path) -> None:
    (row,) = _days(tmp_path, "date,leaf wetness (min),tmax\n2026-07-01,390,30\n").rows
    assert row.wet_h == 6.5


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "is empty"),
        ("a,b\n1,2\n", "no column for the day; found: “a”, “b”"),
        ("date,moon\n2026-07-01,full\n", "no column for any weather; found: “date”, “moon”"),
        ("tmax,tmin\n30,18\n", "no column for the day"),
        ("date,tmax,tmin\n", "heading and no rows"),
        ("date,tmax,high,tmin\n2026-07-01,1,2,3\n", "“tmax” and “high” both look like highest temperature"),
        ("date,tmax (mm),tmin\n2026-07-01,1,2\n", "cannot be in mm"),
        ('date,tmax,tmin\n2026-07-01,"30,18\n', "quotation mark"),
        ("date,tmax\x00,tmin\n", "not a text file"),
    ],
)
def test_a_file_that_cannot_be_used_is_refused_in_one_sentence(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(BadInput) as caught:
        _days(tmp_path, text)
    assert said in str(caught.value) and "days.csv" in str(caught.value) and "\n" not in str(caught.value)


def test_a_missing_file_and_a_folder_are_named(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match=r"no file “gone\.csv”"):
        read_days(tmp_path / "gone.csv")
    with pytest.raises(BadInput, match="is a folder"):
        read_days(tmp_path)


def test_a_cell_is_shown_cleaned_and_short(tmp_path: Path) -> None:
    cell = "\x1b[31m[/z]" + "9" * 5000
    (refused,) = _days(tmp_path, f"date,tmax,tmin\n2026-07-01,{cell},18\n").refused
    assert "\x1b" not in refused.reason and "[/z]" in refused.reason and len(refused.reason) < 120


def _limited(name: str) -> st.SearchStrategy[float | None]:
    low, high = LIMITS[name]
    return st.none() | st.integers(int(low * 10), int(high * 10)).map(lambda tenths: tenths / 10)


@given(
    st.lists(st.tuples(_limited("tmax_c"), _limited("rain_mm"), _limited("wet_h")), min_size=1, max_size=8),
    st.sampled_from([(",", "."), (";", ","), ("\t", ",")]),
)
def test_what_is_written_in_any_form_comes_back(
    tmp_path_factory: pytest.TempPathFactory,
    figures: list[tuple[float | None, ...]],
    form: tuple[str, str],
) -> None:
    delimiter, sign = form
    lines = [delimiter.join(("date", "tmax (°C)", "rain (mm)", "wet hours"))]
    for number, row in enumerate(figures, 1):
        cells = ["" if value is None else str(value).replace(".", sign) for value in row]
        lines.append(delimiter.join((f"2026-07-{number:02d}", *cells)))
    intake = _days(tmp_path_factory.mktemp("any"), "\n".join(lines))
    empty = tuple(
        RefusedRow(number + 1, "no figure in this row.") for number, row in enumerate(figures, 1) if set(row) == {None}
    )
    assert intake.refused == empty
    assert [(row.tmax_c, row.rain_mm, row.wet_h) for row in intake.rows] == [
        row for row in figures if set(row) != {None}
    ]
