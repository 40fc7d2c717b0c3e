"""A garden of ten seasons, made up and the same each time: forty beds walked twice a week, with history and weather."""

import json
import random
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

from sqlalchemy import insert

from scout.services import site
from scout.services.context import Context
from scout.store.tables import table_of

SEASONS = range(2017, 2027)
BEDS, WALKS_A_SEASON, EVERY_D = 40, 50, 3.5
CROPS = ("cucumber", "summer_squash", "snap_bean", "beet", "sweet_pepper")
SIGNS = ("leaf.white_powder", "leaf.mosaic", "insect.aphids", "fruit.pinched_blossom_end")
TODAY = date(2026, 7, 22)


def clock() -> datetime:
    """Eight in the morning of the last day."""
    return datetime(2026, 7, 22, 8, 0, tzinfo=UTC)


class Builder:
    """Collects rows by table, each with a change row, and writes them in one go."""

    def __init__(self, context: Context) -> None:
        self.context = context
        self.rows: dict[str, list[dict[str, Any]]] = {}
        self._count = 0
        self._dice = random.Random(20260722)

    def add(self, entity: str, at: str, **values: Any) -> str:
        """Add one row and its history; return its id."""
        row_id = self._id()
        stamp = {
            "id": row_id,
            "garden_id": self.context.garden_id,
            "device_id": self.context.device_id,
            "author": "me",
            "entered_at": f"{at[:10]}T08:00:00Z",
        }
        self.rows.setdefault(entity, []).append(values | stamp)
        change = {"id": self._id(), "entity": entity, "row_id": row_id, "group_id": row_id, "at": stamp["entered_at"]}
        shared = {name: stamp[name] for name in ("garden_id", "device_id", "author")}
        self.rows.setdefault("change", []).append(change | shared | {"after": json.dumps(values)})
        return row_id

    def _id(self) -> str:
        self._count += 1
        return f"00000000-0000-7000-8000-{self._count:012x}"

    def seasons(self) -> None:
        """Ten seasons of plantings and walks."""
        beds = [
            self.add("bed", "2017-03-01", name=f"Bed {n + 1}", kind="bed", position=n, note="") for n in range(BEDS)
        ]
        for year in SEASONS:
            plants = [self._planting(year, bed, CROPS[n % len(CROPS)]) for n, bed in enumerate(beds)]
            for day in _walk_days(year):
                self._walk(day, plants)

    def _planting(self, year: int, bed: str, crop: str) -> tuple[str, str]:
        sown, pulled = f"{year}-05-20", None if year == TODAY.year else f"{year}-10-20"
        planting = self.add(
            "planting", sown, crop=crop, identity="unconfirmed", origin="bought_seed", sown_on=sown,
            removed_on=pulled, removed_why=pulled and "finished", note="",
        )  # fmt: skip
        self.add("planting_bed", sown, planting_id=planting, bed_id=bed, from_on=sown)
        self.add("plant_count", sown, planting_id=planting, counted_on=sown, plants_n=8)
        return planting, bed

    def _walk(self, day: date, plants: list[tuple[str, str]]) -> None:
        at = f"{day.isoformat()}T08:00"
        walk = self.add("walk", at, started_at=at, started_offset_min=0, ended_at=at, ended_offset_min=0, mode="full")
        for position, (planting, bed) in enumerate(plants):
            stop = self.add(
                "stop", at, walk_id=walk, planting_id=planting, bed_id=bed, position=position, why="picking is due",
                state="done", note="", opened_at=at, closed_at=at,
            )  # fmt: skip
            self._answers(at, stop, planting, bed)

    def _answers(self, at: str, stop: str, planting: str, bed: str) -> None:
        seen = {"observed_at": at, "observed_offset_min": 0}
        chance = self._dice.random()
        self.add("pick", at, planting_id=planting, sound_n=self._dice.randrange(9), odd_n=1, **seen)
        if chance < 0.1:
            sign = self._dice.choice(SIGNS)
            self.add("finding", at, stop_id=stop, planting_id=planting, bed_id=bed, symptom=sign, state="seen",
                     looked_n=8, affected_n=2, note="", manner="look", **seen)  # fmt: skip
            self.add("ranking", at, planting_id=planting, stop_id=stop, knowledge_hash="old", evidence="{}",
                     answer="{}", **seen)  # fmt: skip
        elif chance < 0.4:
            for look in ("newest_leaves", "undersides", "lowest_leaves", "fruit_both_ends"):
                self.add("look_answer", at, stop_id=stop, look_id=look, answer="clear", looked_n=8)
            self.add("clearance", at, stop_id=stop, kind="every_look", looked_n=8)
        else:
            self.add("clearance", at, stop_id=stop, kind="glance", looked_n=8)

    def weather(self) -> None:
        """Ten years of days."""
        first = date(SEASONS[0], 1, 1)
        for n in range((TODAY - first).days + 1):
            on = (first + timedelta(days=n)).isoformat()
            self.add("weather_day", on, station="here", on=on, kind="observed", basis="typed",
                     tmax_c=31.0, tmin_c=21.0, rain_mm=float(n % 9), wet_morning=n % 3 == 0)  # fmt: skip

    def write(self) -> None:
        """Write everything in one transaction."""
        order = ("bed", "planting", "planting_bed", "plant_count", "walk", "stop")
        later = [entity for entity in self.rows if entity not in order]
        with self.context.engine.begin() as connection:
            for entity in (*order, *later):
                connection.execute(insert(table_of(entity)), self.rows[entity])


def _walk_days(year: int) -> Iterator[date]:
    first = date(year, 5, 1)
    for n in range(WALKS_A_SEASON):
        day = first + timedelta(days=round(n * EVERY_D))
        if day < TODAY:
            yield day


def build(home: Path) -> dict[str, int]:
    """Make the garden in `home`; return how many rows each table got."""
    context = Context(home, clock=clock)
    site.create_garden(context, "Ten seasons", zone="UTC", first_frost="10-28", last_frost="04-20")
    builder = Builder(context)
    builder.seasons()
    builder.weather()
    builder.write()
    context.engine.dispose()
    return {entity: len(rows) for entity, rows in builder.rows.items()}
