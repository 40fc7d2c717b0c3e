"""What this garden has confirmed: how it moved the odds, and each answer to take back."""

from scout.services import confirmed_list as service
from scout.services.context import Context
from scout.tui.page import GardenPage, Line, View
from scout.tui.screens.ask import ChoicePage


class ConfirmedPage(GardenPage[None]):
    """Every answer that counts, newest first; choosing one offers to take it back."""

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self._rows: tuple[service.ConfirmedRow, ...] = ()

    def view(self) -> View:
        """Show the odds first, then the answers."""
        self._rows = service.confirmed_rows(self._garden)
        if not self._rows:
            lines = [Line("Nothing confirmed yet."), Line("Open a cause and press c when something proves it.")]
            return View("Confirmed here", lines, actions=("back", "undo"))
        known = self._garden.knowledge
        lines = [
            Line(f"{known.crops[row.crop].name}: {known.causes[row.cause].name}: {row.text}")
            for row in service.odds_rows(self._garden)
        ]
        rows = [f"{row.on}  {row.text}" for row in self._rows]
        return View("Confirmed here", lines, rows, ("back", "undo"))

    def picked(self, index: int) -> None:
        """Ask how much is to be taken back."""
        row = self._rows[index]
        acts = (
            lambda: service.take_back(self._garden, row.id),
            lambda: service.reset(self._garden, row.crop, row.cause),
            lambda: service.reset(self._garden),
        )

        def chosen(number: int) -> None:
            if number < len(acts):
                acts[number]()
                self.say("Taken back; u brings it again.")

        choices = ["Take this one back", "Take back all answers on this cause", "Take back everything", "Leave it"]
        self.ask(ChoicePage("Confirmed here", row.text, choices), chosen)
