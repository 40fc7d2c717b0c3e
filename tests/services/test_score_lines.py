"""The score as plain lines: the diagram fits a phone and says counts and limits."""

from scout.services.score import Stretch
from scout.services.score_lines import diagram


def stretch(tenth: int, right_n: int, of_n: int, stated: float, low: float, high: float) -> Stretch:
    return Stretch(tenth / 10, (tenth + 1) / 10, of_n, right_n, stated, low, high)


NONE = Stretch(0.0, 0.1, 0, 0, None, None, None)
ROWS = (NONE, stretch(5, 9, 18, 0.55, 0.29, 0.71), stretch(9, 1200, 1200, 0.97, 0.99, 1.0))


def test_a_row_holds_the_share_right_its_limits_where_it_belongs_and_the_counts() -> None:
    row = next(line for line in diagram(ROWS) if line.startswith("50-60 %"))
    cells = row[9:34]
    assert cells.index("o") == 12 and cells.index("|") == 13  # 9 of 18 and 0.55, of 25 cells
    assert cells.index("-") == 7 and cells.rindex("-") == 17  # limits 0.29 and 0.71
    assert row.endswith("9/18")


def test_empty_tenths_are_left_out_and_no_line_is_wider_than_a_phone() -> None:
    lines = diagram(ROWS)
    assert not any(line.startswith("0-10") for line in lines)
    assert max(map(len, lines)) <= 45
    assert all(character.isascii() for line in lines for character in line)
