"""The small garden that the tests of services and screens share, on a fixed day."""

from datetime import UTC, datetime

from scout.services import garden, site, walk
from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.plan import walk_plan
from scout.services.views import StopView


class Clock:
    """A clock that stands until it is moved; 22 July 2026 in the garden, whose zone is UTC."""

    def __init__(self, hour: int) -> None:
        self._hour = hour
        self.on(7, 22)

    def __call__(self) -> datetime:
        return self.now

    def on(self, month: int, day: int, hour: int | None = None) -> None:
        self.now = datetime(2026, month, day, self._hour if hour is None else hour, tzinfo=UTC)


def build(opened: Context) -> None:
    """A garden of three beds and a tub: cucumber, squash, bean with beet, pepper."""
    site.create_garden(opened, "Test plot", zone="UTC", first_frost="10-28", last_frost="04-20")
    long = garden.add_bed(opened, "Long bed", water_zone="east")
    short = garden.add_bed(opened, "Short bed", water_zone="east")
    mixed = garden.add_bed(opened, "Mixed bed")
    tub = garden.add_bed(opened, "Black tub", kind="tub")
    garden.add_planting(opened, (long,), "cucumber", plants_n=8, variety="Testina", sown_on="2026-05-20")
    garden.add_planting(opened, (short,), "zucchini", plants_n=4, sown_on="2026-05-20", origin="volunteer")
    garden.add_planting(opened, (mixed,), "snap bean", plants_n=20, sown_on="2026-06-01")
    garden.add_planting(opened, (mixed,), "beet", plants_n=30, sown_on="2026-05-15")
    garden.add_planting(opened, (tub,), "sweet_pepper", plants_n=2, set_out_on="2026-05-10")


def plant_of(context: Context, crop: str = "cucumber") -> Planted:
    """The planting of a crop."""
    return next(one for one in garden.planted(context) if one.crop.id == crop)


def stop_at(context: Context, crop: str = "cucumber") -> StopView:
    """The stop at a crop in the walk that is open, else in one begun over everything; those before it are passed by."""
    if walk.open_walk(context) is None:
        walk.start(context, walk_plan(context, everything=True).stops)
    while (stop := walk.current_stop(context)) is not None and stop.crop_id != crop:
        walk.skip_stop(context, stop.id)
    assert stop is not None, crop
    return stop
