"""Choose what was seen: from the likeliest or the look's own list, from all of the crop's, or in own words."""

from collections.abc import Sequence

from scout.services.context import Context
from scout.services.views import StopView, SymptomView
from scout.tui.page import Line, Page, View
from scout.tui.screens.ask import ChoicePage, TextPage


class SymptomPage(Page[str]):
    """Pick one symptom; returns its id."""

    def __init__(self, context: Context, stop: StopView, offered: Sequence[SymptomView]) -> None:
        super().__init__()
        self._garden, self._stop = context, stop
        self._offered = tuple(offered)

    def view(self) -> View:
        """Offer a few signs, then the two ways to anything else."""
        rows = [s.name for s in self._offered]
        return View(
            f"{self._stop.bed} · {self._stop.crop}",
            [Line("What is it?", "bold")],
            [*rows, "Something else…"],
            ("words", "back"),
        )

    def picked(self, index: int) -> None:
        """Take the symptom, or go to the full list by part."""
        if index < len(self._offered):
            self.dismiss(self._offered[index].id)
            return
        from scout.services.symptom_list import parts_of

        parts = parts_of(self._garden, self._stop.planting_id)
        page = ChoicePage("Which part?", "", [name for name, _ in parts])
        self.ask(page, lambda number: self._choose_from(parts[number][1]))

    def _choose_from(self, symptoms: Sequence[SymptomView]) -> None:
        page = ChoicePage("What is it?", "", [symptom.name for symptom in symptoms])
        self.ask(page, lambda number: self.dismiss(symptoms[number].id))

    def do_words(self) -> None:
        """Ask for the grower's words and offer what they may mean."""
        hint = "For example: yellow leaves at the bottom with dark rings"
        self.ask(TextPage("In your own words", "What do you see?", hint=hint), self._typed)

    def _typed(self, words: str) -> None:
        if not words:
            return
        from scout.services.symptom_list import meant_by

        found = meant_by(self._garden, self._stop.crop_id, words)
        if found:
            self._choose_from(found)
        else:
            self.say("Nothing in the list is like that; choose by part, or write it as a note.")
