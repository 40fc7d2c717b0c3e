"""`bedwalk garden`: set up a garden, show it, and note what changes in it."""

from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import Annotated, Literal

import typer

from scout.cli.asking import choose, given_or_asked, interactive, line, read
from scout.cli.choosing import planting_given
from scout.cli.commands import Json, On, app, print_json
from scout.cli.gardens import data_on, garden_on
from scout.cli.printing import say
from scout.cli.typed import count, day, decimal
from scout.errors import BadInput
from scout.plain import counted

group = typer.Typer(help="Set up the garden, show it, note what changes.", no_args_is_help=True)
app.add_typer(group, name="garden")

PlantingName = Annotated[
    str | None, typer.Argument(help='"Bed/crop", the bed, the crop, or an id.', metavar="PLANTING")
]
Kind = Literal["bed", "tub"]
Origin = Literal["bought_plant", "bought_seed", "saved_seed", "volunteer", "unknown"]


@group.command("new")
def new(
    name: Annotated[str | None, typer.Option("--name", help="A name for the garden.")] = None,
    zone: Annotated[str | None, typer.Option("--zone", help="Its time zone, like Etc/UTC.")] = None,
    units: Annotated[str | None, typer.Option("--units", help="metric or us.")] = None,
    first_frost: Annotated[
        str | None, typer.Option("--first-frost", help="Usual first autumn frost, like 10-28.")
    ] = None,
    last_frost: Annotated[str | None, typer.Option("--last-frost", help="Usual last spring frost, like 04-20.")] = None,
    latitude: Annotated[float | None, typer.Option("--latitude", parser=decimal("--latitude"), metavar="DEG")] = None,
    longitude: Annotated[
        float | None, typer.Option("--longitude", parser=decimal("--longitude"), metavar="DEG")
    ] = None,
    on: On = None,
) -> None:
    """Make a new garden in this data folder."""
    from scout.services import site

    if (latitude is None) != (longitude is None):
        raise BadInput("--latitude and --longitude come together; give both or neither.")
    with data_on(on) as context:
        name = given_or_asked(name, "--name", "A name for the garden")
        zone = given_or_asked(zone, "--zone", "Its time zone, like Etc/UTC or a continent and city with a slash")
        site.create_garden(
            context,
            name,
            zone=site.read_zone(zone),
            units=given_or_asked(units, "--units", "Units, metric or us", "metric"),
            last_frost=_frost(
                last_frost, "--last-frost", "Last spring frost, like 20 April or 04-20 (Enter: not known)"
            ),
            first_frost=_frost(
                first_frost, "--first-frost", "First autumn frost, like 28 October or 10-28 (Enter: not known)"
            ),
            latitude=latitude,
            longitude=longitude,
        )
        say("The garden is made. Next, in walking order: bedwalk garden add-bed NAME")


def _frost(given: str | None, flag: str, question: str) -> str | None:
    from scout.services.site import read_frost

    if given is None and interactive():
        given = line(question, empty=True)
    try:
        return read_frost(given or "")
    except BadInput as problem:
        raise BadInput(f"{flag}: {problem}") from None


@group.command("place", context_settings={"ignore_unknown_options": True})  # south begins with a minus
def place(
    latitude: Annotated[float, typer.Argument(parser=decimal("LATITUDE"), metavar="LATITUDE")],
    on: On = None,
) -> None:
    """Say how far north the garden lies (south negative); whole degrees do. It is not exported unless asked."""
    from scout.services.site import set_latitude

    with garden_on(on) as context:
        say(set_latitude(context, latitude))


@group.command("show")
def show(on: On = None, as_json: Json = False) -> None:
    """List beds in walking order with what stands in them."""
    from scout.services.site import site_of
    from scout.services.standing import beds_shown

    with garden_on(on) as context:
        site, beds = site_of(context), beds_shown(context)
        if as_json:
            print_json({"garden": asdict(site), "beds": [asdict(bed) for bed in beds]})
            return
        say(f"{site.name}, {context.today.isoformat()}, {counted(len(beds), 'bed')}")
        for bed in beds:
            say(f"{bed.name} ({bed.kind})", *(f"  {plant.line}" for plant in bed.plantings))


@group.command("import")
def import_file(file: Annotated[Path, typer.Argument(help="A .toml or .csv garden file.")], on: On = None) -> None:
    """Take in a garden file, all of it or nothing."""
    from scout.services import garden_import

    with data_on(on) as context:
        beds_n, plantings_n = garden_import.import_garden(context, file)
        say(f"Taken in: {counted(beds_n, 'bed')}, {counted(plantings_n, 'planting')}.")


