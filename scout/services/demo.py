"""The demo garden: replayed through the services into a throw-away folder, up to the day asked for."""

import tempfile
from collections.abc import Callable
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from scout import paths
from scout.errors import BadInput, NotFound
from scout.intake.walk_file import read_walk
from scout.intake.walk_model import FindingEntry, HoldEntry, JobEntry, MeasurementEntry, StopEntry, WalkFile
from scout.services import answers, garden, garden_import, marked, photos, site, troubles, walk
from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.views import PlannedStop

DEFAULT_DAY = date(2026, 8, 21)
"""A wet, hot picking day late in the demo's season."""
CLEAR_STOP_MIN, FOUND_STOP_MIN = 3, 7
"""The pace of the demo's grower, at a clear stop and at one with something to look into."""
SUN_AS_AT_DEG = 36.0
"""The demo lies nowhere; its sun stands as at this latitude, so that the water of the beds can be told."""
_HOURS_KNOWN_UNTIL = 11
"""On the day itself the gauge was read at eleven."""


def demo_context(on: date | None = None) -> Context:
    """Return the demo garden as it stood on a day, in a folder of its own that the system may throw away."""
    root = Path(tempfile.mkdtemp(prefix="bedwalk-demo-"))
    build_demo(root, on or DEFAULT_DAY)
    opened = Context(root, on=on or DEFAULT_DAY)
    site.open_garden(opened)
    return opened


def build_demo(root: Path, on: date) -> None:
    """Replay the demo season before the day `on` into the data folder `root`."""
    replay = Replay(root, paths.demo_folder())
    replay.begin(on)
    replay.weather(on)
    for file in sorted((replay.source / "walks").glob("*.toml")):
        written = read_walk(file)
        if written.date < on:
            replay.walk(written)
    replay.close()


