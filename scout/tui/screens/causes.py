"""The likely causes: the answer in words, the one next question, and what to do about it."""

from typing import Any

from scout.services import causes as service
from scout.services.confirmed_list import ASKED, CHOICES, confirm_at
from scout.services.context import Context
from scout.services.fruit_size import give_size, sizes_at
from scout.services.views import CausesView, ControlRow
from scout.tui.page import Line, Page, View
from scout.tui.screens.ask import ChoicePage, NoticePage, TextPage
from scout.tui.screens.confirmed import ConfirmedPage


class CausesPage(Page[None]):
    """Ranked causes at a stop; y and n answer the question on screen and the ranking moves."""

    def __init__(self, context: Context, stop_id: str) -> None:
        super().__init__()
        self._garden, self._stop_id = context, stop_id
        self._view: CausesView | None = None
        self._question = 0
        self._above: CausePageScreen | None = None

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

        self._above = CausePageScreen(self._garden, self._stop_id, cause.id)
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

    def do_undo(self) -> None:
        """Take back the last answer."""
        from scout.services import walk

        self.say(walk.undo(self._garden))
        self.show()


class CausePageScreen(Page[str]):
    """One cause: confirm, do, don't; choosing a control makes it a job with a day to look again."""

    def __init__(self, context: Context, stop_id: str, cause_id: str) -> None:
        super().__init__()
        self._garden, self._stop_id, self._cause_id = context, stop_id, cause_id
        self._controls: tuple[ControlRow, ...] = ()
        self.answered = False
        """Whether something was answered here that the ranking rests on."""

    def view(self) -> View:
        """Show the page of the cause and its controls in the order of resort."""
        page = service.cause_page(self._garden, self._stop_id, self._cause_id)
        self._controls = page.controls
        lines = [Line(f"? {page.size} (s)", "bold")] if page.size else []
        lines += [Line(text) for text in page.lines]
        actions = ("back", *(("fruit_size",) if page.size else ()), "confirm", "history", "undo")
        return View(f"{page.name} ({page.kind})", lines, [_control(row) for row in page.controls], actions)

    def do_fruit_size(self) -> None:
        """Ask how big the odd fruit is; the days that made it narrow."""
        self.answered = True
        ask_size(self, self._garden, self._stop_id)

    def do_confirm(self) -> None:
        """Ask what proved it or ruled it out."""

        def chosen(number: int | None) -> None:
            if number is not None:
                self.answered = True
                self.say(confirm_at(self._garden, self._stop_id, self._cause_id, number))

        page = ChoicePage("Was it this?", ASKED, [text for _, _, text in CHOICES])
        self.app.push_page(page, lambda number: self.attempt(lambda: chosen(number)))

    def do_history(self) -> None:
        """Show what this garden has confirmed."""
        self.answered = True
        self.app.push_page(ConfirmedPage(self._garden))

    def do_undo(self) -> None:
        """Take back the last thing given."""
        from scout.services import walk

        self.say(walk.undo(self._garden))
        self.show()

    def picked(self, index: int) -> None:
        """Take this control, after its cautions were read where it has any."""
        control = self._controls[index]
        if control.refused is not None:
            self.say(control.refused)
            return
        asked = [f"Only if {text}." for text in control.only_if]
        cautions = [*asked, *control.cautions]
        if not cautions:
            self._take(control)
            return
        rows = ["Yes, do it", "Not now"]
        text = "\n".join([control.do, *cautions])

        def agreed(number: int | None) -> None:
            if number == 0:
                self._take(control)

        self.app.push_page(ChoicePage(control.name, text, rows), agreed)

    def _take(self, control: ControlRow) -> None:
        self.attempt(lambda: self.dismiss(service.take(self._garden, self._stop_id, self._cause_id, control.id)))


def ask_size(page: Page[Any], context: Context, stop_id: str) -> None:
    """Ask for the size of the odd fruit: a row with one key, or a typed length; kept at once."""
    rows, length = sizes_at(context, stop_id)
    texts = [row.text for row in rows]

    def typed() -> None:
        def keep(text: str) -> None:
            page.say(give_size(context, stop_id, text))

        page.app.push_page(TextPage("Its length", "How long is it?", hint=f"Such as: {length}", keep=keep), again)

    def again(_: str | None) -> None:
        page.show()

    def chosen(number: int | None) -> None:
        if number is None:
            return
        if number == len(rows):
            typed()
            return
        page.say(give_size(context, stop_id, rows[number].id))
        page.show()

    choice = ChoicePage("The odd fruit", service.SIZE_ASKED, [*texts, *(["Type its length"] if length else [])])
    page.app.push_page(choice, lambda number: page.attempt(lambda: chosen(number)))


def _control(row: ControlRow) -> str:
    refused = " ✗ not now" if row.refused else ""
    return f"{row.when}: {row.name}{refused}"
