"""Epidemic figures of one planting, for those who want them."""

from scout.services.context import Context
from scout.tui.page import Line, Page, View


class FiguresPage(Page[None]):
    """How much is sick, how fast it grows, what removal buys."""

    def __init__(self, context: Context, planting_id: str) -> None:
        super().__init__()
        self._garden, self._planting_id = context, planting_id

    def view(self) -> View:
        """Show the figures as lines."""
        from scout.services.garden import planted_as
        from scout.services.keeping_figures import figures_at
        from scout.services.keeping_figures_words import HEAD, figure_lines

        found = figures_at(self._garden, planted_as(self._garden, self._planting_id))
        return View(HEAD, [Line(text) for text in figure_lines(found)], actions=("back",))
