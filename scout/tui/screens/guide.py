"""Read about crops and their troubles: by crop, by what is seen, or in your own words."""

from collections.abc import Callable

from scout.services import guide
from scout.services.context import Context
from scout.services.guide import Entry
from scout.tui.page import Line, Page, View
from scout.tui.screens.ask import ChoicePage, NoticePage, TextPage

_BY_NAME = "Find a trouble by its name"


class GuidePage(Page[None]):
    """Every crop; choosing one opens what is known of it."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._garden = context
        self._crops: tuple[Entry, ...] = ()

    def view(self) -> View:
        """List the crops."""
        self._crops = guide.crops(self._garden)
        return View("Read about", picks=[_BY_NAME, *(crop.row for crop in self._crops)], actions=("back", "history"))

    def do_history(self) -> None:
        """Show what this garden has confirmed."""
        from scout.tui.screens.confirmed import ConfirmedPage

        self.app.push_page(ConfirmedPage(self._garden))

    def picked(self, index: int) -> None:
        """Find a trouble by its name, or open a crop."""
        if index == 0:
            self._by_name()
        else:
            self.app.push_page(CropGuidePage(self._garden, self._crops[index - 1]))

    def _by_name(self) -> None:
        found = guide.troubles(self._garden)

        def read(number: int) -> None:
            head, *lines = guide.page(self._garden, found[number].id)
            self.app.push_page(NoticePage(head, [Line(text) for text in lines]))

        names = [one.heard for one in found]
        self.ask(ChoicePage("By name", "", [one.row for one in found], heard=names), read)


class CropGuidePage(Page[None]):
    """One crop: the crop itself, its signs, words, and what it can have."""

    def __init__(self, context: Context, crop: Entry) -> None:
        super().__init__()
        self._garden, self._crop = context, crop
        self._troubles: tuple[Entry, ...] = ()

    def view(self) -> View:
        """List the ways in, then the troubles, the commonest first."""
        self._troubles = guide.troubles_of(self._garden, self._crop.id)
        ways = ["The crop, and what is normal for it", "By what is seen", "In your own words"]
        return View(self._crop.row, picks=[*ways, *(one.row for one in self._troubles)], actions=("back",))

    def picked(self, index: int) -> None:
        """Go the way that was chosen, or open a trouble."""
        ways = (lambda: self._read(self._crop), self._by_sign, self._by_words)
        if index < len(ways):
            ways[index]()
        else:
            self._read(self._troubles[index - len(ways)])

    def _read(self, entry: Entry) -> None:
        head, *lines = guide.page(self._garden, entry.id)
        self.app.push_page(NoticePage(head, [Line(text) for text in lines]))

    def _by_sign(self) -> None:
        self._choose("What is seen", guide.signs_of(self._garden, self._crop.id), self._showing)

    def _by_words(self) -> None:
        def typed(words: str) -> None:
            if not words:
                return
            found = guide.signs_in_words(self._garden, self._crop.id, words)
            if found:
                self._choose("Is it one of these?", found, self._showing)
            else:
                self.say("Nothing like that is known on this crop; try other words.")

        self.ask(TextPage(self._crop.row, "What do you see?", hint="Such as: yellow leaves low down"), typed)

    def _showing(self, sign: Entry) -> None:
        self._choose(sign.row, guide.troubles_showing(self._garden, self._crop.id, sign.id), self._read)

    def _choose(self, head: str, entries: tuple[Entry, ...], opened: Callable[[Entry], None]) -> None:
        self.ask(ChoicePage(head, "", [entry.row for entry in entries]), lambda number: opened(entries[number]))
