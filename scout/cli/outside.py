"""`bedwalk garden brought-in`, `near`, `outside`: what reaches the garden from outside."""

from typing import Annotated

import typer

from scout.cli.asking import given_or_asked
from scout.cli.commands import Json, On, print_json
from scout.cli.garden import group
from scout.cli.gardens import garden_on
from scout.cli.printing import say


@group.command("brought-in")
def brought_in(
    what: Annotated[str | None, typer.Argument(help="Such as straw, manure, compost, plants.")] = None,
    bed: Annotated[str | None, typer.Option("--bed", help="The bed it went to; all of them if left out.")] = None,
    on: On = None,
) -> None:
    """Note straw, manure, compost, plants or soil that came in."""
    from scout.services.named import bed_named
    from scout.services.outside import note_brought_in

    with garden_on(on) as context:
        what = given_or_asked(what, "WHAT", "What was brought in")
        note_brought_in(context, what, bed_named(context, bed) if bed else None)
        say(f"Noted: {what} brought in")


@group.command("near")
def near(
    disease: Annotated[str | None, typer.Argument(help="The disease by id or name.")] = None,
    km: Annotated[float | None, typer.Option("--km", min=0.0, max=5000.0, help="How far away, if known.")] = None,
    on: On = None,
) -> None:
    """Note a disease that is reported near here."""
    from scout.services.outside import note_near_report, reportable

    with garden_on(on) as context:
        known = reportable(context)
        disease = given_or_asked(disease, "DISEASE", f"Which disease: {', '.join(known.values())}")
        wanted = disease.casefold()
        key = next((k for k, name in known.items() if wanted in (k, name.casefold())), disease)
        note_near_report(context, key, km)
        say(f"Noted: {known[key]} reported near")


@group.command("outside")
def outside(on: On = None, as_json: Json = False) -> None:
    """List what was brought in this season and what is reported near."""
    from scout.services.outside import outside_lines

    with garden_on(on) as context:
        lines = outside_lines(context)
    if as_json:
        print_json(list(lines))
        return
    for line in lines or ("Nothing noted.",):
        print(line)
