"""One marked plant measured: five numbers, how the leaves feel, and a question where the numbers can hardly be."""

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
    ("newly_diseased", "Newly spotted leaves since last time?"),
    ("stripped_to", "Stripped up to which leaf, after today?"),
    ("leaves_standing", "Leaves left standing?"),
)
_WET = (("dry", "Dry to the hand"), ("wet", "Wet"), ("not_felt", "Not felt"))


class Measuring:
    """The questions of one visit to one plant; nothing is kept before the last is answered."""

    def __init__(
        self, page: Page[Any], context: Context, plant: MarkedView, planting_id: str, stop_id: str | None
    ) -> None:
        self._page, self._garden = page, context
        self._plant, self._planting_id, self._stop_id = plant, planting_id, stop_id
        self._given: dict[str, int | None] = {}
        self._typed: Mapping[str, int | None] = {}

    def begin(self, typed: Mapping[str, int | None] | None = None) -> None:
        """Ask from the first number on; `typed`: what was given the first time, to be mended."""
        self._given, self._typed = {}, typed or {}
        self._next()

    def _next(self) -> None:
        if len(self._given) < len(_ASKED):
            name, question = _ASKED[len(self._given)]
            head = f"{self._plant.label}  {self._plant.last}"
            number_page = NumberPage(head, question, most=200, given=self._typed.get(name))
            self._page.app.push_page(number_page, self._answered)
        else:
            rows = [text for _, text in _WET]
            self._page.app.push_page(ChoicePage(self._plant.label, "The leaves now, to your hand", rows), self._felt)

    def _answered(self, number: int | None) -> None:
        self._given[_ASKED[len(self._given)][0]] = number
        self._next()

    def _felt(self, number: int | None) -> None:
        wet = _WET[number][0] if number is not None else "not_felt"
        found = doubts(self._garden, self._plant.id, self._planting_id, self._given)
        if not found:
            self._keep(wet)
            return
        question = "\n".join((*(one.text for one in found), ASK))
        rows = ["No, count again", "Yes, keep it as typed"]
        acts = (lambda: self.begin(self._given), lambda: self._keep(wet))
        self._page.ask(ChoicePage(self._plant.label, question, rows), lambda number: acts[number]())

    def _keep(self, wet: str) -> None:
        marked.measure(self._garden, self._plant.id, stop_id=self._stop_id, wet=wet, **self._given)
        self._page.show()
