"""What a key is measured against: a Textual form of the same parts as a page, with nothing behind it.

n: every part shows another text · p: another form is put on top · escape: back · a letter in the last form: typed.
"""

from typing import ClassVar

from textual import events
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.screen import Screen
from textual.widgets import OptionList, Static

FEET = 4


class Form(Screen[None]):
    """A head, a text, a list, four feet."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "renew"),
        Binding("p", "put"),
        Binding("escape", "back"),
        Binding("q", "app.quit"),
    ]
    DEFAULT_CSS = """
    Form { overflow: hidden; }
    Form #body { height: auto; max-height: 60%; } Form #lines { height: auto; } Form OptionList { height: 1fr; }
    Form #feet { dock: bottom; height: 3; border-top: solid $foreground; } Form #feet Static { width: 1fr; height: 2; }
    """

    def __init__(self, level: int) -> None:
        super().__init__()
        self.level, self.count = level, 0

    def compose(self) -> ComposeResult:
        """The same parts as a page."""
        yield Static("", id="head")
        with VerticalScroll(id="body", can_focus=False):
            yield Static("", id="lines")
        yield OptionList()
        with Horizontal(id="feet"):
            for n in range(FEET):
                yield Static(f"key\nfoot {n}")

    def on_mount(self) -> None:
        """Show the first text."""
        self.action_renew()

    def on_key(self, event: events.Key) -> None:
        """Keys are bindings here."""

    def action_renew(self) -> None:
        """Show another text in every part."""
        self.count += 1
        mark = f"form {self.level} text {self.count}."
        self.query_one("#head", Static).update(mark)
        self.query_one("#lines", Static).update("\n".join(f"line {n} of {mark}" for n in range(4)))
        rows = self.query_one(OptionList)
        rows.clear_options()
        rows.add_options([f"row {n} of {mark}" for n in range(4)])
        rows.highlighted = 0

    def action_put(self) -> None:
        """Put another form on top."""
        self.app.push_screen(Form(self.level + 1))

    def action_back(self) -> None:
        """Back to the form below."""
        if self.level > 1:
            self.dismiss(None)


class Bare(App[None]):
    """Forms upon forms."""

    ENABLE_COMMAND_PALETTE = False

    def on_mount(self) -> None:
        """Show the first form."""
        self.push_screen(Form(1))


if __name__ == "__main__":
    Bare().run()
