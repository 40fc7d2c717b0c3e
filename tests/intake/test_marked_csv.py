from datetime import date
from pathlib import Path

import pytest

from scout.errors import BadInput
from scout.intake.marked_csv import MarkedRow, read_marked, read_marked_text

HEADING = "plant,date,top_leaf,highest_diseased,stripped_to,newly_diseased,leaves_standing"
TWO = f"{HEADING}\nA,2026-07-01,14,3,2,2,12\nA,2026-07-08,16,,,,\n"


def _refused(text: str) -> str:
    with pytest.raises(BadInput) as caught:
        read_marked_text(text, "marked.csv")
    sentence = str(caught.value)
    assert "marked.csv" in sentence and sentence.endswith(".") and ".." not in sentence and "\n" not in sentence
    return sentence


def test_counts_are_read_and_empty_is_not_measured() -> None:
    found = read_marked_text(TWO, "marked.csv")
    assert found.rows == (
        MarkedRow(2, "A", date(2026, 7, 1), 14, 3, 2, 2, 12, None, None, None),
        MarkedRow(3, "A", date(2026, 7, 8), 16, None, None, None, None, None, None, None),
    )
    assert not found.by_planting


def test_zero_is_a_measurement() -> None:
    (row,) = read_marked_text(f"{HEADING}\nA,2026-07-01,14,0,0,0,14\n", "m").rows
    assert (row.highest_diseased, row.stripped_to, row.newly_diseased) == (0, 0, 0)


def test_the_optional_columns_are_read() -> None:
    found = read_marked_text(f"{HEADING},wet_h,planting,disease\nA,2026-07-01,14,3,2,2,12,7.5,Row 1,septoria\n", "m")
    (row,) = found.rows
    assert (row.wet_h, row.planting, row.disease, found.by_planting) == (7.5, "Row 1", "septoria", True)


def test_a_spreadsheets_semicolons_decimal_commas_and_headings_are_read() -> None:
    text = f"{HEADING},wet_h".replace(",", ";").replace("top_leaf", "Top leaf") + "\nA;13.07.2026;14;3;2;2;12;7,5\n"
    (row,) = read_marked_text(text, "m").rows
    assert (row.on, row.top_leaf, row.wet_h) == (date(2026, 7, 13), 14, 7.5)


def test_one_plant_name_may_stand_in_two_plantings() -> None:
    text = f"{HEADING},planting\nA,2026-07-01,14,3,2,2,12,one\nA,2026-07-01,14,3,2,2,12,two\n"
    assert len(read_marked_text(text, "m").rows) == 2


def test_a_plant_diseased_to_the_tip_is_read() -> None:
    (row,) = read_marked_text(f"{HEADING}\nA,2026-07-01,14,14,14,2,0\n", "m").rows
    assert row.highest_diseased == row.top_leaf == 14


def test_counts_that_can_hardly_be_are_read_as_written() -> None:
    (row,) = read_marked_text(f"{HEADING}\nA,2026-07-01,14,15,16,2,12\n", "m").rows
    assert (row.top_leaf, row.highest_diseased, row.stripped_to) == (14, 15, 16)


def test_tables_with_gaps_write_decimals_and_marks_for_what_was_not_measured() -> None:
    (row,) = read_marked_text(f"{HEADING}\nA,2026-07-01 08:30:00,14.0,3.00,NaN,NA,-\n", "m").rows
    assert row == MarkedRow(2, "A", date(2026, 7, 1), 14, 3, None, None, None, None, None, None)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("A,2026-07-01,14,3,2,2,12", "row 4: plant “A” on 2026-07-01 is already in row 2"),
        (",2026-07-09,14,3,2,2,12", "row 4: column plant is empty"),
        ("A,soon,14,3,2,2,12", "row 4: column date: “soon” is not a date"),
        ("A,,14,3,2,2,12", "row 4: column date"),
        ("A,2026-07-09,x,3,2,2,12", "row 4: column top_leaf: “x” is not a whole number"),
        ("A,2026-07-09,14.5,3,2,2,12", "row 4: column top_leaf"),
        ("A,2026-07-09,14,-3,2,2,12", "row 4: column highest_diseased"),
        ("A,2026-07-09,14,3,2,some,12", "row 4: column newly_diseased"),
        ("A,2026-07-09T8,14,3,2,2,12", "row 4: column date: “2026-07-09T8” is not a date"),
        ("A,2026-07-09,14,3,2,2,900", "row 4: column leaves_standing: 900 is more leaves"),
        ("A,2026-07-09,14,3,2,2", "row 4: 6 cells where the heading has 7"),
        (f"{'A' * 10_000},2026-07-09,14,3,2,2,12", "row 4: column plant has 10,000 characters"),
    ],
)
def test_a_row_that_cannot_be_is_named_with_its_column(line: str, said: str) -> None:
    assert said in _refused(TWO + line + "\n")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "is empty"),
        (f"{HEADING}\n", "heading and no rows"),
        ("plant,date\nA,2026-07-01\n", "no column “top_leaf”, “highest_diseased”"),
        (f"{HEADING},wet_hours\nA,2026-07-01,14,3,2,2,12,5\n", "the column “wet_hours” is not known"),
        (f"{HEADING},plant\nA,2026-07-01,14,3,2,2,12,B\n", "the column “plant” stands twice"),
        (f"{HEADING},wet_h\nA,2026-07-01,14,3,2,2,12,-5\n", "row 2: column wet_h: -5 hours cannot be"),
        (f"{HEADING},wet_h\nA,2026-07-01,14,3,2,2,12,wet\n", "row 2: column wet_h: “wet” is not a number"),
        (f"{HEADING}\nA,01/07/2026,14,3,2,2,12\n", "column date: “01/07/2026” can be day/month or month/day"),
    ],
)
def test_a_file_that_cannot_be_used_is_refused(text: str, said: str) -> None:
    assert said in _refused(text)


def test_a_file_is_read_from_disk_and_a_missing_one_named(tmp_path: Path) -> None:
    (tmp_path / "m.csv").write_text(TWO, encoding="utf-16")
    assert len(read_marked(tmp_path / "m.csv").rows) == 2
    with pytest.raises(BadInput, match=r"no file “gone\.csv”"):
        read_marked(tmp_path / "gone.csv")
