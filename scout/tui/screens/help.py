"""The keys of the page below, to read or to choose from."""

from textual import events

from scout.tui.keys import KEYS
from scout.tui.page import Line, Page, View


class HelpPage(Page[None]):
    """What every key does on the page below."""

    def __init__(self, actions: tuple[str, ...]) -> None:
        super().__init__()
        self._actions = actions

    def view(self) -> View:
        """List the keys with a sentence each."""
        lines = [Line(f"{KEYS[name].press}  {KEYS[name].does}") for name in self._actions]
        lines.append(Line("space  Read on where the text is longer than its place; PgUp goes back."))
        lines.append(Line("1-9  Choose a row. Arrows and Enter, or a tap, do the same."))
        return View("Keys", lines, actions=("back",))


class MorePage(Page[str]):
    """Every action of the page below, as a list."""

    def __init__(self, actions: tuple[str, ...]) -> None:
        super().__init__()
        self._actions = actions

    def view(self) -> View:
        """Offer the actions as rows."""
        keys = [KEYS[name] for name in self._actions]
        return View("What next?", picks=[f"{key.row or key.word} ({key.press})" for key in keys], actions=("back",))

    def picked(self, index: int) -> None:
        """Hand the chosen action to the page below."""
        self.dismiss(self._actions[index])

    def key_pressed(self, event: events.Key) -> None:
        """Take the key that stands beside a row for the row."""
        rows = [name for name in self._actions if name not in self.keys_here()]
        name = next((name for name in rows if KEYS[name].press in (event.key, event.character)), None)
        if name is None:
            super().key_pressed(event)
        else:
            event.stop()
            self.dismiss(name)