@group.command("add-bed")
def add_bed(
    name: Annotated[str | None, typer.Argument(help="The name you use for it.")] = None,
    kind: Annotated[Kind, typer.Option("--kind")] = "bed",
    water_zone: Annotated[str | None, typer.Option("--water-zone", help="The valve or timer that waters it.")] = None,
    note: Annotated[str, typer.Option("--note")] = "",
    on: On = None,
) -> None:
    """Add a bed or tub at the end of the walking order."""
    from scout.services import garden

    with garden_on(on) as context:
        name = given_or_asked(name, "NAME", "The bed's name")
        garden.add_bed(context, name, kind=kind, water_zone=water_zone, note=note)
        say(f"Added {kind}: {name}")


@group.command("add-planting")
def add_planting(
    bed: Annotated[list[str] | None, typer.Option("--bed", help="Where it stands; may be given twice.")] = None,
    crop: Annotated[str | None, typer.Option("--crop", help="Crop by id or name.")] = None,
    plants: Annotated[int | None, typer.Option("--plants", parser=count("--plants"), metavar="N")] = None,
    variety: Annotated[str | None, typer.Option("--variety", help="As the packet or tag says.")] = None,
    sown: Annotated[date | None, typer.Option("--sown", parser=day("--sown"), metavar="DATE")] = None,
    set_out: Annotated[date | None, typer.Option("--set-out", parser=day("--set-out"), metavar="DATE")] = None,
    origin: Annotated[Origin, typer.Option("--origin")] = "unknown",
    confirmed: Annotated[bool, typer.Option("--confirmed", help="The variety is surely what the label says.")] = False,
    habit: Annotated[Literal["indeterminate", "determinate", "topped"] | None, typer.Option("--habit")] = None,
    sets_without_bees: Annotated[bool | None, typer.Option("--without-bees/--needs-bees")] = None,
    note: Annotated[str, typer.Option("--note")] = "",
    on: On = None,
) -> None:
    """Add a planting to one bed or several."""
    from scout.services import garden
    from scout.services.named import bed_named

    with garden_on(on) as context:
        names = bed or [given_or_asked(None, "--bed", "In which bed")]
        beds = tuple(dict.fromkeys(bed_named(context, name) for name in names))
        crop = _crop(crop, [known.id for known in context.knowledge.crops.values()])
        if plants is None and interactive():
            plants = read("How many plants (Enter: not counted)", count("--plants"))
        garden.add_planting(
            context,
            beds,
            crop,
            plants_n=plants,
            variety=variety,
            identity="confirmed" if confirmed else "unconfirmed",
            origin=origin,
            habit=habit,
            sown_on=sown.isoformat() if sown else None,
            set_out_on=set_out.isoformat() if set_out else None,
            sets_without_bees=sets_without_bees,
            note=note,
        )
        say(f"Planted: {context.knowledge.crop(crop).name} in {', '.join(names)}")


def _crop(given: str | None, crops: list[str]) -> str:
    from scout.plain import shortened

    if given is None and interactive():
        place = choose("Which crop", crops)
        given = crops[place] if place is not None else None
    return shortened(given_or_asked(given, "--crop", "The crop by id or name"))


@group.command("pull")
def pull(
    planting: PlantingName = None, why: Annotated[str | None, typer.Option("--why")] = None, on: On = None
) -> None:
    """Note that a planting was pulled; its records stay."""
    from scout.services import garden
    from scout.services.named import full_name

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        why = given_or_asked(why, "--why", "Why was it pulled")
        garden.remove_planting(context, plant.planting_id, why)
        say(f"Pulled: {full_name(plant)} ({why})")


@group.command("stage")
def stage(
    planting: PlantingName = None,
    stage: Annotated[str | None, typer.Argument(help="A stage of the crop.")] = None,
    on: On = None,
) -> None:
    """Set a planting's stage by hand."""
    from scout.services.named import full_name, listed
    from scout.services.standing import set_stage_named

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        words = given_or_asked(stage, "STAGE", f"Which stage, {listed(known.id for known in plant.crop.stages)}")
        say(f"{full_name(plant)}: {set_stage_named(context, plant, words)}")


@group.command("count")
def count_plants(
    planting: PlantingName = None,
    plants: Annotated[int | None, typer.Argument(parser=count("PLANTS"), metavar="PLANTS")] = None,
    on: On = None,
) -> None:
    """Note how many plants stand today."""
    from scout.services import standing
    from scout.services.named import full_name

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        if plants is None:
            plants = count("PLANTS")(given_or_asked(None, "PLANTS", "How many plants stand today"))
        standing.count_plants(context, plant.planting_id, plants)
        say(f"{full_name(plant)}: {counted(plants, 'plant')}")
