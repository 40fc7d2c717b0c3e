"""Beds and tubs in walking order, and what stands in them."""

from dataclasses import dataclass
from datetime import date

from scout.diagnosis.stages import stage_on
from scout.errors import BadInput, NotFound
from scout.knowledge.crop_file import Crop
from scout.knowledge.schema import StageId
from scout.services.context import Context


@dataclass(frozen=True)
class Planted:
    """One planting in one bed, with what every screen wants to know of it."""

    planting_id: str
    bed_id: str
    bed: str
    bed_kind: str
    position: int
    water_zone: str | None
    crop: Crop
    variety: str | None
    identity: str
    origin: str
    habit: str | None
    sown_on: str | None
    set_out_on: str | None
    plants_n: int | None
    stage: StageId | None

    @property
    def label(self) -> str:
        """Return crop and variety as a grower says it."""
        return f"{self.crop.name} {self.variety}" if self.variety else self.crop.name

    def stage_by_age(self, on: date) -> StageId | None:
        """Return the stage on a day by the crop's own calendar, whatever was set by hand."""
        return stage_on(self.crop, on, _date(self.sown_on), _date(self.set_out_on))


def _date(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None


def add_bed(context: Context, name: str, *, kind: str = "bed", water_zone: str | None = None, note: str = "") -> str:
    """Add a bed or tub at the end of the walking order; return its id. A name in use is refused."""
    from scout.store import beds
    from scout.store.tables_garden import Bed

    with context.write() as tx:
        garden_id = str(context.garden_id)
        if any(b.retired_on is None for b in beds.beds_named(session=tx.session, garden_id=garden_id, name=name)):
            raise BadInput(f"There is a bed named {name!r} already; give this one another name.")
        order = beds.beds_in_order(session=tx.session, garden_id=garden_id)
        position = max((bed.position for bed in order), default=0) + 10
        context.ask_anew()
        return tx.add(Bed, name=name, kind=kind, position=position, water_zone=water_zone, note=note)


def add_planting(
    context: Context,
    bed_ids: tuple[str, ...],
    crop: str,
    *,
    plants_n: int | None = None,
    variety: str | None = None,
    identity: str = "unconfirmed",
    origin: str = "unknown",
    habit: str | None = None,
    sown_on: str | None = None,
    set_out_on: str | None = None,
    sets_without_bees: bool | None = None,
    note: str = "",
) -> str:
    """Add a planting to one or more beds; return its id. The crop may be named by an alias."""
    from scout.store.tables_garden import PlantCount, Planting, PlantingBed

    known = context.knowledge.crop(crop)
    if not bed_ids:
        raise BadInput("A planting stands in at least one bed; name it.")
    today = context.today.isoformat()
    begun = min((day for day in (sown_on, set_out_on) if day), default=today)
    with context.write() as tx:
        context.ask_anew()
        planting_id = tx.add(
            Planting,
            crop=known.id,
            variety_label=variety,
            identity=identity,
            origin=origin,
            habit=habit or (known.habit if known.habit != "not_counted" else None),
            sown_on=sown_on,
            set_out_on=set_out_on,
            note=note,
        )
        for bed in bed_ids:
            tx.add(PlantingBed, planting_id=planting_id, bed_id=bed, from_on=begun)
        if plants_n is not None:
            tx.add(PlantCount, planting_id=planting_id, counted_on=begun, plants_n=plants_n)
        if sets_without_bees is not None:
            set_circumstance(context, planting_id, "sets_without_bees", sets_without_bees)
    return planting_id


def planted_day(context: Context, text: str) -> date:
    """Return the day on which something was sown or set out, as typed. Errors: BadInput for no date, or one to come."""
    from scout.intake.dates import read_date

    day = read_date(text)
    if day > context.today:
        raise BadInput(f"{day} is still to come; give the day it was sown or set out.")
    return day


def set_circumstance(context: Context, planting_id: str, circumstance: str, value: bool) -> None:
    """Note how a planting is grown; the newest answer holds."""
    from scout.store.tables_garden import Circumstance

    if circumstance not in context.knowledge.circumstances:
        raise NotFound(f"There is no circumstance {circumstance!r}.")
    at, offset = context.moment()
    with context.write() as tx:
        tx.add(
            Circumstance,
            planting_id=planting_id,
            circumstance=circumstance,
            value=value,
            observed_at=at,
            observed_offset_min=offset,
        )


def remove_planting(context: Context, planting_id: str, why: str, on: date | None = None) -> None:
    """Note that a planting was pulled, and why; its records stay."""
    from scout.store.tables_garden import Planting

    with context.write() as tx:
        context.ask_anew()
        tx.update(Planting, planting_id, removed_on=(on or context.today).isoformat(), removed_why=why)


def set_stage(context: Context, planting_id: str, stage: str) -> None:
    """Set a planting's stage by hand; it holds until it is set again."""
    from scout.store.tables_garden import Planting

    with context.write() as tx:
        context.ask_anew()
        tx.update(Planting, planting_id, stage_override=stage)


def planted(context: Context, on: date | None = None) -> tuple[Planted, ...]:
    """Return every planting in every bed on a day, in walking order."""
    day = on or context.today
    return context.once(f"planted {day}", lambda: _planted_on(context, day))


def _planted_on(context: Context, day: date) -> tuple[Planted, ...]:
    from scout.store import beds, plantings

    garden_id = str(context.garden_id)
    with context.read() as session:
        bed_of = {bed.id: bed for bed in beds.beds_in_order(session=session, garden_id=garden_id)}
        standing = plantings.plantings(session=session, garden_id=garden_id, on=day.isoformat())
        planting_of = {planting.id: planting for planting in standing}
        counts = plantings.plant_counts(session=session, garden_id=garden_id, on=day.isoformat())
        places = plantings.places(session=session, garden_id=garden_id, on=day.isoformat())
    found = []
    for place in places:
        bed, planting = bed_of[place.bed_id], planting_of[place.planting_id]
        crop = context.knowledge.crops.get(planting.crop)
        if crop is None:
            continue  # a crop of newer knowledge: kept in the file, not walked by this program
        count = counts.get(planting.id)
        found.append(
            Planted(
                planting_id=planting.id,
                bed_id=bed.id,
                bed=bed.name,
                bed_kind=bed.kind,
                position=bed.position,
                water_zone=bed.water_zone,
                crop=crop,
                variety=planting.variety_found or planting.variety_label,
                identity=planting.identity,
                origin=planting.origin,
                habit=planting.habit,
                sown_on=planting.sown_on,
                set_out_on=planting.set_out_on,
                plants_n=count.plants_n if count else None,
                stage=stage_on(crop, day, _date(planting.sown_on), _date(planting.set_out_on), planting.stage_override),
            )
        )
    return tuple(found)


def planted_as(context: Context, planting_id: str) -> Planted:
    """Return one planting where it stands now; NotFound when it stands nowhere."""
    for one in planted(context):
        if one.planting_id == planting_id:
            return one
    raise NotFound("This planting stands in no bed today.")


def bed_names(context: Context) -> tuple[tuple[str, str, str], ...]:
    """Return id, name and kind of the beds in use, in walking order."""
    from scout.store import beds

    with context.read() as session:
        order = beds.beds_in_order(session=session, garden_id=str(context.garden_id), on=context.today.isoformat())
    return tuple((bed.id, bed.name, bed.kind) for bed in order)
