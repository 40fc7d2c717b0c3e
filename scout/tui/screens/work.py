"""Long work with its share done; it can be stopped, and then nothing of it is kept."""

from collections.abc import Callable
from typing import TypeVar

from textual.worker import get_current_worker

from scout.errors import BedwalkError, Stopped
from scout.tui.page import Line, Page, View

T = TypeVar("T")
Told = Callable[[float], None]
_CELLS = 20
_STEP = 0.02
"""Shares closer together are not drawn: drawing would take longer than the work."""


class WorkPage(Page[T]):
    """Do one piece of work beside the screen and answer with what it gave, or with None when it was stopped."""

    def __init__(self, doing: str, work: Callable[[Told], T]) -> None:
        super().__init__()
        self._doing, self._work = doing, work
        self._share = 0.0
        self._stopped = False

    def view(self) -> View:
        """Show how far it is."""
        full = round(_CELLS * self._share)
        bar = "#" * full + "." * (_CELLS - full)
        word = "Stopping" if self._stopped else self._doing
        return View(self._doing, [Line(word, "bold"), Line(f"[{bar}] {self._share:.0%}")], actions=("stop",))

    def opened(self) -> None:
        """Begin once the page stands."""
        self.run_worker(self._run, group="work")

    def _run(self) -> None:
        try:
            found = self._work(self._told)
        except BedwalkError as error:
            self.app.call_from_thread(self._ended, None, str(error))
        else:
            self.app.call_from_thread(self._ended, found, "")

    def _told(self, share: float) -> None:
        """Hear the share done, in the thread of the work."""
        if self._stopped or get_current_worker().is_cancelled:
            raise Stopped("Stopped; nothing was written.")
        if share - self._share >= _STEP or share >= 1.0:
            self._share = min(1.0, share)
            self.app.call_from_thread(self.show)

    def _ended(self, found: T | None, complaint: str) -> None:
        if complaint:
            self.say(complaint)
        self.dismiss(found)

    def do_stop(self) -> None:
        """Stop the work at its next step."""
        self._stopped = True
        self.show()

    def do_back(self) -> None:
        """Stop the work: going on behind another page, it could not be stopped any more."""
        self.do_stop()

    def action_back(self) -> None:
        """Stop the work."""
        self.do_stop()
