"""A pest counted against its mark: which, on how many, and what that says."""

from typing import Any

from scout.knowledge.control_file import ActionMark
from scout.services import action_marks
from scout.services.context import Context
from scout.services.counting import Count
from scout.services.garden import planted_as
from scout.tui.page import Line, Page
from scout.tui.screens.ask import ChoicePage, NoticePage, NumberPage

_MOST = 9_999


class PestCount:
    """The three questions of one count; nothing is kept before the last is answered."""

    def __init__(self, page: Page[Any], context: Context, planting_id: str, looked_n: int | None) -> None:
        self._page, self._garden, self._looked_n = page, context, looked_n
        self._plant = planted_as(context, planting_id)

    def ask(self) -> None:
        """Ask which pest, on how many looked at, how many found; keep it and say how it stands to the mark."""
        marks = action_marks.marks_for(self._garden, self._plant)
        if not marks:
            crop = self._plant.crop.name.lower()
            self._page.say(f"No mark is known for {crop} at this stage; note what you see as a finding.")
            return

        rows = [f"{mark.what}, on {mark.unit}" for mark in marks]
        page = ChoicePage(self._plant.bed, "What is counted?", rows)
        self._page.ask(page, lambda number: self._looked(marks[number]))

    def _looked(self, mark: ActionMark) -> None:
        given = self._looked_n if mark.unit == "plants" else 10
        question = f"How many {mark.unit} did you look at?"
        page = NumberPage(self._plant.bed, question, most=_MOST, least=1, given=given)
        self._page.ask(page, lambda of: self._found(mark, of))

    def _found(self, mark: ActionMark, of: int) -> None:
        def answered(n: int) -> None:
            answer = action_marks.keep_pest_count(self._garden, self._plant, mark, Count(n, of))
            lines = [Line(text, "bold" if place == 1 else "") for place, text in enumerate(answer.lines)]
            self._page.app.push_page(NoticePage(f"{self._plant.bed} · {answer.what}", lines))

        question = f"{mark.what[:1].upper()}{mark.what[1:]}: how many on these {of} {mark.unit}?"
        most = of if mark.way == "share" else _MOST
        self._page.ask(NumberPage(self._plant.bed, question, most=most), answered)
