"""Screens and start-up, nothing else."""

from pathlib import Path
from typing import ClassVar

from textual.app import App
from textual.binding import Binding, BindingType
from textual.screen import Screen

from scout.services.context import Context
from scout.tui.theme import NIGHT, SUN


class BedwalkApp(App[None]):
    """The field app: one context, one page at a time."""

    CSS_PATH = Path(__file__).parent / "scout.tcss"
    TITLE = "Bedwalk"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+q", "quit", show=False),
        Binding("ctrl+c", "quit", show=False),
    ]

    def __init__(self, context: Context) -> None:
        super().__init__()
        self.context = context
        self.register_theme(SUN)
        self.register_theme(NIGHT)
        self.theme = context.settings.theme  # before the first paint, so that nothing is drawn twice

    def get_default_screen(self) -> Screen[None]:
        """Open on today's page; the store is loaded after it is on screen."""
        from scout.tui.screens.today import TodayPage

        return TodayPage(self.context)
