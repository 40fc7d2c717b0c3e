"""The one screen everything is drawn on: a head, text, a list to pick from, and a few big keys at the bottom.

Pages lie on it in a pile and the top one is drawn. The widgets are made once and only what differs is changed, so that
a key costs one layout: a Textual screen of its own for each page would cost four, and every widget anew.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, Literal, cast

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Grid, Horizontal, VerticalScroll
from textual.content import Content
from textual.geometry import Size
from textual.reactive import Reactive
from textual.screen import Screen
from textual.visual import VisualType
from textual.widget import Widget
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from scout.tui.keys import KEYS
from scout.tui.page import Line, Page, View

Extra = Literal["pad", "line"] | None
Answered = Callable[[Any], object] | None
_FEET = 7
_PHONE_FEET = 4
_PHONE_WIDTH = 60
_DRAWN_S = 0.05
"""A frame comes within a sixtieth of a second; three of them. Our choice."""
_PAD = ("1", "2", "3", "4", "5", "6", "7", "8", "9", "⌫", "0", "OK")


class Still(Widget):
    """A part whose own size moves no other: Textual would lay out and paint again once it has changed."""

    virtual_size: Reactive[Size] = Reactive(Size(0, 0), layout=False, repaint=False)


class _Text(Static, Still):
    """A text of the sheet."""


class _Body(VerticalScroll, Still):
    """The text's part of the sheet, scrolled where it is longer."""


class _Row(Horizontal, Still):
    """The keys side by side."""


class _Pad(Grid, Still):
    """The keys of the number pad."""


class Foot(_Text):
    """One big key at the bottom; a tap does what the key does."""

    def __init__(self, number: int) -> None:
        super().__init__("", markup=False, classes="foot")
        self.number = number

    def on_click(self) -> None:
        """Do what the key does."""
        cast(Sheet, self.screen).foot_pressed(self.number)


class PadKey(_Text):
    """One key of the number pad, for a thumb."""

    def __init__(self, face: str) -> None:
        super().__init__(face, markup=False)
        self.face = face

    def on_click(self) -> None:
        """Do what the key shows."""
        cast(Sheet, self.screen).page.pad_pressed(self.face)


class _Rows(OptionList, Still, can_focus=False):
    """The list to pick from. The sheet hands it its keys: a change of focus would style and paint everything anew."""


@dataclass
class _Placed:
    """A page in the pile, who hears its answer, and where it was left when another was laid on it."""

    page: Page[Any]
    answered: Answered = None
    row: int | None = None
    scrolled: float = 0.0


