"""From a key to the screen that answers it, in a walk of a ten-season garden and in a bare form of the same parts."""

import time

from .conftest import DAY, Times

STOPS = 6
MOST_RATIO, MOST_MS = 1.5, 50.0


class Keyboard:
    """Presses keys and keeps how long each answer took, by what the key does."""

    def __init__(self, terminal) -> None:
        self.terminal = terminal
        self.taken: dict[str, list[float]] = {}

    def press(self, name: str, key: str, holds) -> None:
        """Press a key and wait until the screen holds what it brings up."""
        began = time.perf_counter()
        self.terminal.press(key).wait_until(lambda there: holds(there.screen), what=f"the answer to {key!r} ({name})")
        self.taken.setdefault(name, []).append(time.perf_counter() - began)

    @property
    def all(self) -> Times:
        return Times([seconds for times in self.taken.values() for seconds in times])


def question(screen: str) -> str:
    return next((line for line in screen.split("\n") if line.startswith(" ? ")), "")


def walked(terminal) -> Keyboard:
    """Walk stops: a look clear, a finding with its count, an answer to the question, a cause read, the next bed."""
    hand = Keyboard(terminal.wait_for("Jobs and re-looks", seconds=60))
    terminal.press("w").wait_for("Minutes").press("\r").wait_for("Glanced ok")
    for n in range(STOPS):
        hand.press("clear a look", "c", lambda s: "✓" in s)
        hand.press("pick", "+", lambda s: "sound" in s)
        hand.press("seen", "s", lambda s: "What is it?" in s)
        hand.press("symptom", "1", lambda s: "many of 8?" in s)
        hand.press("digit", "2", lambda s: "> 2" in s)
        hand.press("count", "\r", lambda s: "third" in s or "Likely causes" in s)
        if "third" in terminal.screen:
            for _ in range(3):
                before = terminal.screen
                hand.press("severity", "1", lambda s, before=before: s != before and ("third" in s or "Likely" in s))
        asked = question(terminal.screen)
        if asked:
            hand.press("answer", "n", lambda s, asked=asked: asked not in s and "Likely causes" in s)
        hand.press("cause", "1", lambda s: "today:" in s or "season:" in s)
        terminal.press("\x1b").wait_for("Likely causes").press("\x1b").wait_for("Next bed")
        hand.press("next", "n", lambda s, n=n: s.startswith(f" {2 * n + 2}/"))
        hand.press("glance", "g", lambda s, n=n: s.startswith(f" {2 * n + 3}/"))
    return hand


def bare(terminal) -> Keyboard:
    """The same mix of a changed form and a form put on top, four to five."""
    hand = Keyboard(terminal.wait_for("row 3 of form 1 text 1."))
    text = 1
    for _ in range(STOPS):
        for _ in range(4):
            text += 1
            hand.press("renew", "n", lambda s, text=text: f"row 3 of form 1 text {text}." in s)
        for level in range(2, 7):
            hand.press("put", "p", lambda s, level=level: f"row 3 of form {level} text 1." in s)
        for level in range(5, 0, -1):
            terminal.press("\x1b").wait_for(f"row 3 of form {level} ")
    return hand


def both(run) -> tuple[Keyboard, Keyboard]:
    with run("bare_form") as terminal:
        form = bare(terminal)
    with run("bedwalk", "--on", DAY) as terminal:
        return walked(terminal), form


def test_a_key_of_the_walk(benchmark, run, tell) -> None:
    """Escape is left out on both sides: a terminal waits 100 ms for the rest of a sequence."""
    walk, form = benchmark.pedantic(both, args=(run,))
    ratio = walk.all.p95_ms / form.all.p95_ms
    tell(p95_ms=walk.all.p95_ms, bare_p95_ms=form.all.p95_ms, ratio=ratio, p50_ms=walk.all.median_ms)
    tell(**{f"{name}_p50_ms": Times(times).median_ms for name, times in (walk.taken | form.taken).items()})
    assert ratio <= MOST_RATIO
