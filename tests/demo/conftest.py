"""The demo garden's files, read once, and its season, replayed once."""

import csv
import shutil
from collections import defaultdict
from collections.abc import Callable
from datetime import date
from itertools import pairwise
from pathlib import Path
from statistics import fmean

import pytest

from scout import paths
from scout.intake.garden_file import read_garden
from scout.intake.garden_model import PlantingEntry
from scout.intake.walk_file import read_walk
from scout.intake.walk_model import FindingEntry, MeasurementEntry, StopEntry
from scout.services import site
from scout.services.context import Context
from scout.services.demo import Replay

from ..shipped import shipped_knowledge
from .planting import SEASON_END


class Demo:
    """The files as read, and what tests ask of them."""

    def __init__(self) -> None:
        self.folder = paths.demo_folder()
        self.knowledge = shipped_knowledge()
        self.garden = read_garden(self.folder / "garden.toml")
        self.walks = [read_walk(file) for file in sorted((self.folder / "walks").glob("*.toml"))]
        self.on_day = {walk.date: walk for walk in self.walks}
        self.days = {row["date"]: row for row in self._table("weather_daily.csv")}
        self.hours: dict[str, list[dict[str, str]]] = defaultdict(list)
        for row in self._table("weather_hourly.csv"):
            self.hours[row["time"][:10]].append(row)

    def _table(self, name: str) -> list[dict[str, str]]:
        with (self.folder / name).open(encoding="utf-8") as file:
            return list(csv.DictReader(file))

    def planting_of(self, stop: StopEntry) -> PlantingEntry:
        found = [
            one
            for one in self.garden.plantings
            if stop.bed in one.beds and one.crop == stop.crop and stop.variety in (None, one.variety)
        ]
        assert len(found) == 1, (stop.bed, stop.crop, stop.variety)
        return found[0]

    def stop_at(self, day: date, bed: str, crop: str) -> StopEntry:
        return next(stop for stop in self.on_day[day].stops if (stop.bed, stop.crop) == (bed, crop))

    def finding(self, stop: StopEntry, symptom: str) -> FindingEntry:
        return next(found for found in stop.findings if found.symptom == symptom)

    def counted(self, day: date, bed: str, crop: str, symptom: str) -> tuple[int | None, int | None]:
        found = self.finding(self.stop_at(day, bed, crop), symptom)
        return found.affected, found.looked

    def series(self, bed: str) -> dict[str, list[tuple[date, MeasurementEntry]]]:
        plants: dict[str, list[tuple[date, MeasurementEntry]]] = defaultdict(list)
        for walk in self.walks:
            for stop in walk.stops:
                for measured in stop.measurements if stop.bed == bed else ():
                    plants[measured.plant].append((walk.date, measured))
        assert plants, bed
        return plants

    def mean_at(self, bed: str, visit: int, field: str) -> float:
        return fmean(getattr(visits[visit][1], field) for visits in self.series(bed).values())

    def visit_days(self, bed: str) -> int:
        days = [day for visits in self.series(bed).values() for day, _ in visits]
        return (max(days) - min(days)).days

    def newly_between(self, bed: str, after: date, until: date) -> tuple[int, int]:
        """Return newly spotted leaves and plant-days over the visits after one day, up to another."""
        leaves = plant_days = 0
        for visits in self.series(bed).values():
            for (before, _), (day, measured) in pairwise(visits):
                if after < day <= until:
                    assert measured.new is not None
                    leaves, plant_days = leaves + measured.new, plant_days + (day - before).days
        return leaves, plant_days


@pytest.fixture(scope="session")
def demo() -> Demo:
    return Demo()


AFTER = [date(2026, 7, 16), date(2026, 7, 17), date(2026, 7, 22), date(2026, 7, 26), date(2026, 8, 5), date(2026, 8, 9)]


@pytest.fixture(scope="session")
def folders(tmp_path_factory: pytest.TempPathFactory) -> dict[date, Path]:
    """The demo replayed once; a copy of its folder as it stood in the evening of each day wanted."""
    top = tmp_path_factory.mktemp("demo")
    replay = Replay(top / "now", paths.demo_folder())
    replay.begin(SEASON_END)
    replay.weather(SEASON_END)
    kept: dict[date, Path] = {}
    for file in sorted((paths.demo_folder() / "walks").glob("*.toml")):
        written = read_walk(file)
        replay.walk(written)
        if written.date in AFTER:
            kept[written.date] = copy_of(top / "now", top / written.date.isoformat())
    replay.close()
    kept[SEASON_END] = top / "now"
    return kept


def copy_of(home: Path, to: Path) -> Path:
    from scout.store.database import back_up

    to.mkdir()
    back_up(paths.database(home), paths.database(to))
    return to


@pytest.fixture
def evening(folders: dict[date, Path], tmp_path: Path) -> Callable[[date], Context]:
    """Return the garden as it stood in the evening of a day."""

    def opened(day: date) -> Context:
        home = Path(shutil.copytree(folders[day], tmp_path / day.isoformat()))
        context = Context(home, on=day)
        context.__dict__["knowledge"] = shipped_knowledge()
        site.open_garden(context)
        return context

    return opened
