"""How big the odd fruit is: it tells when it flowered."""

from typing import Any

from scout.services.causes import SIZE_ASKED
from scout.services.context import Context
from scout.services.fruit_size import give_size, sizes_at
from scout.tui.page import Page
from scout.tui.screens.ask import ChoicePage, TextPage


def ask_size(page: Page[Any], context: Context, stop_id: str) -> None:
    """Ask for the size of the odd fruit: a row with one key, or a typed length; kept at once."""
    rows, length = sizes_at(context, stop_id)
    texts = [row.text for row in rows]

    def keep(size: str) -> None:
        page.say(give_size(context, stop_id, size))

    def chosen(number: int) -> None:
        if number < len(rows):
            keep(rows[number].id)
            page.show()
        else:
            line = TextPage("Its length", "How long is it?", hint=f"Such as: {length}", keep=keep)
            page.ask(line, lambda _: page.show())

    choice = ChoicePage("The odd fruit", SIZE_ASKED, [*texts, *(["Type its length"] if length else [])])
    page.ask(choice, chosen)
