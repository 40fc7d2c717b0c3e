"""Before the knife: go, wait or no for today, with what must be known first answered in place."""

from collections.abc import Callable

from scout.services.context import Context
from scout.services.felt import feel_leaves
from scout.tui.page import GardenPage, Line, View
from scout.tui.screens.forecast import ask_forecast


class KnifePage(GardenPage[None]):
    """Whether to strip at one planting today, which leaves, how many, and how."""

    def __init__(self, context: Context, planting_id: str) -> None:
        super().__init__(context)
        self._planting_id = planting_id
        self._acts: tuple[tuple[str, Callable[[], None]], ...] = ()

    def view(self) -> View:
        """Show the advice, and a row for each thing it hangs on."""
        from scout.services.garden import planted_as
        from scout.services.keeping_knife import knife_lines, knife_today

        plant = planted_as(self._garden, self._planting_id)
        knife = knife_today(self._garden, plant)
        head, *rest = knife_lines(knife)
        self._acts = () if knife.answer == "dont" else self._asked()
        lines = [Line(head, "bold"), *(Line(text) for text in rest)]
        return View(f"Strip? {plant.bed} · {plant.label}", lines, [text for text, _ in self._acts], ("back", "undo"))

    def _asked(self) -> tuple[tuple[str, Callable[[], None]], ...]:
        return (
            ("A leaf feels dry", lambda: self._felt(dry=True)),
            ("A leaf feels wet", lambda: self._felt(dry=False)),
            ("Type the forecast highs", lambda: ask_forecast(self, self._garden, self.show)),
        )

    def _felt(self, *, dry: bool) -> None:
        feel_leaves(self._garden, self._planting_id, dry=dry)
        self.show()

    def picked(self, index: int) -> None:
        """Keep what was felt, or ask for the forecast."""
        self._acts[index][1]()
