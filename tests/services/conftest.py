"""A small garden on a fixed day, built through the services themselves."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from scout.knowledge.base import Knowledge
from scout.services import site
from scout.services.context import Context

from ..shipped import shipped_knowledge
from ..small_garden import Clock, build

NOON = 12


@pytest.fixture
def clock() -> Clock:
    return Clock(NOON)


@pytest.fixture(scope="session")
def knowledge() -> Knowledge:
    return shipped_knowledge()


@pytest.fixture(scope="session")
def template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The garden made once; every test works on a copy."""
    home = tmp_path_factory.mktemp("template") / "home"
    made = Context(home, clock=Clock(NOON))
    build(made)
    made.engine.dispose()
    return home


def opened_at(home: Path, clock: Clock, knowledge: Knowledge) -> Context:
    context = Context(home, clock=clock)
    context.__dict__["knowledge"] = knowledge  # read once for all tests
    site.open_garden(context)
    return context


@pytest.fixture
def context(tmp_path: Path, template: Path, clock: Clock, knowledge: Knowledge) -> Iterator[Context]:
    """The garden of `build`, opened."""
    opened = opened_at(Path(shutil.copytree(template, tmp_path / "home")), clock, knowledge)
    yield opened
    opened.engine.dispose()


@pytest.fixture
def reopen(context: Context, clock: Clock, knowledge: Knowledge) -> Iterator[Callable[[], Context]]:
    """Open the same folder as a new program would."""
    made: list[Context] = []

    def opened() -> Context:
        made.append(opened_at(context.root, clock, knowledge))
        return made[-1]

    yield opened
    for one in made:
        one.engine.dispose()
