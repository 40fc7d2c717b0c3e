"""A garden file taken in: every bed and planting of it, or none."""

from datetime import date
from pathlib import Path

from scout.services.context import Context
from scout.services.garden import add_bed, add_planting
from scout.services.site import create_garden, open_garden


def import_garden(context: Context, file: Path) -> tuple[int, int]:
    """Read a garden file and make the garden, all of it or none; return how many beds and plantings it had."""
    from scout.intake.garden_file import read_garden

    read = read_garden(file)
    for planting in read.plantings:
        context.knowledge.crop(planting.crop)
    if open_garden(context) is None:
        create_garden(
            context,
            read.garden.name,
            zone=read.garden.zone,
            units=read.garden.units,
            first_frost=read.garden.first_frost,
            last_frost=read.garden.last_frost,
            latitude=None if read.garden.latitude is None else float(read.garden.latitude),
            longitude=None if read.garden.longitude is None else float(read.garden.longitude),
        )
    with context.write():
        ids = {
            bed.name: add_bed(context, bed.name, kind=bed.kind, water_zone=bed.water_zone, note=bed.note)
            for bed in read.beds
        }
        for one in read.plantings:
            add_planting(
                context,
                tuple(ids[name] for name in one.beds),
                one.crop,
                plants_n=one.plants,
                variety=one.variety,
                identity=one.identity,
                origin=one.origin,
                habit=one.habit,
                sown_on=_iso(one.sown_on),
                set_out_on=_iso(one.set_out_on),
                sets_without_bees=one.sets_without_bees,
                note=one.note,
            )
    return len(read.beds), len(read.plantings)


def _iso(day: date | str | None) -> str | None:
    return day.isoformat() if isinstance(day, date) else day
