"""What a page is: a head, text, rows to pick from and a few keys, asked of a service; the sheet draws it.

A page turns a key, a tap or a click into one service call. It owns no widget: all pages are drawn on the one sheet,
so that a new page costs the change of a few texts and no new widgets.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Generic, TypeVar, cast

from textual import events

from scout.errors import BedwalkError
from scout.tui.keys import KEYS

if TYPE_CHECKING:
    from scout.services.context import Context
    from scout.tui.app import BedwalkApp
    from scout.tui.sheet import Extra, Sheet

T = TypeVar("T")
A = TypeVar("A")
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


class Page(Generic[T]):
    """What stands on the sheet until it is answered; subclasses give `view` and `do_<action>` methods."""

    TEXT_FILLS: ClassVar[bool] = True
    """Whether the text takes the whole page where there is nothing to pick."""
    EXTRA: ClassVar["Extra"] = None
    """What stands below the usual parts: the number pad, or a line to type in."""

    def __init__(self) -> None:
        self.shown = View("")
        """What was shown last."""
        self._sheet: Sheet | None = None

    @property
    def sheet(self) -> "Sheet":
        """Return the sheet it is drawn on."""
        assert self._sheet is not None, "the page was not put on the sheet yet"
        return self._sheet

    @property
    def app(self) -> "BedwalkApp":
        """Return the app."""
        return cast("BedwalkApp", self.sheet.app)

    def placed_on(self, sheet: "Sheet") -> None:
        """Hear where it stands."""
        self._sheet = sheet

    @property
    def stands(self) -> bool:
        """Return whether it was not left yet."""
        return self.sheet.holds(self)

    def view(self) -> View:
        """Return what to show now; the only method that asks a service."""
        raise NotImplementedError

    def opened(self) -> None:
        """Do what follows the first view."""

    def returned(self) -> None:
        """Show what was changed on the page above, whose answer was kept before."""
        self.show()

    def resized(self) -> None:
        """Hear that the screen has another size; the footer is fitted already."""

    def show(self) -> None:
        """Ask for the view and draw it; an error becomes one sentence on the page."""
        try:
            self.shown = self.view()
        except BedwalkError as error:
            self.shown = View("Bedwalk", [Line(str(error), "bold")], actions=("back",))
        self.sheet.draw(self)

    def picked(self, index: int) -> None:
        """Do what the chosen row stands for."""

    def pad_pressed(self, face: str) -> None:
        """Do what a key of the number pad shows."""

    def key_pressed(self, event: events.Key) -> None:
        """Turn a digit into a pick and a letter into an action of this page."""
        if event.character is not None and event.character in "123456789":
            index = int(event.character) - 1
            if index < len(self.shown.picks):
                event.stop()
                self.attempt(lambda: self.picked(index))
            return
        name, row = self._action_for(event), self.highlighted
        if name is not None:
            event.stop()
            event.prevent_default()
            self.do(name)
        elif event.key == "enter" and row is not None:
            event.stop()
            event.prevent_default()
            self.attempt(lambda: self.picked(row))

    def _action_for(self, event: events.Key) -> str | None:
        return next((name for name in self.keys_here() if KEYS[name].press in (event.key, event.character)), None)

    def keys_here(self) -> tuple[str, ...]:
        """Return the names of every key that does something here: the page's own first, then what holds anywhere."""
        own = self.shown.actions
        taken = {KEYS[name].press for name in own}
        always = (name for name in _ALWAYS if KEYS[name].press not in taken and hasattr(self, f"do_{name}"))
        return (*own, *always)

    def do(self, name: str) -> None:
        """Do what a key stands for."""
        method: Callable[[], None] = getattr(self, f"do_{name}")
        self.attempt(method)

    def attempt(self, act: Callable[[], object]) -> None:
        """Run one act; a refusal or bad input is said in one sentence and nothing is lost."""
        try:
            act()
        except BedwalkError as error:
            self.say(str(error))

    @property
    def highlighted(self) -> int | None:
        """Return the row that is marked; None where there is none to pick."""
        return self.sheet.highlighted if self.shown.picks else None

    def say(self, sentence: str) -> None:
        """Show one sentence over the page for some seconds."""
        self.app.notify(sentence, markup=False, timeout=6)

    def call_after_refresh(self, act: Callable[..., object], *given: Any) -> None:
        """Call something once what was shown is on the screen."""
        self.sheet.call_after_refresh(act, *given)

    def once_drawn(self, act: Callable[[], object]) -> None:
        """Do something soon after what is shown was drawn; in any case before the app is left."""
        self.sheet.once_drawn(lambda: self.attempt(act))

    def run_worker(self, work: Callable[[], object], *, group: str) -> None:
        """Run something beside the screen, in a thread of its own; one of a group at a time."""
        self.sheet.run_worker(work, thread=True, exclusive=True, group=group, exit_on_error=False)

    def ask(self, question: "Page[A]", given: Callable[[A], object]) -> None:
        """Lay a question on top; `given` hears its answer, and nothing where it was left without one."""
        self.app.push_page(question, lambda answer: None if answer is None else given(answer))

    def dismiss(self, result: T | None = None) -> None:
        """Leave this page with an answer."""
        self.sheet.leave(self, result)

    def action_back(self) -> None:
        """Leave this page without an answer."""
        self.dismiss(None)

    def do_back(self) -> None:
        """Leave this page without an answer."""
        self.dismiss(None)

    def do_quit(self) -> None:
        """Leave Bedwalk; what was given is kept already."""
        self.app.exit()

    def do_help(self) -> None:
        """Show the keys of this page."""
        from scout.tui.screens.help import HelpPage

        self.app.push_page(HelpPage(self.keys_here()))

    def do_more(self) -> None:
        """Offer every action of this page as a list."""
        from scout.tui.screens.help import MorePage

        self.ask(MorePage(tuple(name for name in self.keys_here() if name != "more")), self.do)


class GardenPage(Page[T]):
    """A page on which something is given to the garden, so that it can be taken back there."""

    def __init__(self, context: "Context") -> None:
        super().__init__()
        self._garden = context

    def do_undo(self) -> None:
        """Take back the last thing given."""
        from scout.services.undo import undo

        self.say(undo(self._garden))
        self.show()
