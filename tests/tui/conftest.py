"""A small garden on a fixed morning, and the app open on it."""

import shutil
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from pathlib import Path

import pytest

from scout.knowledge.base import Knowledge
from scout.services import site
from scout.services.context import Context
from scout.tui.app import BedwalkApp

from ..shipped import shipped_knowledge
from ..small_garden import Clock, build
from .hand import Hand
from .rest import at_rest, few_turns

MORNING = 8
DESK, PHONE = (80, 24), (45, 20)
Opening = Callable[..., AbstractAsyncContextManager[Hand]]


@pytest.fixture(autouse=True)
def brisk(monkeypatch: pytest.MonkeyPatch) -> None:
    """A pilot waits for the app to come to rest, not for the processor to look idle."""
    monkeypatch.setattr("textual.pilot.Pilot.pause", at_rest)
    monkeypatch.setattr("textual.pilot.wait_for_idle", few_turns)
    monkeypatch.setattr("textual.app.wait_for_idle", few_turns)


@pytest.fixture
def clock() -> Clock:
    return Clock(MORNING)


@pytest.fixture(scope="session")
def knowledge() -> Knowledge:
    return shipped_knowledge()


@pytest.fixture(scope="session")
def template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The garden made once; every test works on a copy."""
    home = tmp_path_factory.mktemp("template") / "home"
    made = Context(home, clock=Clock(MORNING))
    build(made)
    made.engine.dispose()
    return home


@pytest.fixture
def home(tmp_path: Path, template: Path) -> Path:
    """The data folder of this test's garden."""
    return Path(shutil.copytree(template, tmp_path / "home"))


@pytest.fixture
def contexts(clock: Clock, knowledge: Knowledge) -> Iterator[Callable[[Path], Context]]:
    """Open a data folder as a new program would; closed again after the test."""
    made: list[Context] = []

    def opened(home: Path) -> Context:
        context = Context(home, clock=clock)
        context.__dict__["knowledge"] = knowledge  # read once for all tests
        made.append(context)
        return context

    yield opened
    for context in made:
        if "engine" in context.__dict__:
            context.engine.dispose()


@pytest.fixture
def garden_of(contexts: Callable[[Path], Context]) -> Callable[[Path], Context]:
    """Open a garden beside the app, to read what it kept or to prepare what it finds."""

    def opened(home: Path) -> Context:
        context = contexts(home)
        site.open_garden(context)
        return context

    return opened


@pytest.fixture
def store(home: Path, garden_of: Callable[[Path], Context]) -> Context:
    """The test's garden, opened beside the app."""
    return garden_of(home)


@pytest.fixture
def opening(home: Path, contexts: Callable[[Path], Context]) -> Opening:
    """Start the app on the test's garden (or another folder) and give a hand on it; leaving the block quits."""

    @asynccontextmanager
    async def started(
        size: tuple[int, int] = DESK, folder: Path | None = None, wait: bool = True
    ) -> AsyncIterator[Hand]:
        async with BedwalkApp(contexts(folder or home)).run_test(size=size) as pilot:
            hand = Hand(pilot)
            yield await hand.opened() if wait else hand

    return started
