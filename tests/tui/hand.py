"""A grower's hand on the app: presses keys, taps what is shown, and reads the screen as it stands."""

import asyncio
from collections.abc import Callable
from typing import Any, cast

from textual.pilot import Pilot
from textual.widgets import Input, OptionList, Static

from scout.tui.app import BedwalkApp
from scout.tui.keys import KEYS
from scout.tui.page import Page
from scout.tui.parts import Foot
from scout.tui.screens.ask import TextPage
from scout.tui.screens.today import TodayPage
from scout.tui.sheet import Sheet

from .rest import PATIENCE

A_MOMENT = 0.02
"""Seconds left to a worker thread between two looks at what it was to bring."""


class Hand:
    """Drives one running app and counts the keys it pressed."""

    def __init__(self, pilot: Pilot[None]) -> None:
        self.pilot = pilot
        self.keys_n = 0

    @property
    def app(self) -> BedwalkApp:
        return cast(BedwalkApp, self.pilot.app)

    @property
    def page(self) -> Page[Any]:
        return self.sheet.page

    @property
    def sheet(self) -> Sheet:
        return self.app.sheet

    @property
    def name(self) -> str:
        return type(self.page).__name__

    # doing

    async def opened(self) -> "Hand":
        """Wait until the garden is loaded, or cannot be: the worker starts only after the first paint."""
        await self.until(lambda: not isinstance(self.page, TodayPage) or self.page.ready)
        await self.app.workers.wait_for_complete()
        await self.pilot.pause()
        return self

    async def until(self, holds: Callable[[], bool]) -> "Hand":
        """Let the app work until something holds; each turn ends at rest, and leaves the worker threads a moment."""
        async with asyncio.timeout(PATIENCE):
            await self.pilot.pause()
            while not holds():
                await asyncio.sleep(A_MOMENT)
                await self.pilot.pause()
        return self

    async def press(self, *keys: str) -> "Hand":
        """Press keys one after the other; each is counted."""
        for key in keys:
            self.keys_n += 1
            await self.pilot.press(key)
            await self.pilot.pause()
        return self

    async def type(self, text: str) -> "Hand":
        """Put a text into the line that asks for one, as a paste does, then Enter."""
        await self.until(lambda: isinstance(self.page, TextPage))
        self.line.value = text
        return await self.press("enter")

    async def tap(self, text: str) -> "Hand":
        """Tap the first place on the screen where the text stands."""
        for y, line in enumerate(self.screen.split("\n")):
            if text in line:
                await self.pilot.click(offset=(line.index(text), y))
                return self
        raise AssertionError(f"{text!r} is not on the screen:\n{self.screen}")

    async def choose(self, text: str) -> "Hand":
        """Press the digit of the first row that holds the text, or walk down to it and press Enter."""
        index = next((n for n, row in enumerate(self.rows) if text in row), None)
        assert index is not None, f"{text!r} is not in {self.rows}"
        if index < 9:
            return await self.press(str(index + 1))
        at = self.sheet.query_one("#picks", OptionList).highlighted or 0
        for _step in range(index - at):  # drawn once, at the row that is wanted
            self.keys_n += 1
            await self.pilot.press("down")
        return await self.press("enter")

    # reading

    @property
    def head(self) -> str:
        return _plain(self.sheet.query_one("#head", Static))

    @property
    def text(self) -> str:
        return _plain(self.sheet.query_one("#lines", Static))

    @property
    def rows(self) -> list[str]:
        """The rows to choose from, without their digits."""
        return [str(option.prompt)[2:] for option in self.sheet.query_one("#picks", OptionList).options]

    @property
    def line(self) -> Input:
        """The line to type in."""
        return self.sheet.query_one("#typed", Input)

    @property
    def feet(self) -> list[str]:
        """The words of the keys at the bottom."""
        return [_plain(foot).split("\n")[1] for foot in self.sheet.query(Foot) if foot.display]

    @property
    def offered(self) -> list[str]:
        """The words of every key of the page, also of those that wait behind More."""
        return [KEYS[name].word for name in self.page.keys_here()]

    @property
    def said(self) -> str:
        """What is said over the page, the newest last."""
        return "\n".join(note.message for note in self.app._notifications)

    @property
    def screen(self) -> str:
        """What the terminal shows, cell by cell."""
        return "\n".join(strip.text for strip in self.app.screen._compositor.render_strips())


def _plain(widget: Static) -> str:
    return str(widget.content)


async def stop_at(hand, bed):
    """Begin the walk and glance past stops until the one in that bed."""
    await hand.press("w", "enter")
    while bed not in hand.head:
        await hand.press("g")
    hand.keys_n = 0
    return hand


async def see(hand, look, symptom):
    """Choose a look by its words, then what was seen there."""
    await hand.choose(look)
    await hand.choose(symptom)
