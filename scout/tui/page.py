"""The one shape of every screen: a head, text, a list to pick from, and a few big keys at the bottom.

A page asks a service what to show, draws it, and turns a key, a tap or a click into one service call. The widgets
are made once and only their text changes, so that a key is answered within a blink on a phone.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import ClassVar, TypeVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from scout.errors import BedwalkError
from scout.tui.keys import KEYS

T = TypeVar("T")
_FEET = 7
_PHONE_FEET = 4
_PHONE_WIDTH = 60
_ALWAYS = ("more", "undo", "help", "back", "quit")


@dataclass(frozen=True)
class Line:
    """One line of text; user text goes in as it is and is never read as markup."""

    text: str
    style: str = ""


@dataclass(frozen=True)
class View:
    """What a page shows now."""

    head: str
    lines: Sequence[Line] = ()
    picks: Sequence[str] = ()
    """Rows to choose from; the first nine answer to the keys 1-9."""
    actions: Sequence[str] = ()
    """Names of KEYS, the most wanted first; on a phone the first three and `more` stand in the footer."""
    highlight: int | None = 0


class Foot(Static):
    """One big key at the bottom; a tap does what the key does."""

    def __init__(self, number: int) -> None:
        super().__init__("", markup=False, classes="foot")
        self.number = number

    def on_click(self) -> None:
        """Do what the key does."""
        page = self.screen
        if isinstance(page, Page):
            page.foot_pressed(self.number)


@dataclass
class _Shown:
    view: View = field(default_factory=lambda: View(""))
    feet: tuple[str, ...] = ()


class Page(Screen[T]):
    """A screen made of head, lines, picks and actions; subclasses give `view` and `do_<action>` methods."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", show=False),
        Binding("pagedown,space", "scroll_text(1)", show=False, priority=False),
        Binding("pageup", "scroll_text(-1)", show=False),
        Binding("down", "scroll_line(1)", show=False),
        Binding("up", "scroll_line(-1)", show=False),
    ]
    AUTO_FOCUS = ""
    TEXT_FILLS: ClassVar[bool] = True
    """Whether the text takes the whole page where there is nothing to pick."""

    def __init__(self) -> None:
        super().__init__()
        self._shown = _Shown()
        self._resumed = False

    def compose(self) -> ComposeResult:
        """Make the widgets once."""
        yield Static("", id="head", markup=False)
        with VerticalScroll(id="body", can_focus=False):
            yield Static("", id="lines", markup=False)
        yield OptionList(id="picks", markup=False)
        with Horizontal(id="feet"):
            for number in range(_FEET):
                yield Foot(number)

    def view(self) -> View:
        """Return what to show now; the only method that asks a service."""
        raise NotImplementedError

    def on_mount(self) -> None:
        """Show the first view; Textual calls this beside any on_mount of a subclass, so pages use `opened`."""
        self.show()
        self.opened()

    def opened(self) -> None:
        """Do what follows the first view."""

    def on_screen_resume(self) -> None:
        """Show what has changed while another screen was on top; the first time the view was just drawn.

        Where an answer has opened the next question already, this page is shown when that one is answered.
        """
        if self._resumed and self.app.screen is self:
            self.returned()
        self._resumed = True

    def returned(self) -> None:
        """Show what was changed on the page above, whose answer was kept before."""
        self.show()

    def on_resize(self) -> None:
        """Fit the footer to the width."""
        self._show_feet()

    def show(self) -> None:
        """Ask for the view and draw it; an error becomes one sentence on the page."""
        try:
            view = self.view()
        except BedwalkError as error:
            view = View("Bedwalk", [Line(str(error), "bold")], actions=("back",))
        self._shown.view = view
        self.query_one("#head", Static).update(Content(view.head))
        self.query_one("#lines", Static).update(_content(view.lines))
        self._show_picks(view)
        self._show_feet()

    def _show_picks(self, view: View) -> None:
        picks = self.query_one("#picks", OptionList)
        picks.display = bool(view.picks)
        self.set_class(self.TEXT_FILLS and not view.picks, "-only-text")
        picks.clear_options()
        for number, text in enumerate(view.picks, 1):
            mark = f"{number} " if number <= 9 else "  "
            picks.add_option(Option(Content.assemble((mark, "bold"), text)))
        if view.picks and view.highlight is not None:
            picks.highlighted = min(view.highlight, len(view.picks) - 1)
        self._focus_picks(picks, bool(view.picks))

    def _focus_picks(self, picks: OptionList, shown: bool) -> None:
        """Give the list the keys while it is shown; hidden, it would swallow those that scroll the text."""
        if shown and self.focused is None:
            self.set_focus(picks, scroll_visible=False)
        elif not shown and self.focused is picks:
            self.set_focus(None)

    def _show_feet(self) -> None:
        actions = tuple(self._shown.view.actions)
        room = _PHONE_FEET if self.app.size.width < _PHONE_WIDTH else _FEET
        if len(actions) > room:
            actions = (*actions[: room - 1], "more")
        if actions and actions == self._shown.feet:
            return  # they stand there already, and drawing them again costs a layout
        self._shown.feet = actions
        for foot in self.query(Foot):
            shown = foot.number < len(actions)
            foot.display = shown
            if shown:
                key = KEYS[actions[foot.number]]
                foot.update(Content.assemble((_cap(key.press), "bold reverse"), "\n", key.word))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """A row was chosen by Enter, tap or click."""
        event.stop()
        self.attempt(lambda: self.picked(event.option_index))

    def picked(self, index: int) -> None:
        """Do what the chosen row stands for."""

    def foot_pressed(self, number: int) -> None:
        """Do what the key at the bottom stands for."""
        if number < len(self._shown.feet):
            self._do(self._shown.feet[number])

    def on_key(self, event: events.Key) -> None:
        """Hand the key to the page once; Textual calls every class's on_key, so pages override `key_pressed`.

        A key typed ahead of the screen may arrive at the page that was just left: it belongs to the one on top.
        """
        if self.app.screen is self:
            self.key_pressed(event)
        else:
            event.stop()
            event.prevent_default()
            self.app.post_message(events.Key(event.key, event.character))

    def key_pressed(self, event: events.Key) -> None:
        """Turn a digit into a pick and a letter into an action of this page."""
        if event.character is not None and event.character in "123456789":
            index = int(event.character) - 1
            if index < len(self._shown.view.picks):
                event.stop()
                self.attempt(lambda: self.picked(index))
            return
        name = self._action_for(event)
        if name is not None:
            event.stop()
            event.prevent_default()
            self._do(name)

    def _action_for(self, event: events.Key) -> str | None:
        return next((name for name in self.keys_here() if KEYS[name].press in (event.key, event.character)), None)

    def keys_here(self) -> tuple[str, ...]:
        """Return the names of every key that does something here: the page's own first, then what holds anywhere."""
        own = self._shown.view.actions
        taken = {KEYS[name].press for name in own}
        always = (name for name in _ALWAYS if KEYS[name].press not in taken and hasattr(self, f"do_{name}"))
        return (*own, *always)

    def _do(self, name: str) -> None:
        method: Callable[[], None] = getattr(self, f"do_{name}")
        self.attempt(method)

    def attempt(self, act: Callable[[], object]) -> None:
        """Run one act; a refusal or bad input is said in one sentence and nothing is lost."""
        try:
            act()
        except BedwalkError as error:
            self.say(str(error))

    def say(self, sentence: str) -> None:
        """Show one sentence over the page for some seconds."""
        self.app.notify(sentence, markup=False, timeout=6)

    def action_back(self) -> None:
        """Leave this page without an answer."""
        self.dismiss(None)

    def action_scroll_text(self, direction: int) -> None:
        """Move the text a page on or back, where it is longer than its part of the screen."""
        body = self.query_one("#body", VerticalScroll)
        (body.scroll_page_down if direction > 0 else body.scroll_page_up)(animate=False)

    def action_scroll_line(self, direction: int) -> None:
        """Move the text a line, where no list takes the arrows."""
        body = self.query_one("#body", VerticalScroll)
        (body.scroll_down if direction > 0 else body.scroll_up)(animate=False)

    def do_back(self) -> None:
        """Leave this page without an answer."""
        self.dismiss(None)

    def do_quit(self) -> None:
        """Leave Bedwalk; what was given is kept already."""
        self.app.exit()

    def do_help(self) -> None:
        """Show the keys of this page."""
        from scout.tui.screens.help import HelpPage

        self.app.push_screen(HelpPage(self.keys_here()))

    def do_more(self) -> None:
        """Offer every action of this page as a list."""
        from scout.tui.screens.help import MorePage

        def chosen(name: str | None) -> None:
            if name:
                self._do(name)

        self.app.push_screen(MorePage(tuple(name for name in self.keys_here() if name != "more")), chosen)


def _cap(press: str) -> str:
    return {"escape": " esc ", "enter": " ⏎ "}.get(press, f" {press} ")


def _content(lines: Sequence[Line]) -> Content:
    return Content("\n").join(
        Content.styled(line.text, line.style) if line.style else Content(line.text) for line in lines
    )
