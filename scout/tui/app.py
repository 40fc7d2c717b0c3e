"""Screens and start-up, nothing else."""

from collections.abc import Callable
from pathlib import Path
from typing import Any, ClassVar, TypeVar, cast

from textual.app import App
from textual.binding import Binding, BindingType

from scout.services.context import Context
from scout.tui.page import Page
from scout.tui.sheet import Sheet
from scout.tui.theme import NIGHT, SUN

T = TypeVar("T")


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

    def get_default_screen(self) -> Sheet:
        """Open on today's page; the store is loaded after it is on screen."""
        from scout.tui.screens.today import TodayPage

        return Sheet(TodayPage(self.context))

    @property
    def sheet(self) -> Sheet:
        """Return the one screen, on which the pages lie."""
        return cast(Sheet, self.screen)

    def push_page(self, page: Page[T], answered: Callable[[T | None], Any] | None = None) -> None:
        """Lay a page on top; `answered` hears its answer, or None where it was left without one."""
        self.sheet.put(page, answered)

    def replace_page(self, page: Page[Any]) -> None:
        """Lay a page in the place of the top one."""
        self.sheet.replace(page)
