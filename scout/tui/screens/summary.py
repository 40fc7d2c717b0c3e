"""The end of a walk."""

from scout.services.summary import last_summary
from scout.tui.page import GardenPage, Line, View


class SummaryPage(GardenPage[None]):
    """The walk in a few lines."""

    def view(self) -> View:
        """Show the summary."""
        done = last_summary(self._garden)
        return View(done.head, [Line(text) for text in done.lines], actions=("done", "undo", "back"))

    def do_done(self) -> None:
        """Back to today."""
        self.dismiss(None)

    def do_undo(self) -> None:
        """Take back the last stop's answer; the walk is open again."""
        from scout.services.undo import undo
        from scout.services.walk import current_stop_id
        from scout.tui.screens.stop import StopPage

        self.say(undo(self._garden))
        if current_stop_id(self._garden) is not None:
            self.app.replace_page(StopPage(self._garden))
