"""The parts of the sheet: head, text, list, keys at the bottom and number pad. Each changes only what differs.

What a part is told twice it draws once, and none moves another by its own size: so a key costs one layout.
"""

from collections.abc import Callable, Sequence

from textual.containers import Grid, Horizontal, VerticalScroll
from textual.content import Content
from textual.geometry import Size
from textual.reactive import Reactive
from textual.visual import VisualType
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from scout.tui.keys import KEYS
from scout.tui.page import Line

_FEET = 7
_PHONE_FEET = 4
_PHONE_WIDTH = 60
_TEXT_SHARE = 0.6
"""Of the height: what the text may take where a list stands below it."""
_PAD = ("1", "2", "3", "4", "5", "6", "7", "8", "9", "⌫", "0", "OK")


class Still(Widget):
    """A part whose own size moves no other: Textual would lay out and paint again once it has changed."""

    virtual_size: Reactive[Size] = Reactive(Size(0, 0), layout=False, repaint=False)


class _Text(Static, Still):
    """A text of the sheet."""


class Head(_Text):
    """The bar on top."""

    def __init__(self) -> None:
        super().__init__("", id="head", markup=False)

    def show(self, head: str) -> None:
        """Show where the grower is."""
        if head != self.content:
            self.update(Content(head))


class Body(VerticalScroll, Still):
    """The text's part of the sheet, scrolled where it is longer."""

    def __init__(self) -> None:
        self._text = _Text("", id="lines", markup=False)
        self._lines: Sequence[Line] | None = ()
        super().__init__(self._text, id="body", can_focus=False)

    def show(self, lines: Sequence[Line], fills: bool) -> None:
        """Show the lines on the whole page, or on their part of it."""
        if lines != self._lines:
            self._lines = lines
            self._text.update(_content(lines))
        self._fit(lines, fills)

    def fill(self, content: VisualType) -> None:
        """Show something else than lines."""
        self._lines = None
        self._text.update(content)

    def _fit(self, lines: Sequence[Line], fills: bool) -> None:
        """Give the text its height by hand: a class would cost a second layout.

        So would a scroll bar that is found to be wanted only when the text is laid out.
        """
        share, size = 1.0 if fills else _TEXT_SHARE, self.app.size
        self.styles.height, self.styles.max_height = "1fr" if fills else "auto", f"{share:.0%}"
        width = max(1, size.width - 3)
        rows = (row for line in lines for row in line.text.split("\n"))
        wanted = sum(max(1, -(-len(row) // width)) for row in rows) > size.height * share
        if self.show_vertical_scrollbar != wanted:  # one left from a longer text would take a column, and hide a row
            self.show_vertical_scrollbar = wanted

    def lift(self, y: float) -> None:
        """Scroll to a place at once."""
        if self.scroll_y != y:
            self.scroll_to(y=y, animate=False, immediate=True)


class Picks(OptionList, Still, can_focus=False):
    """The list to pick from. The sheet hands it its keys: a change of focus would style and paint everything anew."""

    def __init__(self) -> None:
        super().__init__(id="picks", markup=False)
        self._rows: tuple[str, ...] = ()

    def show(self, rows: Sequence[str], marked: int | None) -> None:
        """Show the rows with one of them marked; no list where there are none."""
        self.display = bool(rows)
        if tuple(rows) != self._rows:
            self._rows = tuple(rows)
            self.set_options(Option(_row(number, text)) for number, text in enumerate(rows, 1))
        self.highlighted = min(marked, len(rows) - 1) if rows and marked is not None else None

    def holds(self, event: OptionList.OptionSelected) -> bool:
        """Return whether the row that was chosen still stands there."""
        index = event.option_index
        return index < len(self.options) and self.get_option_at_index(index) is event.option


class Foot(_Text):
    """One big key at the bottom; a tap does what the key does."""

    def __init__(self, tapped: Callable[[str], object]) -> None:
        super().__init__("", markup=False, classes="foot")
        self._tapped = tapped
        self._action = ""

    def show(self, action: str | None) -> None:
        """Stand for an action, or for none."""
        self.display = action is not None
        if action is not None:
            self._action, key = action, KEYS[action]
            self.update(Content.assemble((_cap(key.press), "bold reverse"), "\n", key.word))

    def on_click(self) -> None:
        """Do what the key does."""
        self._tapped(self._action)


class Feet(Horizontal, Still):
    """The keys side by side."""

    def __init__(self, tapped: Callable[[str], object]) -> None:
        self._feet = [Foot(tapped) for _ in range(_FEET)]
        self._actions: tuple[str, ...] = ()
        super().__init__(*self._feet, id="feet")

    def show(self, actions: Sequence[str]) -> None:
        """Show as many actions as there is room for; the rest stands behind `more`."""
        room = _PHONE_FEET if self.app.size.width < _PHONE_WIDTH else _FEET
        wanted = tuple(actions) if len(actions) <= room else (*actions[: room - 1], "more")
        if wanted == self._actions:
            return  # they stand there already, and drawing them again costs a layout
        self._actions = wanted
        for foot, action in zip(self._feet, (*wanted, *[None] * (_FEET - len(wanted))), strict=True):
            foot.show(action)


class PadKey(_Text):
    """One key of the number pad, for a thumb."""

    def __init__(self, face: str, tapped: Callable[[str], object]) -> None:
        super().__init__(face, markup=False)
        self.face = face
        self._tapped = tapped

    def on_click(self) -> None:
        """Do what the key shows."""
        self._tapped(self.face)


class Pad(Grid, Still):
    """The keys of the number pad."""

    def __init__(self, tapped: Callable[[str], object]) -> None:
        super().__init__(*(PadKey(face, tapped) for face in _PAD), classes="pad")


def _row(number: int, text: str) -> Content:
    return Content.assemble((f"{number} " if number <= 9 else "  ", "bold"), text)


def _cap(press: str) -> str:
    return {"escape": " esc ", "enter": " ⏎ "}.get(press, f" {press} ")


def _content(lines: Sequence[Line]) -> Content:
    return Content("\n").join(
        Content.styled(line.text, line.style) if line.style else Content(line.text) for line in lines
    )
