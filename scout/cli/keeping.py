"""`bedwalk keeping-up`: is leaf stripping keeping up with the spots?"""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from scout.cli.commands import Json, On, app
from scout.cli.gardens import data_on, garden_on
from scout.cli.typed import count
from scout.errors import BadInput, NotFound

if TYPE_CHECKING:
    from scout.services.context import Context
    from scout.services.garden import Planted
    from scout.services.keeping_followed import Fruit


@app.command("keeping-up")
def keeping_up(
    planting: Annotated[str | None, typer.Option("--planting", help="One planting; else all with marks.")] = None,
    csv: Annotated[Path | None, typer.Option("--csv", metavar="FILE", help="Counts from a CSV file.")] = None,
    fruit_leaf: Annotated[
        int | None,
        typer.Option(
            "--fruit-leaf",
            parser=count("--fruit-leaf"),
            metavar="N",
            help="Leaf at which the lowest unripe fruit hangs.",
        ),
    ] = None,
    ripe_on: Annotated[str | None, typer.Option("--ripe-on", metavar="DATE", help="Day it will be ripe.")] = None,
    figures: Annotated[
        bool,
        typer.Option("--figures", help="Epidemic figures instead: incidence, AUDPC, infection rate, doubling time."),
    ] = False,
    to_print: Annotated[
        Path | None, typer.Option("--print", metavar="FILE", help="Write an HTML sheet to print instead.")
    ] = None,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Say whether leaf stripping keeps up with the spots on marked plants, and what would settle it."""
    if to_print is not None and (as_json or figures):
        raise BadInput("--print writes a sheet; give it without --json and --figures.")
    fruit = _fruit(fruit_leaf, ripe_on)
    if csv is not None:
        if planting is not None or fruit is not None:
            raise BadInput("Give --planting or --csv, not both, and --fruit-leaf only with --planting.")
        with data_on(on) as context:
            _from_file(context, csv, figures, to_print, as_json)
        return
    with garden_on(on) as context:
        _from_garden(context, planting, fruit, figures, to_print, as_json)


def _from_file(context: "Context", csv: Path, figures: bool, to_print: Path | None, as_json: bool) -> None:
    from scout.cli.keeping_shown import print_sheet, show_figures, show_verdicts
    from scout.services.keeping_figures import figures_of
    from scout.services.keeping_source import followed_in_file

    found, as_list = followed_in_file(csv)
    if to_print is not None:
        print_sheet(found, (), context.today, to_print)
    elif figures:
        show_figures([figures_of(one) for one in found], as_list, as_json)
    else:
        show_verdicts(found, (), as_list, as_json)


def _from_garden(
    context: "Context",
    planting: str | None,
    fruit: "Fruit | None",
    figures: bool,
    to_print: Path | None,
    as_json: bool,
) -> None:
    from scout.cli.keeping_shown import print_sheet, show_figures, show_verdicts
    from scout.services.keeping_figures import figures_at
    from scout.services.keeping_knife import knife_today
    from scout.services.keeping_source import followed_in_garden

    plants, as_list = _plants(context, planting, fruit), planting is None
    if figures:
        show_figures([figures_at(context, plant) for plant in plants], as_list, as_json)
        return
    found = [followed_in_garden(context, plant, fruit) for plant in plants]
    knives = [knife_today(context, plant) for plant in plants]
    if to_print is not None:
        print_sheet(found, knives, context.today, to_print)
    else:
        show_verdicts(found, knives, as_list, as_json)


def _plants(context: "Context", planting: str | None, fruit: "Fruit | None") -> "tuple[Planted, ...]":
    """Return the one planting named, or every planting with marked plants."""
    from scout.services.keeping_source import marked_plantings
    from scout.services.named import planting_named

    if planting is not None:
        return (planting_named(context, planting),)
    if fruit is not None:
        raise BadInput("--fruit-leaf and --ripe-on speak of one planting; say which with --planting.")
    plants = marked_plantings(context)
    if not plants:
        raise NotFound("No plant is marked yet; mark one with: bedwalk marked add.")
    return plants


def _fruit(leaf: int | None, ripe_on: str | None) -> "Fruit | None":
    from scout.intake.dates import read_date
    from scout.services.keeping_followed import Fruit

    if leaf is None and ripe_on is None:
        return None
    if leaf is None or ripe_on is None:
        raise BadInput("Give --fruit-leaf and --ripe-on together: where the fruit hangs, and when it will be ripe.")
    try:
        return Fruit(leaf, read_date(ripe_on))
    except BadInput as problem:
        raise BadInput(f"--ripe-on: {problem}") from None
