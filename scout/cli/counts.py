"""`bedwalk counts`: pests against their marks, and what the pick tally says."""

from dataclasses import asdict
from typing import Annotated

import typer

from scout.cli.asking import given_or_asked
from scout.cli.choosing import planting_given
from scout.cli.commands import Json, On, app, print_json
from scout.cli.garden import PlantingName
from scout.cli.gardens import garden_on
from scout.cli.printing import say

group = typer.Typer(help="Pests against the marks of extension guides; what was picked.", no_args_is_help=True)
app.add_typer(group, name="counts")


@group.command("marks")
def marks(planting: PlantingName = None, on: On = None, as_json: Json = False) -> None:
    """List the marks printed for a planting's crop at its stage."""
    from scout.services.action_marks import FROM_FIELDS, marks_for

    with garden_on(on) as context:
        found = marks_for(context, planting_given(context, planting))
    if as_json:
        print_json([mark.model_dump() for mark in found])
        return
    for mark in found:
        at = (
            f"{100 * mark.mark:.0f} % of {mark.unit}"
            if mark.way == "share"
            else f"{mark.mark:.2g} on each of the {mark.unit}"
        )
        say(f"{mark.id}: {mark.what}, {at}")
    say(FROM_FIELDS if found else "No mark is known for this crop at its stage.")


@group.command("mark")
def mark(
    planting: PlantingName = None,
    which: Annotated[
        str | None, typer.Argument(metavar="MARK", help="The mark by its id or by what is counted.")
    ] = None,
    count: Annotated[
        str | None, typer.Argument(metavar="FOUND/LOOKED", help="Such as 4/6, or one by one: 3,0,1.")
    ] = None,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Keep a count of a pest and say how it stands to its mark, and how many more plants to look at."""
    from scout.services.action_marks import keep_pest_count, mark_named
    from scout.services.counting import read_count_text

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        held = mark_named(context, plant, given_or_asked(which, "MARK", "Which mark, by its id"))
        asked = f"How many {held.what} on how many {held.unit}, like 4/6"
        answer = keep_pest_count(context, plant, held, read_count_text(given_or_asked(count, "FOUND/LOOKED", asked)))
    if as_json:
        print_json(asdict(answer))
        return
    say(*answer.lines)


@group.command("picks")
def picks(planting: PlantingName = None, on: On = None, as_json: Json = False) -> None:
    """Show the picks of a planting: the share misshapen, and whether it is past its best."""
    from scout.services.pick_tally import pick_tally

    with garden_on(on) as context:
        found = pick_tally(context, planting_given(context, planting))
    if as_json:
        rows = [asdict(row) | {"on": row.on.isoformat()} for row in found.rows]
        print_json(asdict(found) | {"rows": rows})
        return
    for row in found.rows[-10:]:
        rate = "" if row.a_week is None else f", {row.a_week:.1f} sound a week each"
        say(f"{row.on.isoformat()}: {row.sound_n} sound, {row.odd_n} odd{rate}")
    say(*found.lines)
