"""The likely causes: the answer in words, the one next question, and what to do about it."""

from scout.services import causes as service
from scout.services.context import Context
from scout.services.views import CausesView
from scout.tui.page import GardenPage, Line, View
from scout.tui.screens.ask import NoticePage
from scout.tui.screens.cause import OneCausePage
from scout.tui.screens.confirmed import ConfirmedPage
from scout.tui.screens.fruit_size import ask_size


class CausesPage(GardenPage[None]):
    """Ranked causes at a stop; y and n answer the question on screen and the ranking moves."""

    def __init__(self, context: Context, stop_id: str) -> None:
        super().__init__(context)
        self._stop_id = stop_id
        self._view: CausesView | None = None
        self._question = 0
        self._above: OneCausePage | None = None

    def view(self) -> View:
        """Show the answer first, then the question, then the causes."""
        found = self._view = service.causes_at(self._garden, self._stop_id, self.once_drawn)
        if found.stop is not None:
            title, warning = found.stop
            return View(title, [Line(text, "bold") for text in warning], actions=("done", "undo"))
        lines = [Line(found.headline, "bold"), *(Line(text) for text in found.disease)]
        lines += [Line(f"? {found.size} (s)", "bold")] if found.size else []
        lines += self._question_lines(found)
        lines += [Line(text) for text in found.course]
        lines += [Line(text) for text in found.cannot_tell]
        lines += [Line(f"! Rule out first: {text}", "bold") for text in found.rule_out]
        lines += [Line(text) for text in (*found.pull, *found.together, *found.unexplained)]
        rows = [f"{row.name} — {row.chance}" for row in found.causes]
        asks = ("yes", "no", "other_question") if found.questions else ()
        more = ("fruit_size",) if found.size else ()
        return View("Likely causes", lines, rows, ("to_stop", *asks, *more, "why", "history", "undo"))

    def returned(self) -> None:
        """Rank anew only where something was answered on the page of a cause."""
        if self._above is not None and self._above.answered:
            self._above = None
            self.show()

    def _question_lines(self, found: CausesView) -> list[Line]:
        if not found.questions:
            return []
        question = found.questions[self._question % len(found.questions)]
        lines = [Line(f"? {question.question} (y/n)", "bold reverse")]
        return [*lines, Line(f"  {question.how}")] if question.how else lines

    def picked(self, index: int) -> None:
        """Open the cause: how to confirm it and what to do."""
        assert self._view is not None
        cause = self._view.causes[index]

        def taken(sentence: str | None) -> None:
            if sentence:
                self.say(sentence)
                self.dismiss(None)

        self._above = OneCausePage(self._garden, self._stop_id, cause.id)
        self.app.push_page(self._above, taken)

    def do_yes(self) -> None:
        """The sign asked for is there."""
        self._answered(True)

    def do_no(self) -> None:
        """The sign was looked for and is not there."""
        self._answered(False)

    def _answered(self, there: bool) -> None:
        assert self._view is not None
        question = self._view.questions[self._question % len(self._view.questions)]
        service.answer(self._garden, self._stop_id, question.symptom, there)
        self._question = 0
        self.show()

    def do_other_question(self) -> None:
        """Ask the next best question instead."""
        self._question += 1
        self.show()

    def do_why(self) -> None:
        """Show the clues for and against the first causes."""
        assert self._view is not None
        lines: list[Line] = []
        for row in self._view.causes[:5]:
            lines.append(Line(f"{row.name} — {row.chance}", "bold"))
            lines += [Line(f"  for: {text}") for text in row.because]
            lines += [Line(f"  against: {text}") for text in row.against]
        if self._view.would_change:
            lines.append(Line("What would change this", "bold"))
            lines += [Line(text) for text in self._view.would_change]
        self.app.push_page(NoticePage("Why", lines))

    def do_fruit_size(self) -> None:
        """Ask how big the odd fruit is; the ranking and its dates move."""
        ask_size(self, self._garden, self._stop_id)

    def do_history(self) -> None:
        """Show what this garden has confirmed."""
        self.app.push_page(ConfirmedPage(self._garden))

    def do_done(self) -> None:
        """Back to the stop, the warning read."""
        self.dismiss(None)

    def do_to_stop(self) -> None:
        """Back to the stop."""
        self.dismiss(None)
