"""Screens and start-up, nothing else."""

from pathlib import Path
from typing import ClassVar

from textual.app import App
from textual.binding import Binding, BindingType

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
        self._chosen_theme = context.settings.theme  # a mistake in the settings is said before the screen is taken

    def on_mount(self) -> None:
        """Choose the theme and open the first page; the store is loaded after it is on screen."""
        from scout.tui.screens.today import TodayPage

        self.register_theme(SUN)
        self.register_theme(NIGHT)
        self.theme = self._chosen_theme
        self.push_screen(TodayPage(self.context))
