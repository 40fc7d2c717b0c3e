"""The installed program, killed after each kind of answer: nothing given is lost and the same question stands there."""

import os
import shutil
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from scout.services import answers, garden, site, troubles, walk
from scout.services.context import Context
from scout.services.views import FindingView

from ..shipped import shipped_knowledge
from .terminal import Terminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there is no pseudo-terminal on Windows")

DAY = "2026-07-22"
BEDWALK = Path(sys.executable).with_name("bedwalk")
NOTE = "[/z] 3rd leaf"
OTHER_QUESTION = "? …"
TAKEN = "look again"


@dataclass
class Kept:
    """What the store holds after the kill."""

    context: Context

    @property
    def findings(self) -> tuple[FindingView, ...]:
        return answers.findings_of(self.context, self.stop.id)

    @property
    def stop(self):
        stop = walk.current_stop(self.context)
        assert stop is not None
        return stop


@dataclass(frozen=True)
class Point:
    """A point at which an answer was given: the keys since the point before, what is kept, what shows again."""

    name: str
    keys: tuple[tuple[str, str], ...]
    """Keys and the text they bring up; OTHER_QUESTION: another one than stood there; TAKEN: its cautions were read."""
    kept: Callable[[Kept], bool]
    again: str
    """What the screen shows when the walk goes on."""


POWDER = (("f", "Something else"), ("w", "In your own words"), ("white powder", "white powder"), ("\r", "What is it?"))
POINTS = (
    Point("a clear bed", (("g", "2/3 Second"),), lambda k: k.stop.number == 2, "2/3 Second"),
    Point("a pick", (("+", "Picked: 1 sound"),), lambda k: k.stop.picks == (1, 0), "Picked: 1 sound"),
    Point("a look", (("c", "✓"),), lambda k: k.stop.looks[0].state == "clear", "✓"),
    Point(
        "a look with something", (("s", "Something else"),), lambda k: k.stop.looks[1].state == "seen", "What is it?"
    ),
    Point(
        "a symptom",
        (("\x1b", "Next bed"), *POWDER, ("1", "many of 6?")),
        lambda k: (
            [f.affected_n for f in k.findings] == [None] and k.findings[0].symptom.startswith("leaf.white_powder")
        ),
        "many of 6?",
    ),
    Point(
        "how many",
        (("2", "> 2"), ("\r", "Lowest third")),
        lambda k: (k.findings[0].affected_n, k.findings[0].looked_n) == (2, 6),
        "Lowest third",
    ),
    Point(
        "a severity",
        (("5", "Middle third"),),
        lambda k: k.findings[0].severity_pct == (10.0, None, None),
        "Middle third",
    ),
    Point(
        "an answer to the question",
        (("\x1b", "Likely causes"), ("y", OTHER_QUESTION)),
        lambda k: len(k.findings) == 2 and k.findings[1].seen,
        "Likely causes",
    ),
    Point(
        "a control",
        (("1", "today:"), ("1", TAKEN)),
        lambda k: len(troubles.job_lines(k.context)) == 1 and len(k.stop.troubles) == 1,
        "Open problem",
    ),
    Point(
        "a note",
        (("i", "A line for the next"), (NOTE, NOTE), ("\r", "Next bed")),
        lambda k: _note(k) == NOTE,
        "2/3 Second",
    ),
    Point("the next bed", (("n", "3/3 Third"),), lambda k: k.stop.number == 3, "3/3 Third"),
)


def answer(terminal: Terminal, keys: str, shown: str) -> None:
    """Press the keys and wait until their answer stands on the screen, which is after it was kept."""
    if shown == OTHER_QUESTION:
        terminal.wait_until(lambda there: _question(there) != "")
    asked = _question(terminal)
    terminal.press(keys)
    if shown == OTHER_QUESTION:
        terminal.wait_until(lambda there: _question(there) not in (asked, ""))
        return
    if shown == TAKEN:
        terminal.wait_until(lambda there: "Yes, do it" in there.screen or TAKEN in there.screen)
        if "Yes, do it" in terminal.screen:
            terminal.press("1")
    terminal.wait_for(shown)