class Replay:
    """Writes as another device did, so that undo on this one takes back nothing of the demo."""

    def __init__(self, root: Path, source: Path) -> None:
        self.source = source
        self._now = datetime(2026, 5, 1, 8, 0, tzinfo=ZoneInfo("America/New_York"))
        self._to = Context(root, clock=lambda: self._now)

    def begin(self, on: date) -> None:
        """Make the garden; plantings that came after the day are left out by their dates."""
        garden_import.import_garden(self._to, self.source / "garden.toml")
        site.set_latitude(self._to, SUN_AS_AT_DEG)

    def close(self) -> None:
        """Leave the folder to a device of its own."""
        self._to.engine.dispose()
        paths.device_file(self._to.root).unlink(missing_ok=True)

    def weather(self, on: date) -> None:
        """Take in the days before, the hours until eleven on the day, and the day's forecast."""
        from scout.intake.sheet import Hints
        from scout.intake.weather_csv import read_days
        from scout.intake.weather_hours_csv import read_hours
        from scout.services.weather import HERE, type_forecast
        from scout.store.weather_columns import DayIn, HourIn
        from scout.store.weather_import import Series, import_days, import_hours

        days = read_days(self.source / "weather_daily.csv").rows
        hints = Hints(garden=ZoneInfo("America/New_York"))
        hours = read_hours(self.source / "weather_hourly.csv", hints).rows
        known = [
            DayIn(d.on.isoformat(), d.tmax_c, d.tmin_c, d.rain_mm, d.wet_h, d.wet_morning, d.rh_mean_pct)
            for d in days
            if d.on < on
        ]
        until = f"{on.isoformat()}T{_HOURS_KNOWN_UNTIL:02d}:00"
        read = [HourIn(*hour) for hour in hours if hour.at <= until]
        with self._to.write() as tx:
            import_days(tx, known, series=Series(station=HERE))
            import_hours(tx, read, series=Series(station=HERE))
        self._at(on - timedelta(days=1), 20, 0)
        for day in days:
            if on <= day.on <= on + timedelta(days=2) and day.tmax_c is not None:
                type_forecast(self._to, day.on, day.tmax_c)

    def _at(self, day: date, hour: int, minute: int) -> None:
        self._now = datetime(day.year, day.month, day.day, hour, minute, tzinfo=ZoneInfo("America/New_York"))

    def walk(self, written: WalkFile) -> None:
        """Replay one walk: every stop with what it gave, then the water and the holds."""
        self._at(written.date, written.started.hour, written.started.minute)
        with self._to.write():
            plants = [self._planted(stop.bed, stop.crop, stop.variety) for stop in written.stops]
            planned = [_planned(plant) for plant in plants]
            walk.start(self._to, planned)
            for entry, plant in zip(written.stops, plants, strict=True):
                self._stop(entry, plant)
                self._now += timedelta(minutes=CLEAR_STOP_MIN if entry.clear else FOUND_STOP_MIN)
            walk.finish(self._to)
            self._records(written)

    def _planted(self, bed: str, crop: str, variety: str | None) -> Planted:
        known = self._to.knowledge.crop(crop).id
        for one in garden.planted(self._to):
            if one.bed == bed and one.crop.id == known and variety in (None, one.variety):
                return one
        raise NotFound(f"The demo's walk names {crop!r} in {bed!r}, which does not stand there on that day.")

    def _stop(self, entry: StopEntry, plant: Planted) -> None:
        stop_id = walk.current_stop_id(self._to)
        if stop_id is None:
            raise BadInput(f"The demo's walk has no open stop left at {entry.bed!r}.")
        for circumstance, value in entry.circumstances.items():
            garden.set_circumstance(self._to, plant.planting_id, circumstance, value)
        for found in entry.findings:
            self._finding(found, stop_id)
        self._extras(entry, plant, stop_id)
        if entry.clear:
            walk.clear(self._to, stop_id, entry.clear, entry.looked or plant.plants_n or 1)
        else:
            walk.close_stop(self._to, stop_id)
        if entry.pulled:
            garden.remove_planting(self._to, plant.planting_id, entry.pulled)

    def _finding(self, found: FindingEntry, stop_id: str) -> None:
        finding_id = answers.add_finding(
            self._to, stop_id, found.symptom, found.manner, state=found.state, looked_n=found.looked
        )
        if found.affected is not None:
            answers.set_counts(self._to, finding_id, found.looked, found.affected)
        if any(share is not None for share in found.severity):
            answers.set_severity(self._to, finding_id, *found.severity)
        if found.which:
            answers.set_which(self._to, finding_id, found.which)

    def _extras(self, entry: StopEntry, plant: Planted, stop_id: str) -> None:
        if entry.sound or entry.odd:
            answers.tally(self._to, stop_id, sound=entry.sound or 0, odd=entry.odd or 0)
        if entry.note:
            answers.note(self._to, stop_id, entry.note)
        for measured in entry.measurements:
            self._measure(measured, plant, stop_id)
        for job in entry.jobs:
            self._job(job, plant, stop_id)
        for enemy in entry.enemies:
            answers.log_enemy(self._to, stop_id, enemy)
        for photo in entry.photos:
            file = self.source / "photos" / photo.file
            photos.attach(self._to, file, "stop", stop_id, note=photo.note, drawing=True)

    def _measure(self, entry: MeasurementEntry, plant: Planted, stop_id: str) -> None:
        tagged = {one.label: one.id for one in marked.marked_plants(self._to, plant.planting_id)}
        plant_id = tagged.get(entry.plant) or marked.mark_plant(self._to, plant.planting_id, entry.plant, entry.habit)
        marked.measure(
            self._to,
            plant_id,
            stop_id=stop_id,
            top_leaf=entry.top,
            highest_diseased=entry.highest,
            stripped_to=entry.stripped_to,
            newly_diseased=entry.new,
            leaves_standing=entry.standing,
            severity_pct=entry.severity,
            wet=entry.wet,
        )

    def _job(self, entry: JobEntry, plant: Planted, stop_id: str) -> None:
        if entry.worked is not None:
            self._each_job(plant, entry.control, lambda job: troubles.judged(self._to, job, str(entry.worked)))
            return
        troubles.take_control(self._to, plant.planting_id, plant.bed_id, stop_id, entry.cause, entry.control, "today")
        if entry.done:
            self._each_job(plant, entry.control, lambda job: troubles.job_done(self._to, job))

    def _each_job(self, plant: Planted, control: str, act: Callable[[str], None]) -> None:
        from scout.store import jobs

        with self._to.read() as session:
            found = jobs.jobs_of(session=session, planting_id=plant.planting_id)
        for job in found:
            if job.control == control and job.state != "skipped":
                act(job.id)

    def _records(self, written: WalkFile) -> None:
        from scout.store.tables_log import Watering

        at, offset = self._to.moment()
        with self._to.write() as tx:
            for one in written.waterings:
                tx.add(Watering, water_zone=one.zone, outcome=one.outcome, observed_at=at, observed_offset_min=offset)
            for hold in written.holds:
                self._hold(hold)

    def _hold(self, entry: HoldEntry) -> None:
        from scout.store.tables_follow import Hold

        plant = self._planted(entry.bed, entry.crop, None)
        with self._to.write() as tx:
            tx.add(
                Hold, planting_id=plant.planting_id, reason=entry.reason, until_at=f"{entry.until.isoformat()}T08:00"
            )


def _planned(plant: Planted) -> PlannedStop:
    return PlannedStop(plant.planting_id, plant.bed_id, plant.bed, plant.label, "clean", "as written down", 1.0, None)
