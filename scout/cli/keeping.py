"""`bedwalk keeping-up`: is leaf stripping keeping up with the spots?"""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from scout.cli.commands import Json, On, app, print_json
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.typed import count
from scout.errors import BadInput, NotFound

if TYPE_CHECKING:
    from scout.diagnosis.knife import Knife
    from scout.services.keeping_followed import Followed, Fruit


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
    on: On = None,
    as_json: Json = False,
) -> None:
    """Say whether leaf stripping keeps up with the spots on marked plants, and what would settle it."""
    from scout.services.keeping_knife import knife_today
    from scout.services.keeping_source import followed_in_file, followed_in_garden, marked_plantings
    from scout.services.named import planting_named

    fruit = _fruit(fruit_leaf, ripe_on)
    if csv is not None:
        if planting is not None or fruit is not None:
            raise BadInput("Give --planting or --csv, not both, and --fruit-leaf only with --planting.")
        _print(*followed_in_file(csv), as_json)
        return
    with garden_on(on) as context:
        if planting is not None:
            plant = planting_named(context, planting)
            _print((followed_in_garden(context, plant, fruit),), False, as_json, (knife_today(context, plant),))
            return
        if fruit is not None:
            raise BadInput("--fruit-leaf and --ripe-on speak of one planting; say which with --planting.")
        plants = marked_plantings(context)
        if not plants:
            raise NotFound("No plant is marked yet; mark one with: bedwalk marked add.")
        found = tuple(followed_in_garden(context, plant) for plant in plants)
        _print(found, True, as_json, tuple(knife_today(context, plant) for plant in plants))


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


def _print(
    found: "tuple[Followed, ...]", as_list: bool, as_json: bool, knives: "tuple[Knife, ...] | None" = None
) -> None:
    from scout.services.keeping_knife import knife_json, knife_lines
    from scout.services.keeping_table import measured_lines, with_numbers
    from scout.services.keeping_up import judge
    from scout.services.keeping_words import CHOICE, lines_below, verdict_sentence

    told = [judge(one) for one in found]
    if as_json:
        plain: list[dict[str, Any]] = [with_numbers(one) for one in told]
        for answer, knife in zip(plain, knives or (), strict=False):
            answer["before_the_knife"] = knife_json(knife)
        print_json(plain if as_list else plain[0])
        return
    for number, one in enumerate(told):
        say(*([one.planting] if one.planting else []), verdict_sentence(one), *lines_below(one))
        say(*(knife_lines(knives[number]) if knives else []), *measured_lines(one.followed))
    say(CHOICE)