class Sheet(Screen[None]):
    """The pile of pages and the widgets that the top one is drawn with."""

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
        self._lines: Sequence[Line] | None = ()
        self._picks: tuple[str, ...] = ()
        self._feet: tuple[str, ...] = ()
        self._late: list[Callable[[], object]] = []
        self._head, self._text = _Text("", id="head", markup=False), _Text("", id="lines", markup=False)
        self._body = _Body(self._text, id="body", can_focus=False)
        self._list = _Rows(id="picks", markup=False)
        self._foot = [Foot(number) for number in range(_FEET)]
        self._pad = _Pad(*(PadKey(face) for face in _PAD), classes="pad")
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
        """Lay the widgets out; the pad and the line come when they are needed, or when nothing else is to do."""
        yield self._head
        yield self._body
        yield self._list
        yield _Row(*self._foot, id="feet")

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
        self._lift(0.0)
        page.show()
        page.opened()

    def leave(self, page: Page[Any], result: Any) -> None:
        """Take the top page away and hand its answer on; the page below is shown, unless another was laid on it."""
        if self.page is not page or len(self._pile) == 1:
            return
        placed, below = self._pile.pop(), self._pile[-1]
        self._drawn = None
        if placed.answered is not None:
            placed.answered(result)
        if self._pile[-1] is below and self._drawn is None:
            below.page.returned()
        if self._pile[-1] is below and self._drawn is None:
            self._lay(below.page, below.row)
            self.call_after_refresh(self._lift, below.scrolled)

    # drawing

    def draw(self, page: Page[Any]) -> None:
        """Draw what a page shows now; one that is not on top is drawn when it is again."""
        if self.page is page:
            self._lay(page, page.shown.highlight)

    def fill(self, content: VisualType) -> None:
        """Put something else than lines into the text's place."""
        self._lines = None
        self._text.update(content)

    def _lay(self, page: Page[Any], row: int | None) -> None:
        view, self._drawn = page.shown, page
        if view.head != self._head.content:
            self._head.update(Content(view.head))
        if view.lines != self._lines:
            self._lines = view.lines
            self._text.update(_content(view.lines))
        self._show_extra(page.EXTRA)
        self._size_text(view.lines, page.TEXT_FILLS and not view.picks)
        self._show_picks(view, row)
        self._show_feet()
        wanted = self._line if page.EXTRA == "line" else None
        if self.focused is not wanted:
            self.set_focus(wanted, scroll_visible=False)

    def _show_extra(self, extra: Extra) -> None:
        if extra is not None:
            self.furnish()
        self._pad.display, self._line.display = extra == "pad", extra == "line"

    def _size_text(self, lines: Sequence[Line], fills: bool) -> None:
        """Give the text the whole page or its part: set by hand, since a class would cost a second layout.

        So would a scroll bar that is found to be wanted only when the text is laid out.
        """
        height, most = ("1fr", "100%") if fills else ("auto", "60%")
        self._body.styles.height, self._body.styles.max_height = height, most
        room, width = self.app.size.height * (1.0 if fills else 0.6), max(1, self.app.size.width - 3)
        if sum(max(1, -(-len(line.text) // width)) for line in lines) > room:
            self._body.show_vertical_scrollbar = True

    def _show_picks(self, view: View, row: int | None) -> None:
        self._list.display = bool(view.picks)
        if tuple(view.picks) != self._picks:
            self._picks = tuple(view.picks)
            self._list.set_options(Option(_row(number, text)) for number, text in enumerate(view.picks, 1))
        self._list.highlighted = min(row, len(view.picks) - 1) if view.picks and row is not None else None

    def _show_feet(self) -> None:
        actions = tuple(self.page.shown.actions)
        room = _PHONE_FEET if self.app.size.width < _PHONE_WIDTH else _FEET
        if len(actions) > room:
            actions = (*actions[: room - 1], "more")
        if actions == self._feet:
            return  # they stand there already, and drawing them again costs a layout
        self._feet = actions
        for foot in self._foot:
            foot.display = foot.number < len(actions)
            if foot.display:
                key = KEYS[actions[foot.number]]
                foot.update(Content.assemble((_cap(key.press), "bold reverse"), "\n", key.word))

    def _lift(self, y: float) -> None:
        if self._body.scroll_y != y:
            self._body.scroll_to(y=y, animate=False, immediate=True)

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
        self._show_feet()
        self.page.resized()

    def on_key(self, event: events.Key) -> None:
        """Hand every key to the page on top, in the order they were pressed: one typed ahead finds its page there."""
        self.page.key_pressed(event)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """A row was chosen by a tap or a click; one of a list that is gone is nobody's."""
        event.stop()
        page, index = self.page, event.option_index
        if index < len(self._list.options) and self._list.get_option_at_index(index) is event.option:
            page.attempt(lambda: page.picked(index))

    def foot_pressed(self, number: int) -> None:
        """Do what the key at the bottom stands for."""
        if number < len(self._feet):
            self.page.do(self._feet[number])

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


def _row(number: int, text: str) -> Content:
    return Content.assemble((f"{number} " if number <= 9 else "  ", "bold"), text)


def _cap(press: str) -> str:
    return {"escape": " esc ", "enter": " ⏎ "}.get(press, f" {press} ")


def _content(lines: Sequence[Line]) -> Content:
    return Content("\n").join(
        Content.styled(line.text, line.style) if line.style else Content(line.text) for line in lines
    )
