"""A small garden on a fixed day, built through the services themselves."""

import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from scout import paths
from scout.knowledge.base import Knowledge
from scout.knowledge.load import load_knowledge
from scout.services import garden
from scout.services.context import Context

NOON = datetime(2026, 7, 22, 12, 0, tzinfo=UTC)
TODAY = date(2026, 7, 22)


class Clock:
    """A clock that stands until it is moved."""

    def __init__(self) -> None:
        self.now = NOON

    def __call__(self) -> datetime:
        return self.now

    def on(self, month: int, day: int, hour: int = 12) -> None:
        self.now = datetime(2026, month, day, hour, tzinfo=UTC)


@pytest.fixture
def clock() -> Clock:
    return Clock()


def build(opened: Context) -> None:
    """A garden of three beds and a tub: cucumber, squash, bean with beet, pepper."""
    garden.create_garden(opened, "Test plot", zone="UTC", first_frost="10-28", last_frost="04-20")
    long = garden.add_bed(opened, "Long bed", water_zone="east")
    short = garden.add_bed(opened, "Short bed", water_zone="east")
    mixed = garden.add_bed(opened, "Mixed bed")
    tub = garden.add_bed(opened, "Black tub", kind="tub")
    garden.add_planting(opened, (long,), "cucumber", plants_n=8, variety="Testina", sown_on="2026-05-20")
    garden.add_planting(opened, (short,), "zucchini", plants_n=4, sown_on="2026-05-20", origin="volunteer")
    garden.add_planting(opened, (mixed,), "snap bean", plants_n=20, sown_on="2026-06-01")
    garden.add_planting(opened, (mixed,), "beet", plants_n=30, sown_on="2026-05-15")
    garden.add_planting(opened, (tub,), "sweet_pepper", plants_n=2, set_out_on="2026-05-10")


@pytest.fixture(scope="session")
def knowledge() -> Knowledge:
    return load_knowledge(paths.knowledge_folder())


@pytest.fixture(scope="session")
def template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The garden made once; every test works on a copy."""
    home = tmp_path_factory.mktemp("template") / "home"
    made = Context(home, clock=Clock())
    build(made)
    made.engine.dispose()
    return home


def opened_at(home: Path, clock: Clock, knowledge: Knowledge) -> Context:
    context = Context(home, clock=clock)
    context.__dict__["knowledge"] = knowledge  # read once for all tests
    garden.open_garden(context)
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
