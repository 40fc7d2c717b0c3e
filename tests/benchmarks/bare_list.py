"""What a start is measured against: a Textual app with one list; with `sqlmodel`, a row more once that is imported."""

import sys
from typing import ClassVar

from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import OptionList, Static


class Loaded(App[None]):
    """One line and one list; the slow library is imported in a worker after the first paint, as it should be."""

    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [Binding("q", "quit")]

    def compose(self) -> ComposeResult:
        """A line and five rows."""
        yield Static("Bare app")
        yield OptionList(*(f"row {n}" for n in range(1, 6)))

    def on_mount(self) -> None:
        """Import after the first paint."""
        if "sqlmodel" in sys.argv:
            self.call_after_refresh(lambda: self.run_worker(self._load, thread=True))

    def _load(self) -> None:
        import sqlmodel

        assert sqlmodel.__name__
        self.call_from_thread(self.query_one(OptionList).add_option, "row from the store")


if __name__ == "__main__":
    Loaded().run()
