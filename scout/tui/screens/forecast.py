"""The highs forecast for tomorrow and the day after, one number each."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

from scout.services import weather
from scout.services.context import Context
from scout.services.site import site_of
from scout.tui.page import Page
from scout.tui.screens.ask import NumberPage

_DAYS = ("Tomorrow", "The day after tomorrow")
_NOTE = "Enter alone: not known."


def ask_forecast(page: Page[Any], context: Context, done: Callable[[], None]) -> None:
    """Ask for both highs, each kept when it is given; then go on."""
    us = site_of(context).units == "us"

    def ask(at: int) -> None:
        if at == len(_DAYS):
            done()
            return
        question = f"{_DAYS[at]}'s high in {'°F' if us else '°C'}, as forecast?"
        number = NumberPage("Forecast", question, most=130 if us else 55, note=_NOTE)
        page.app.push_page(number, lambda high: given(at, number, high))

    def given(at: int, asked: NumberPage, high: int | None) -> None:
        if asked.left:
            done()
            return
        if high is not None:
            weather.type_forecast(context, context.today + timedelta(days=at + 1), _celsius(high, us))
        ask(at + 1)

    ask(0)


def _celsius(high: int, us: bool) -> float:
    from scout.science.units import c_from_f

    return c_from_f(float(high)) if us else float(high)
