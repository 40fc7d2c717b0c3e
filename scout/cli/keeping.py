"""`bedwalk keeping-up`: the numbers behind "is stripping keeping up?"."""

from pathlib import Path
from typing import Annotated, Any

import typer

from scout.cli.commands import Json, On, app, print_json
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.errors import BadInput, NotFound
from scout.services.keeping_table import PlantingTable


@app.command("keeping-up")
def keeping_up(
    planting: Annotated[str | None, typer.Option("--planting", help="One planting; else all with marks.")] = None,
    csv: Annotated[Path | None, typer.Option("--csv", metavar="FILE", help="Counts from a CSV file.")] = None,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Show how leaf spots and growth move on marked plants, in plain numbers."""
    from scout.services.keeping_table import table_at, tables_in_file, tables_in_garden
    from scout.services.named import planting_named

    if csv is not None:
        if planting is not None:
            raise BadInput("Give --planting or --csv, not both.")
        found, as_list = tables_in_file(csv)
        _print(found, as_list, as_json)
        return
    with garden_on(on) as context:
        if planting is not None:
            _print((table_at(context, planting_named(context, planting)),), False, as_json)
            return
        found = tables_in_garden(context)
        if not found:
            raise NotFound("No plant is marked yet; mark one with: bedwalk marked add.")
        _print(found, True, as_json)


def _print(found: tuple[PlantingTable, ...], as_list: bool, as_json: bool) -> None:
    from scout.services.keeping_table import NOTE, table_lines
    from scout.services.keeping_table import as_json as as_plain

    if as_json:
        plain: list[dict[str, Any]] = [as_plain(one) for one in found]
        print_json(plain if as_list else plain[0])
        return
    for one in found:
        say(*table_lines(one))
    say(NOTE)