def _question(terminal: Terminal) -> str:
    return next((line for line in terminal.screen.split("\n") if line.startswith(" ? ")), "")


def _note(kept: Kept) -> str:
    from scout.store import walks

    with kept.context.read() as session:
        stop = walks.stop(session=session, stop_id=kept.stop.id)
    assert stop is not None
    return stop.note


def opened(home: Path) -> Context:
    context = Context(home, clock=lambda: datetime(2026, 7, 22, 8, tzinfo=UTC), on=date(2026, 7, 22))
    context.__dict__["knowledge"] = shipped_knowledge()
    site.open_garden(context)
    return context


@pytest.fixture(scope="module")
def template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three beds, with the knowledge compiled as a first start leaves it."""
    home = tmp_path_factory.mktemp("kill") / "home"
    before = os.environ.get("BEDWALK_HOME")
    os.environ["BEDWALK_HOME"] = str(home)
    try:
        made = Context(home, clock=lambda: datetime(2026, 7, 22, 8, tzinfo=UTC))
        site.create_garden(made, "Test plot", zone="UTC")
        for name in ("First", "Second", "Third"):
            bed = garden.add_bed(made, name)
            garden.add_planting(made, (bed,), "cucumber", plants_n=6, sown_on="2026-05-20")
        made.engine.dispose()
    finally:
        if before is None:
            del os.environ["BEDWALK_HOME"]
        else:
            os.environ["BEDWALK_HOME"] = before
    return home


@pytest.fixture(scope="module")
def start(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Terminal]:
    """Start the command on a phone's screen and wait for the garden.

    Where this environment keeps no bytecode, a folder of the test does: only the first start compiles.
    """
    leave_out = ("COLUMNS", "LINES", "NO_COLOR", "PYTHONDONTWRITEBYTECODE")
    env = {key: value for key, value in os.environ.items() if key not in leave_out}
    env |= {"TERM": "xterm-256color", "TZ": "UTC", "TEXTUAL_ANIMATIONS": "none"}
    if "PYTHONDONTWRITEBYTECODE" in os.environ:
        env["PYTHONPYCACHEPREFIX"] = str(tmp_path_factory.mktemp("bytecode"))

    def started(home: Path, shown: str = "Jobs and re-looks") -> Terminal:
        command = [str(BEDWALK), "--on", DAY]
        return Terminal(command, env | {"BEDWALK_HOME": str(home)}).wait_for(shown, seconds=60)

    return started


def test_the_command_is_installed_beside_this_python() -> None:
    assert BEDWALK.is_file(), "install the project into this environment first: pip install -e ."


def test_killed_after_each_answer_of_two_beds_nothing_is_lost(
    template: Path, tmp_path: Path, start: Callable[..., Terminal]
) -> None:
    """One walk through two beds that dies after every answer; each start goes on where the last one ended.

    One test, because each start is dear and is both the proof of the kill before and the beginning of the next.
    """
    home = Path(shutil.copytree(template, tmp_path / "home"))
    with start(home) as terminal:
        terminal.press("w").wait_for("3 stops").press("\r").wait_for("1/3 First")
    standing = "1/3 First"
    for point in POINTS:
        with start(home) as terminal:
            terminal.press("w").wait_for(standing)
            for keys, shown in point.keys:
                answer(terminal, keys, shown)
            terminal.kill()
        context = opened(home)
        assert point.kept(Kept(context)), f"lost after {point.name}"
        context.engine.dispose()
        standing = point.again
    with start(home) as terminal:
        terminal.press("w").wait_for(standing)


def test_left_while_it_opens_it_ends_cleanly(template: Path, tmp_path: Path, start: Callable[..., Terminal]) -> None:
    home = Path(shutil.copytree(template, tmp_path / "home"))
    with start(home) as terminal:
        terminal.press("q")
        assert terminal.ended() == 0
    with start(home, "Opening the garden") as terminal:
        terminal.press("q")
        assert terminal.ended() == 0
        assert "Traceback" not in terminal.screen
