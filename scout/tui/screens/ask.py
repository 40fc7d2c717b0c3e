"""Small questions: a number, a line of text, one row of a list."""

from collections.abc import Callable, Sequence

from textual import events

from scout.tui.page import Line, Page, View

_DIGIT_KEYS = "123456789"
"""Rows that a digit picks; the rest of a list is reached by arrows, taps, or letters that narrow it."""

_LONGEST = 7
"""Digits that a number keeps while it is typed."""


class NumberPage(Page[int]):
    """Ask for a whole number from `least` to `most`; Enter with nothing typed takes `given`, or skips."""

    TEXT_FILLS = False
    EXTRA = "pad"

    def __init__(
        self, head: str, question: str, *, most: int, least: int = 0, given: int | None = None, note: str = ""
    ) -> None:
        super().__init__()
        self._head, self._question, self._note = head, question, note
        self._least, self._most, self._given = least, most, given
        self._typed = ""
        self.left = True
        """Left with Back, or not answered yet; False once OK was pressed, with a number or without."""

    def view(self) -> View:
        """Show the question and what was typed so far."""
        shown = self._typed or ("" if self._given is None else f"{self._given} (Enter keeps it)")
        note = self._note or f"{self._least} to {self._most}"
        lines = [Line(self._question, "bold"), Line(f"> {shown}", "bold"), Line(note)]
        return View(self._head, lines, actions=("ok", "back"))

    def key_pressed(self, event: events.Key) -> None:
        """Type digits, rub out, or take the answer."""
        if event.character is not None and event.character.isascii() and event.character.isdigit():
            self.pad_pressed(event.character)
        elif event.key in ("backspace", "enter"):
            self.pad_pressed("⌫" if event.key == "backspace" else "OK")
        else:
            super().key_pressed(event)
            return
        event.stop()

    def pad_pressed(self, face: str) -> None:
        """Do one key of the pad; a number outside the range stays to be mended and is not taken."""
        if face == "OK":
            self.do_ok()
            return
        typed = self._typed[:-1] if face == "⌫" else (self._typed + face)
        self._typed = typed[:_LONGEST]
        if typed and int(typed) > self._most:
            self.say(f"At most {self._most}.")
        self.show()

    def do_ok(self) -> None:
        """Take the number."""
        value = int(self._typed) if self._typed else self._given
        if value is not None and not self._least <= value <= self._most:
            self.say(f"At least {self._least}." if value < self._least else f"At most {self._most}.")
            return
        self.left = False
        self.dismiss(value)


class TextPage(Page[str]):
    """Ask for one line of text; it is kept as typed and never read as anything but text.

    `keep` writes the text down; where it refuses, the page stays with the text in it, to be mended.
    """

    TEXT_FILLS = False
    EXTRA = "line"

    def __init__(
        self,
        head: str,
        question: str,
        *,
        given: str = "",
        hint: str = "",
        most: int = 10_000,
        keep: Callable[[str], object] | None = None,
    ) -> None:
        super().__init__()
        self._head, self._question, self._given, self._hint, self._most = head, question, given, hint, most
        self._keep = keep

    def opened(self) -> None:
        """Put what was given into the line."""
        line = self.sheet.typed
        line.max_length = self._most
        line.value = self._given

    def view(self) -> View:
        """Show the question and the hint."""
        lines = [Line(self._question, "bold")] + ([Line(self._hint)] if self._hint else [])
        return View(self._head, lines, actions=("ok", "back"))

    def do_ok(self) -> None:
        """Take the line."""
        self._take(self.sheet.typed.value)

    def _take(self, text: str) -> None:
        if text and self._keep is not None:
            self._keep(text)
        self.dismiss(text)

    def key_pressed(self, event: events.Key) -> None:
        """Put a letter typed before the line had the focus into the line."""
        if event.is_printable and event.character is not None:
            event.stop()
            self.sheet.typed.insert_text_at_cursor(event.character)
        else:
            super().key_pressed(event)


class ChoicePage(Page[int]):
    """Ask for one row of a list; returns its index. In a list longer than the digits reach, letters narrow it.

    narrow: in a short list too.
    heard: other names of each row, in its order, that letters find as well.
    """

    def __init__(
        self,
        head: str,
        question: str,
        rows: Sequence[str],
        *,
        highlight: int = 0,
        heard: Sequence[str] = (),
        narrow: bool = False,
    ) -> None:
        super().__init__()
        self._heard = tuple(f"{row} {names}".casefold() for row, names in zip(rows, heard or rows, strict=True))
        self._head, self._question, self._rows, self._highlight = head, question, tuple(rows), highlight
        self._long = narrow or len(self._rows) > len(_DIGIT_KEYS)
        self._typed = ""
        self._shown_rows = tuple(range(len(self._rows)))

    def view(self) -> View:
        """Show the rows that hold what was typed, and how to narrow them."""
        lines = [Line(self._question)] if self._question else []
        if self._long:
            lines.append(Line(f"> {self._typed}", "bold") if self._typed else Line("Type some letters to narrow it"))
        highlight = 0 if self._typed else self._highlight
        return View(self._head, lines, [self._rows[n] for n in self._shown_rows], ("back",), highlight)

    def key_pressed(self, event: events.Key) -> None:
        """Narrow a long list by letters, widen it again by rubbing them out."""
        letter = event.character if event.is_printable and event.character else ""
        if self._long and (event.key == "backspace" or (letter and letter not in _DIGIT_KEYS)):
            event.stop()
            self._narrow(self._typed[:-1] if event.key == "backspace" else self._typed + letter)
        else:
            super().key_pressed(event)

    def _narrow(self, typed: str) -> None:
        rows = tuple(n for n, names in enumerate(self._heard) if typed.casefold() in names)
        if not rows:
            self.say(f"Nothing in the list holds {typed!r}.")
            return
        self._typed, self._shown_rows = typed, rows
        self.show()

    def picked(self, index: int) -> None:
        """Take the row."""
        self.dismiss(self._shown_rows[index])


class NoticePage(Page[bool]):
    """Say something that must be read before anything else; Enter goes on."""

    def __init__(self, head: str, lines: Sequence[Line]) -> None:
        super().__init__()
        self._head, self._lines = head, tuple(lines)

    def view(self) -> View:
        """Show the text."""
        return View(self._head, self._lines, actions=("ok",))

    def do_ok(self) -> None:
        """Go on."""
        self.dismiss(True)
