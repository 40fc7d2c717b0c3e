"""One cause like a page of a field guide: how to confirm it, what to do about it, what not."""

from scout.services import causes as service
from scout.services.confirmed_list import ASKED, CHOICES, confirm_at
from scout.services.context import Context
from scout.services.views import ControlRow
from scout.tui.page import GardenPage, Line, View
from scout.tui.screens.ask import ChoicePage
from scout.tui.screens.confirmed import ConfirmedPage
from scout.tui.screens.fruit_size import ask_size


class OneCausePage(GardenPage[str]):
    """One cause: confirm, do, don't; choosing a control makes it a job with a day to look again."""

    def __init__(self, context: Context, stop_id: str, cause_id: str) -> None:
        super().__init__(context)
        self._stop_id, self._cause_id = stop_id, cause_id
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

        def chosen(number: int) -> None:
            self.answered = True
            self.say(confirm_at(self._garden, self._stop_id, self._cause_id, number))

        self.ask(ChoicePage("Was it this?", ASKED, [text for _, _, text in CHOICES]), chosen)

    def do_history(self) -> None:
        """Show what this garden has confirmed."""
        self.answered = True
        self.app.push_page(ConfirmedPage(self._garden))

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

        def agreed(number: int) -> None:
            if number == 0:
                self._take(control)

        self.ask(ChoicePage(control.name, text, rows), agreed)

    def _take(self, control: ControlRow) -> None:
        self.dismiss(service.take(self._garden, self._stop_id, self._cause_id, control.id))


def _control(row: ControlRow) -> str:
    refused = " ✗ not now" if row.refused else ""
    return f"{row.when}: {row.name}{refused}"
