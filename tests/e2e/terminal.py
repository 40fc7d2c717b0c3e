"""A program in a pseudo-terminal, and the little of a terminal that is needed to read its screen."""

import codecs
import os
import re
import select
import subprocess
import time
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from rich.cells import cell_len

_SEQUENCE = re.compile(
    r"\x1b\[(?P<params>[0-?]*)[ -/]*(?P<final>[@-~])"  # CSI: moves, erases, colours, modes
    r"|\x1b[\]P_^][^\x07\x1b]*(?:\x07|\x1b\\)"  # OSC, DCS and the like: titles, clipboard
    r"|\x1b[()][A-Za-z0-9]|\x1b[=>78cM]"
)


class Grid:
    """Cells of a screen; colours are not kept."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = columns, rows
        self.cells = [[" "] * columns for _ in range(rows)]
        self.x = self.y = 0
        self._rest = ""

    @property
    def text(self) -> str:
        return "\n".join("".join(row).rstrip() for row in self.cells)

    def feed(self, text: str) -> None:
        """Take output; a sequence that is cut off waits for its end."""
        text = self._rest + text
        at = 0
        while at < len(text):
            if text[at] == "\x1b":
                found = _SEQUENCE.match(text, at)
                if found is None:
                    if len(text) - at < 4096:
                        break
                    at += 1
                    continue
                self._obey(found["final"], found["params"])
                at = found.end()
            else:
                self._put(text[at])
                at += 1
        self._rest = text[at:]

    def _put(self, character: str) -> None:
        if character == "\r":
            self.x = 0
        elif character == "\n":
            self.x, self.y = 0, min(self.y + 1, self.rows - 1)
        elif character >= " ":
            width = cell_len(character)
            if self.y < self.rows and self.x < self.columns:
                self.cells[self.y][self.x] = character
                if width == 2 and self.x + 1 < self.columns:
                    self.cells[self.y][self.x + 1] = ""
            self.x += width

    def _obey(self, final: str | None, params: str | None) -> None:
        if final in ("H", "f"):
            numbers = [int(n) if n.isdigit() else 1 for n in (params or "").split(";")]
            self.y, self.x = numbers[0] - 1, (numbers[1] if len(numbers) > 1 else 1) - 1
        elif final == "J":
            self.cells = [[" "] * self.columns for _ in range(self.rows)]
        elif final == "K" and self.y < self.rows:
            self.cells[self.y][self.x :] = [" "] * (self.columns - self.x)


class Terminal:
    """One program on a screen of its own; nothing waits for a fixed time, everything for a text or the deadline."""

    def __init__(self, command: Sequence[str], env: Mapping[str, str], columns: int = 45, rows: int = 20) -> None:
        import fcntl
        import pty
        import struct
        import termios

        self.grid = Grid(columns, rows)
        self._decode = codecs.getincrementaldecoder("utf-8")("replace")
        self._master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        self.began = time.perf_counter()
        self.program = subprocess.Popen(
            list(command),
            stdin=slave,
            stdout=slave,
            stderr=slave,
            env=dict(env),
            close_fds=True,
            start_new_session=True,
        )
        os.close(slave)

    def __enter__(self) -> "Terminal":
        return self

    def __exit__(self, *_: Any) -> None:
        self.kill()
        os.close(self._master)

    @property
    def screen(self) -> str:
        return self.grid.text

    @property
    def seconds(self) -> float:
        """Return the seconds since the program was started."""
        return time.perf_counter() - self.began

    def read(self, seconds: float) -> bytes:
        """Return what came within that time, at once when something came; empty when nothing did."""
        ready, _, _ = select.select([self._master], [], [], seconds)
        if not ready:
            return b""
        try:
            data = os.read(self._master, 65536)
        except OSError:  # the program is gone and so is its end of the line
            return b""
        self.grid.feed(self._decode.decode(data))
        return data

    def wait_for(self, *texts: str, seconds: float = 20.0) -> "Terminal":
        """Read until every text stands on the screen."""
        return self.wait_until(lambda there: all(text in there.screen for text in texts), seconds, f"{texts}")

    def wait_until(
        self, holds: Callable[["Terminal"], bool], seconds: float = 20.0, what: str = "what was waited for"
    ) -> "Terminal":
        """Read until it holds; AssertionError shows the screen when the time is over or the program has ended."""
        deadline = time.perf_counter() + seconds
        while not holds(self):
            left = deadline - time.perf_counter()
            if left <= 0 or (not self.read(min(left, 0.5)) and self.program.poll() is not None):
                raise AssertionError(f"{what} did not come up ({self.program.poll()=}):\n{self.screen}")
        return self

    def press(self, keys: str) -> "Terminal":
        """Send keys as a keyboard does."""
        os.write(self._master, keys.encode())
        return self

    def ended(self, seconds: float = 20.0) -> int:
        """Read until the program ends by itself and return its exit code."""
        deadline = time.perf_counter() + seconds
        while self.program.poll() is None and time.perf_counter() < deadline:
            self.read(0.2)
        return self.program.wait(0)

    def kill(self) -> None:
        """End the program at once, as a dead battery does."""
        if self.program.poll() is None:
            self.program.kill()
        self.program.wait(10)
