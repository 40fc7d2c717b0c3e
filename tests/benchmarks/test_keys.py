"""From a key to the screen that answers it, in a walk of a ten-season garden and in a bare form of the same parts.

Both run side by side and are pressed in turn, key by key, so that a busy moment of the machine meets both alike: a key
that opens another page beside a form put on top, any other beside a form with another text in every part.
"""

import time
from collections.abc import Callable

from .conftest import DAY, Times

STOPS = 7
MOST_RATIO, MOST_MS = 1.5, 50.0
"""The budget; milliseconds are told, the ratio is the gate."""


class Timed:
    """Presses keys in one terminal and keeps how long each answer took, by what the key does."""

    def __init__(self, terminal) -> None:
        self.terminal = terminal
        self.taken: dict[str, list[float]] = {}

    def press(self, name: str, key: str, holds: Callable[[str], bool]) -> None:
        """Press a key and wait until the screen holds what it brings up."""
        began = time.perf_counter()
        self.terminal.press(key).wait_until(lambda there: holds(there.screen), what=f"the answer to {key!r} ({name})")
        self.taken.setdefault(name, []).append(time.perf_counter() - began)

    @property
    def all(self) -> Times:
        return Times([seconds for times in self.taken.values() for seconds in times])


class Form(Timed):
    """The bare form: another text in every part, or another form on top."""

    def __init__(self, terminal) -> None:
        super().__init__(terminal.wait_for("row 3 of form 1 text 1."))
        self.level, self.texts = 1, [1]

    def renew(self) -> None:
        self.texts[-1] += 1
        shown = f"row 3 of form {self.level} text {self.texts[-1]}."
        self.press("renew", "n", lambda s: shown in s)

    def put(self) -> None:
        self.level += 1
        self.texts.append(1)
        shown = f"row 3 of form {self.level} text 1."
        self.press("put", "p", lambda s: shown in s)

    def back_to_the_first(self) -> None:
        """Escape is not timed: a terminal waits 100 ms for the rest of a sequence."""
        while self.level > 1:
            self.level -= 1
            self.texts.pop()
            self.terminal.press("\x1b").wait_for(f"row 3 of form {self.level} text {self.texts[-1]}.")


class Walk(Timed):
    """Our walk, with the form's key after each of its own."""

    def __init__(self, terminal, form: Form) -> None:
        super().__init__(terminal.wait_for("Jobs and re-looks", seconds=60))
        self.form = form

    def same(self, name: str, key: str, holds: Callable[[str], bool]) -> None:
        """A key after which the same page shows something else."""
        self.press(name, key, holds)
        self.form.renew()

    def other(self, name: str, key: str, holds: Callable[[str], bool]) -> None:
        """A key that opens another page."""
        self.press(name, key, holds)
        self.form.put()

    def stop(self, n: int) -> None:
        """A look clear, a pick, a finding with its count, an answer to the question, a cause read, two beds on."""
        self.same("clear a look", "c", lambda s: "✓" in s)
        self.same("pick", "+", lambda s: "sound" in s)
        self.other("seen", "s", lambda s: "What is it?" in s)
        self.other("symptom", "1", lambda s: "many of 8?" in s)
        self.same("digit", "2", lambda s: "> 2" in s)
        self.other("count", "\r", lambda s: "third" in s or "Likely causes" in s)
        while "third" in self.terminal.screen:
            before = self.terminal.screen
            self.other("severity", "1", lambda s, b=before: s != b and ("third" in s or "Likely" in s))
        asked = question(self.terminal.screen)
        if asked:
            self.same("answer", "n", lambda s: asked not in s and "Likely causes" in s)
        self.other("cause", "1", lambda s: "today:" in s or "season:" in s)
        self.terminal.press("\x1b").wait_for("Likely causes").press("\x1b").wait_for("Next bed")
        self.same("next", "n", lambda s: s.startswith(f" {2 * n + 2}/"))
        self.same("glance", "g", lambda s: s.startswith(f" {2 * n + 3}/"))
        self.form.back_to_the_first()


def question(screen: str) -> str:
    return next((line for line in screen.split("\n") if line.startswith(" ? ")), "")


def walked(run) -> tuple[Walk, Form]:
    with run("bare_form") as bare, run("bedwalk", "--on", DAY) as terminal:
        walk = Walk(terminal, Form(bare))
        terminal.press("w").wait_for("Minutes").press("\r").wait_for("Glanced ok")
        for n in range(STOPS):
            walk.stop(n)
    return walk, walk.form


def test_a_key_of_the_walk(benchmark, run, tell) -> None:
    walk, form = benchmark.pedantic(walked, args=(run,))
    ratio = walk.all.p95_ms / form.all.p95_ms
    renewed = Times(form.taken["renew"])
    tell(p95_ms=walk.all.p95_ms, bare_p95_ms=form.all.p95_ms, ratio=ratio, most_ms=MOST_MS)
    tell(
        p50_ms=walk.all.median_ms, bare_p50_ms=form.all.median_ms, ratio_to_texts_alone=walk.all.p95_ms / renewed.p95_ms
    )
    tell(**{f"{name}_p50_ms": Times(times).median_ms for name, times in (walk.taken | form.taken).items()})
    assert ratio <= MOST_RATIO
