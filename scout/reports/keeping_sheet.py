"""The keeping-up screen on paper: one HTML file without anything from outside, a page a planting."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from scout.errors import StoreError
from scout.plain import day_text, short_day

if TYPE_CHECKING:
    from scout.diagnosis.knife import Knife
    from scout.services.keeping_up import Judgement
    from scout.services.marked import MeasuredRow

_TEMPLATES = Path(__file__).parent / "templates"
_LADDER_WIDTH = 80
_LEFT, _RIGHT, _TOP, _FLOOR = 40.0, 620.0, 10.0, 220.0
_MOST_DAYS_NAMED = 8


@dataclass(frozen=True)
class Mark:
    """A label at a place of the drawing."""

    x: float
    y: float
    text: str


@dataclass(frozen=True)
class Curve:
    """One line of the drawing, as SVG points."""

    points: str
    dashed: bool


@dataclass(frozen=True)
class Sheet:
    """One planting as the template shows it."""

    planting: str | None
    verdict: str
    lines: tuple[str, ...]
    knife: tuple[str, ...]
    ladder: tuple[str, ...]
    legend: str
    curves: tuple[Curve, ...]
    ticks: tuple[Mark, ...]
    days: tuple[Mark, ...]
    rows: tuple[tuple[str, ...], ...]


def write_sheet(told: "Sequence[Judgement]", knives: "Sequence[Knife]", on: date, file: Path) -> None:
    """Write the verdicts as one HTML file to print. Errors: StoreError where the file cannot be written."""
    text = sheet_html([sheet_of(one, knives[n] if n < len(knives) else None) for n, one in enumerate(told)], on)
    try:
        file.write_text(text, encoding="utf-8")
    except OSError as failed:
        raise StoreError(f"{file}: cannot be written ({failed.strerror}).") from None


def sheet_html(sheets: Sequence[Sheet], on: date) -> str:
    """Return the page; every value is escaped."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    from scout.services.keeping_words import CHOICE

    room = Environment(loader=FileSystemLoader(_TEMPLATES), autoescape=True, undefined=StrictUndefined)
    template = room.get_template("keeping_sheet.html")
    return template.render(sheets=sheets, on=f"{day_text(on)} {on.year}", choice=CHOICE)


def sheet_of(told: "Judgement", knife: "Knife | None") -> Sheet:
    """Return one planting's verdict, advice, ladder, lines and counts as they are printed."""
    from scout.services.keeping_knife import knife_lines
    from scout.services.keeping_ladder import LEGEND, ladder
    from scout.services.keeping_words import lines_below, verdict_sentence
    from scout.services.marked import table_of

    table = table_of(told.followed.rows)
    curves, ticks, days = _drawing(table.top_leaf, table.front)
    return Sheet(
        told.planting,
        verdict_sentence(told),
        tuple(lines_below(told)),
        tuple(knife_lines(knife)) if knife is not None else (),
        tuple(ladder(table.rows, _LADDER_WIDTH, most_rows=30)),
        LEGEND,
        curves,
        ticks,
        days,
        tuple(_cells(row) for row in table.rows),
    )


def _cells(row: "MeasuredRow") -> tuple[str, ...]:
    counts = (row.top_leaf, row.highest_diseased, row.stripped_to, row.newly_diseased, row.leaves_standing)
    return row.on, row.label, *("–" if count is None else str(count) for count in counts)


Series = Sequence[tuple[date, float]]


def _drawing(top: Series, front: Series) -> tuple[tuple[Curve, ...], tuple[Mark, ...], tuple[Mark, ...]]:
    """Return both lines, the leaf numbers on the left and the days below; nothing for fewer than two days."""
    known = sorted({on for on, _ in (*top, *front)})
    if len(known) < 2:
        return (), (), ()
    highest = max(5.0, *(count for _, count in (*top, *front)))

    def x(on: date) -> float:
        return round(_LEFT + (on - known[0]).days / (known[-1] - known[0]).days * (_RIGHT - _LEFT), 1)

    def y(count: float) -> float:
        return round(_FLOOR - count / highest * (_FLOOR - _TOP), 1)

    curves = tuple(
        Curve(" ".join(f"{x(on)},{y(count)}" for on, count in series), dashed)
        for series, dashed in ((top, False), (front, True))
        if series
    )
    ticks = tuple(Mark(_LEFT, y(leaf), str(leaf)) for leaf in range(0, int(highest) + 1, 5))
    every = -(-len(known) // _MOST_DAYS_NAMED)
    return curves, ticks, tuple(Mark(x(on), _FLOOR, short_day(on)) for on in known[::every])
