"""The one screen everything is drawn on: a head, text, a list to pick from, and a few big keys at the bottom.

Pages lie on it in a pile and the top one is drawn. The widgets are made once and only what differs is changed, so that
a key costs one layout: a Textual screen of its own for each page would cost four, and every widget anew.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any, ClassVar, Literal

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual.visual import VisualType
from textual.widgets import Input, OptionList

from scout.tui.page import Page
from scout.tui.parts import Body, Feet, Head, Pad, Picks

Extra = Literal["pad", "line"] | None
Answered = Callable[[Any], object] | None
_DRAWN_S = 0.05
"""A frame comes within a sixtieth of a second; three of them. Our choice."""


@dataclass
class _Placed:
    """A page in the pile, who hears its answer, and where it was left when another was laid on it."""

    page: Page[Any]
    answered: Answered = None
    row: int | None = None
    scrolled: float = 0.0


class Sheet(Screen[None]):
    """The pile of pages and the parts that the top one is drawn with."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", show=False),
        Binding("space", "scroll_text('page_down')", show=False),
        Binding("pagedown", "move('page_down', 'page_down')", show=False),
        Binding("pageup", "move('page_up', 'page_up')", show=False),
        Binding("down", "move('cursor_down', 'down')", show=False),
        Binding("up", "move('cursor_up', 'up')", show=False),
        Binding("home", "move('first', 'home')", show=False),
        Binding("end", "move('last', 'end')", show=False),
    ]
    AUTO_FOCUS = ""

    def __init__(self, first: Page[Any]) -> None:
        super().__init__()
        self._pile = [_Placed(first)]
        self._drawn: Page[Any] | None = None
        self._late: list[Callable[[], object]] = []
        self._head, self._body, self._list = Head(), Body(), Picks()
        self._feet = Feet(lambda action: self.page.do(action))
        self._pad = Pad(lambda face: self.page.pad_pressed(face))
        self._line = Input(id="typed")

    @property
    def page(self) -> Page[Any]:
        """Return the page on top."""
        return self._pile[-1].page

    def holds(self, page: Page[Any]) -> bool:
        """Return whether a page is in the pile."""
        return any(placed.page is page for placed in self._pile)

    @property
    def highlighted(self) -> int | None:
        """Return the row that is marked."""
        return self._list.highlighted

    @property
    def typed(self) -> Input:
        """Return the line to type in."""
        return self._line

    def compose(self) -> ComposeResult:
        """Lay the parts out; the pad and the line come when they are needed, or when nothing else is to do."""
        yield from (self._head, self._body, self._list, self._feet)

    def on_mount(self) -> None:
        """Draw the first page."""
        self._begin()

    def furnish(self) -> None:
        """Make the pad and the line, hidden; done while the grower reads, no key waits for it."""
        if not self._pad.is_attached:
            self._pad.display = self._line.display = False
            self.mount(self._pad, self._line)

    # the pile

    def put(self, page: Page[Any], answered: Answered = None) -> None:
        """Lay a page on top; `answered` hears what it was left with, None where it was left without an answer."""
        below = self._pile[-1]
        below.row, below.scrolled = self.highlighted, self._body.scroll_y
        self._pile.append(_Placed(page, answered))
        self._begin()

    def replace(self, page: Page[Any]) -> None:
        """Lay a page in the place of the top one, which is left without an answer."""
        self._pile[-1] = _Placed(page)
        self._begin()

    def _begin(self) -> None:
        page = self.page
        page.placed_on(self)
        self._body.lift(0.0)
        page.show()
        page.opened()

    def leave(self, page: Page[Any], result: Any) -> None:
        """Take the top page away and hand its answer on; the page below is shown, unless another was laid on it.

        What is refused when the answer is heard is said in one sentence, over the page below.
        """
        if self.page is not page or len(self._pile) == 1:
            return
        placed, below = self._pile.pop(), self._pile[-1]
        self._drawn = None
        if placed.answered is not None:
            below.page.attempt(partial(placed.answered, result))
        if self._pile[-1] is below and self._drawn is None:
            below.page.returned()
        if self._pile[-1] is below and self._drawn is None:
            self._lay(below.page, below.row)
            self.call_after_refresh(self._body.lift, below.scrolled)

    # drawing

    def draw(self, page: Page[Any]) -> None:
        """Draw what a page shows now; one that is not on top is drawn when it is again."""
        if self.page is page:
            self._lay(page, page.shown.highlight)

    def fill(self, content: VisualType) -> None:
        """Put something else than lines into the text's place."""
        self._body.fill(content)

    def _lay(self, page: Page[Any], row: int | None) -> None:
        view, self._drawn = page.shown, page
        self._head.show(view.head)
        self._show_extra(page.EXTRA)
        self._body.show(view.lines, fills=page.TEXT_FILLS and not view.picks)
        self._list.show(view.picks, row)
        self._feet.show(view.actions)
        wanted = self._line if page.EXTRA == "line" else None
        if self.focused is not wanted:
            self.set_focus(wanted, scroll_visible=False)

    def _show_extra(self, extra: Extra) -> None:
        if extra is not None:
            self.furnish()
        self._pad.display, self._line.display = extra == "pad", extra == "line"

    def once_drawn(self, act: Callable[[], object]) -> None:
        """Do something once the frame that is being made stands on the screen; at the latest when the app is left."""
        self._late.append(act)
        self.set_timer(_DRAWN_S, self._do_late)

    def _do_late(self) -> None:
        acts, self._late = self._late, []
        for act in acts:
            act()

    def on_unmount(self) -> None:
        """Leave nothing undone."""
        self._do_late()

    # what comes in

    def on_resize(self) -> None:
        """Fit the footer to the width."""
        self._feet.show(self.page.shown.actions)
        self.page.resized()

    def on_key(self, event: events.Key) -> None:
        """Hand every key to the page on top, in the order they were pressed: one typed ahead finds its page there."""
        self.page.key_pressed(event)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """A row was chosen by a tap or a click; one of a list that is gone is nobody's."""
        event.stop()
        if self._list.holds(event):
            self.page.attempt(partial(self.page.picked, event.option_index))

    def action_back(self) -> None:
        """Leave the page without an answer."""
        self.page.action_back()

    def action_move(self, mark: str, text: str) -> None:
        """Move the mark in the list; where there is none, the text."""
        if self._list.display:
            getattr(self._list, f"action_{mark}")()
        else:
            self.action_scroll_text(text)

    def action_scroll_text(self, way: str) -> None:
        """Move the text, where it is longer than its part of the screen."""
        getattr(self._body, f"scroll_{way}")(animate=False)
