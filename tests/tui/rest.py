"""When the app has come to rest: nothing waits to be handled and nothing to be drawn.

Textual's own pilot guesses it from the processor: it sleeps 20 ms at a time until little was used, two or three times a
key. Here the queues are asked: as sure, and a key costs what the app does with it.
"""

import asyncio
import time

from textual.pilot import Pilot
from textual.screen import Screen

PATIENCE = 60.0
"""Seconds after which an app that is still busy is a failure: far beyond any machine under load."""
QUIET_ROUNDS = 2
"""A message may beget another on its way up: two rounds without news are rest."""


async def at_rest(pilot: Pilot[None], delay: float | None = None) -> None:
    """Let the app work until every message is handled and every change is drawn; in place of `Pilot.pause`."""
    if delay is not None:
        await asyncio.sleep(delay)
    quiet, last = 0, time.monotonic() + PATIENCE
    while quiet < QUIET_ROUNDS:
        await pilot._wait_for_screen()  # a note on every queue comes back: what stood before it was handled
        if pilot.app._exit or pilot.app._exception is not None:
            return  # an app that was left draws nothing more
        assert time.monotonic() < last, "the app never came to rest"
        quiet = 0 if _drawn(pilot.app.screen) or _changed(pilot.app.screen) else quiet + 1


def _drawn(screen: Screen[object]) -> bool:
    """Draw at once what the next frame would have drawn; return whether there was something."""
    wanted = (screen._layout_required, screen._scroll_required, screen._repaint_required, screen._recompose_required)
    if not (any(wanted) or screen._dirty_widgets or screen._callbacks):
        return False
    screen._on_timer_update()
    return True


def _changed(screen: Screen[object]) -> bool:
    """Return whether a widget has not told the screen yet that it changed."""
    return any(part._layout_required or part._repaint_required for part in screen.walk_children())


async def few_turns(*_: float) -> None:
    """In place of Textual's wait for an idle processor: a key sent from another thread's side is queued after three."""
    for _turn in range(5):
        await asyncio.sleep(0)
