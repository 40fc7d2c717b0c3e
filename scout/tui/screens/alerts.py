"""A line of the first screen is put away by the grower, who says why."""

from scout.services.alerts import Alert, put_away
from scout.services.context import Context
from scout.tui.page import Page
from scout.tui.screens.ask import ChoicePage, TextPage


def put_one_away(page: Page[None], garden: Context, alerts: tuple[Alert, ...]) -> None:
    """Ask which line, then why; it comes back when it changes."""

    def chosen(number: int) -> None:
        alert = alerts[number]
        page.app.push_page(
            TextPage(
                "Put away",
                f"{alert.text}: why can it go?",
                hint="Such as: looked at it yesterday, all clean",
                keep=lambda why: put_away(garden, alert, why),
            )
        )

    which = ChoicePage("Put away", "Which one? It comes back when it changes.", [one.text for one in alerts])
    page.ask(which, chosen)
