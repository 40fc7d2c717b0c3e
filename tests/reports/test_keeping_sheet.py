"""The sheet on paper: everything the screen says, nothing from outside, and every name as text."""

from datetime import date
from html.parser import HTMLParser
from pathlib import Path

import pytest

from scout.errors import StoreError
from scout.reports.keeping_sheet import sheet_html, sheet_of, write_sheet
from scout.services.keeping_followed import Followed
from scout.services.keeping_up import judge
from scout.services.keeping_words import lines_below, verdict_sentence
from scout.services.marked import MeasuredRow

DAYS = ("2026-07-01", "2026-07-08", "2026-07-15", "2026-07-22")
NASTY = "<script>alert(1)</script> & {{ 7 * 7 }}"


def told(name: str = "Bed/Tomato", label: str = "A"):
    return judge(
        Followed(
            name,
            tuple(MeasuredRow(day, label, 16 + 2 * n, 5 + n, None, 1, None, "dry") for n, day in enumerate(DAYS)),
        )
    )


class Page(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.links: list[str] = []
        self.words = ""
        self.points: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.links += [value or "" for name, value in attrs if name in ("src", "href", "action")]
        self.points += [value or "" for name, value in attrs if name == "points"]

    def handle_data(self, data: str) -> None:
        self.words += data


def page(*names: str, label: str = "A") -> Page:
    return Page(sheet_html([sheet_of(told(name, label), None) for name in names], date(2026, 7, 22)))


def test_it_says_what_the_screen_says() -> None:
    found, one = page("Bed/Tomato"), told()
    for line in (verdict_sentence(one), *lines_below(one)):
        assert line in found.words
    assert "22 July 2026" in found.words and found.tags.count("tr") == 1 + len(DAYS)


def test_names_are_text_and_nothing_is_fetched() -> None:
    found = page(NASTY, label=NASTY)
    assert "script" not in found.tags and found.words.count(NASTY) >= 1 + len(DAYS)
    assert found.links == []


def test_both_lines_rise_to_the_right_and_the_top_leaf_runs_above_the_spots() -> None:
    top, front = ([tuple(map(float, p.split(","))) for p in line.split()] for line in page("Bed").points)
    assert [x for x, _ in top] == sorted(x for x, _ in top) and len(top) == len(front) == len(DAYS)
    assert all(high < low for (_, high), (_, low) in zip(top, front, strict=True))  # y counts downwards
    assert top[0][1] > top[-1][1]


def test_a_page_a_planting_and_one_visit_draws_no_line() -> None:
    assert page("One", "Two").tags.count("section") == 2
    one = judge(Followed(None, (MeasuredRow(DAYS[0], "A", 16, 5, None, None, None, "dry"),)))
    assert "svg" not in Page(sheet_html([sheet_of(one, None)], date(2026, 7, 1))).tags


def test_a_file_that_cannot_be_written_is_said_in_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="cannot be written"):
        write_sheet([told()], (), date(2026, 7, 22), tmp_path / "none" / "sheet.html")
    write_sheet([told()], (), date(2026, 7, 22), tmp_path / "sheet.html")
    assert verdict_sentence(told()) in Page((tmp_path / "sheet.html").read_text(encoding="utf-8")).words
