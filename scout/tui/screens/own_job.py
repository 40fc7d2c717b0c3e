"""A job of the grower's own: what, where, and by when."""

from datetime import timedelta
from typing import Any

from scout.services import troubles
from scout.services.context import Context
from scout.services.garden import planted
from scout.tui.page import Page
from scout.tui.screens.ask import ChoicePage, NumberPage, TextPage

_WHEN = (("Today", 0), ("Tomorrow", 1), ("In three days", 3), ("In a week", 7))
_LONGEST = 120
_FARTHEST_D = 365


def ask_own_job(page: Page[Any], context: Context, planting_id: str | None = None) -> None:
    """Ask for a job and keep it once the last question is answered; `planting_id`: it is for this planting."""
    plants = list({one.planting_id: one for one in planted(context)}.values())

    def named(title: str) -> None:
        if not title.strip():
            return
        if planting_id is not None:
            when(title, planting_id)
            return
        rows = ["The whole garden", *(f"{one.bed} · {one.label}" for one in plants)]
        place = ChoicePage(title, "Where?", rows)
        page.ask(place, lambda number: when(title, plants[number - 1].planting_id if number else None))

    def when(title: str, where: str | None) -> None:
        def chosen(number: int) -> None:
            if number < len(_WHEN):
                keep(title, where, _WHEN[number][1])
            else:
                page.ask(
                    NumberPage(title, "In how many days?", most=_FARTHEST_D), lambda days: keep(title, where, days)
                )

        page.ask(ChoicePage(title, "By when?", [*(text for text, _ in _WHEN), "In … days"]), chosen)

    def keep(title: str, where: str | None, days: int) -> None:
        troubles.add_job(context, title, context.today + timedelta(days=days), where)
        page.show()

    page.ask(TextPage("A job", "What is to be done?", hint="Such as: tie up the tomatoes", most=_LONGEST), named)
