"""The small garden that the tests of services and screens share, on a fixed day."""

from datetime import UTC, datetime

from scout.services import garden, site
from scout.services.context import Context


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
