"""One marked plant measured: how the leaves feel, five numbers, and a question where the numbers can hardly be."""

from collections.abc import Mapping
from typing import Any

from scout.services import marked
from scout.services.context import Context
from scout.services.marked import MarkedView
from scout.services.marked_doubts import ASK, doubts
from scout.tui.page import Page
from scout.tui.screens.ask import ChoicePage, NumberPage

_ASKED = (
    ("top_leaf", "Top open leaf, counted from the soil?"),
    ("highest_diseased", "Highest spotted leaf, also those you take off? 0: none"),
    ("newly_diseased", "Newly spotted leaves since last time, also those you take off?"),
    ("stripped_to", "Stripped up to which leaf, after today?"),
    ("leaves_standing", "Leaves left standing, after today?"),
)
_SPOTTED_NOW = "Spotted leaves on it now, also those you take off?"
"""In place of the newly spotted ones, at the first visit."""
_WET = (("dry", "Dry"), ("wet", "Wet"), ("not_felt", "Not felt"))
_FEEL = "Feel a leaf before you touch the rest. How is it? Wet: count by eye, touch and strip nothing."
_MOST = 200


class Measuring:
    """The questions of one visit to one plant; nothing is kept before the last, and Back goes to the one before."""

    def __init__(
        self, page: Page[Any], context: Context, plant: MarkedView, planting_id: str, stop_id: str | None
    ) -> None:
        self._page, self._garden = page, context
        self._plant, self._planting_id, self._stop_id = plant, planting_id, stop_id
        self._given: dict[str, int | None] = {}
        self._wet = 0

    def begin(self) -> None:
        """Ask how the leaves feel, then number by number."""

        def felt(number: int) -> None:
            self._wet = number
            self._ask(0)

        rows = [text for _, text in _WET]
        self._page.ask(ChoicePage(self._plant.label, _FEEL, rows, highlight=self._wet), felt)

    def _ask(self, at: int) -> None:
        if at == len(_ASKED):
            self._look_over()
            return
        name, question = _ASKED[at]
        if name == "newly_diseased" and not self._plant.before:
            question = _SPOTTED_NOW
        page = NumberPage(self._plant.label, question, most=_MOST, given=self._offered(name), note=self._note(name))

        def answered(number: int | None) -> None:
            if not page.left:
                self._given[name] = number
                self._ask(at + 1)
            elif at:
                self._ask(at - 1)
            else:
                self.begin()

        self._page.app.push_page(page, answered)

    def _offered(self, name: str) -> int | None:
        """Return what Enter keeps: what was typed before, or the strip line, which stays where nothing is stripped."""
        if name in self._given:
            return self._given[name]
        return self._plant.before.get(name) if name == "stripped_to" else None

    def _note(self, name: str) -> str:
        before = self._plant.before.get(name)
        last = f"Last time {before}. " if before is not None else ""
        return f"{last}Enter alone: not counted." if self._offered(name) is None else last.strip()

    def _look_over(self) -> None:
        found = doubts(self._garden, self._plant.id, self._planting_id, self._given)
        if not found:
            self._keep()
            return
        question = "\n".join((*(one.text for one in found), ASK))
        page = ChoicePage(self._plant.label, question, ["No, count again", "Yes, keep it as typed"])
        self._page.app.push_page(page, self._doubted)

    def _doubted(self, answer: int | None) -> None:
        if answer == 1:
            self._keep()
        else:
            self._ask(0 if answer == 0 else len(_ASKED) - 1)

    def _keep(self) -> None:
        given: Mapping[str, int | None] = self._given
        marked.measure(self._garden, self._plant.id, stop_id=self._stop_id, wet=_WET[self._wet][0], **given)
        self._page.show()
