"""One planting entered: variety, how many, since when, from where; nothing is kept before the last answer."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

from scout.services import garden
from scout.services.context import Context
from scout.tui.page import Page
from scout.tui.screens.ask import ChoicePage, NumberPage, TextPage

_ORIGINS = (
    ("bought_plant", "Bought plants"),
    ("bought_seed", "Bought seed"),
    ("saved_seed", "Own saved seed"),
    ("volunteer", "Came up by itself"),
    ("unknown", "Not known"),
)
_SINCE = ((3, "This week"), (21, "About 3 weeks ago"), (42, "About 6 weeks ago"), (70, "About 10 weeks ago"))
"""Days back at the middle of what each row says."""


class PlantingQuestions:
    """The questions of one planting of a bed; Back at one of them keeps nothing."""

    def __init__(
        self, page: Page[Any], context: Context, bed: tuple[str, str], crop: str, done: Callable[[], None]
    ) -> None:
        self._page, self._garden, self._done = page, context, done
        self._bed_id, self._bed = bed
        self._crop = context.knowledge.crops[crop]
        self._sown = self._crop.counted_from == "sowing"
        self._variety: str | None = None
        self._plants_n: int | None = None
        self._day = context.today.isoformat()

    def begin(self) -> None:
        """Ask for the variety, then for the rest."""
        self._page.ask(TextPage(f"{self._bed}: variety", "As the packet or tag says; empty: not known"), self._named)

    def _named(self, text: str) -> None:
        self._variety = text or None
        page = NumberPage(
            self._bed, "How many plants?", most=9999, least=1, note="1 to 9999. Enter alone: not counted."
        )
        self._page.app.push_page(page, self._counted)

    def _counted(self, number: int | None) -> None:
        self._plants_n = number
        rows = [*(text for _, text in _SINCE), "Type the day"]
        self._page.ask(ChoicePage(self._bed, self._when, rows), self._since)

    @property
    def _when(self) -> str:
        return f"{self._crop.name}: {'sown' if self._sown else 'set out'} when?"

    def _since(self, number: int) -> None:
        if number < len(_SINCE):
            self._day = (self._garden.today - timedelta(days=_SINCE[number][0])).isoformat()
            self._ask_origin()
            return
        page = TextPage(self._bed, self._when, hint="Such as 20 Oct 2025 or 2025-10-20", keep=self._on_day)
        self._page.ask(page, lambda text: self._ask_origin() if text else None)

    def _on_day(self, text: str) -> None:
        self._day = garden.planted_day(self._garden, text).isoformat()

    def _ask_origin(self) -> None:
        rows = [text for _, text in _ORIGINS]
        self._page.app.push_page(ChoicePage(self._bed, "From where?", rows), self._keep)

    def _keep(self, number: int | None) -> None:
        garden.add_planting(
            self._garden,
            (self._bed_id,),
            self._crop.id,
            variety=self._variety,
            plants_n=self._plants_n,
            origin=_ORIGINS[number][0] if number is not None else "unknown",
            sown_on=self._day if self._sown else None,
            set_out_on=None if self._sown else self._day,
        )
        self._done()
