"""`bedwalk holds`: do not eat until, do not go in until, after a labelled product."""

from dataclasses import asdict
from typing import Annotated

import typer

from scout.cli.asking import given_or_asked, interactive, read
from scout.cli.choosing import planting_given
from scout.cli.commands import Json, On, app, print_json
from scout.cli.garden import PlantingName
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.typed import count
from scout.errors import BadInput

group = typer.Typer(
    help="What may not be eaten or entered yet, by the label of what was used.", invoke_without_command=True
)
app.add_typer(group, name="holds")

Days = Annotated[int | None, typer.Option("--harvest-days", parser=count("--harvest-days"), metavar="N")]
Hours = Annotated[int | None, typer.Option("--entry-hours", parser=count("--entry-hours"), metavar="N")]


@group.callback()
def holds(context: typer.Context, on: On = None, as_json: Json = False) -> None:
    """List the holds that stand."""
    if context.invoked_subcommand is None:
        list_holds(on, as_json)


@group.command("list")
def list_holds(on: On = None, as_json: Json = False) -> None:
    """List the holds that stand, in walking order."""
    from scout.services.holds import standing

    with garden_on(on) as context:
        found = standing(context)
    if as_json:
        print_json([asdict(hold) | {"lines": list(hold.lines)} for hold in found])
        return
    for number, hold in enumerate(found, 1):
        say(f"{number}. {hold.short} ({hold.what})")
    if not found:
        say("Nothing is on hold.")


@group.command("add")
def add(
    planting: PlantingName = None,
    what: Annotated[str, typer.Option("--what", help="In your own words.")] = "labelled product",
    used: Annotated[str, typer.Option("--used", help='When you finished: "18:30", "2026-07-03 18:30", a day.')] = "",
    days: Days = None,
    hours: Hours = None,
    on: On = None,
) -> None:
    """Enter that a labelled product was used, with the intervals of its label."""
    from scout.services import holds as service

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        if not used and interactive():
            used = given_or_asked(None, "--used", "When did you finish, like 18:30 or 2026-07-03 18:30", "now")
        when = service.read_applied("" if used == "now" else used, context.today)
        if used == "now":
            when = context.here_and_now.replace(tzinfo=None, second=0, microsecond=0)
        days, hours = _intervals(days, hours)
        hold_id = service.record_hold(context, plant.planting_id, what, when, days, hours)
        kept = next((hold for hold in service.standing(context) if hold.id == hold_id), None)
        say(*(kept.lines if kept else ("This label's times are over already.",)), service.COPY_IT)
        say("Mistaken? bedwalk walk undo takes it back.")


@group.command("label")
def label(
    number: Annotated[int | None, typer.Argument(metavar="NUMBER", help="Its number in the list.")] = None,
    days: Days = None,
    hours: Hours = None,
    on: On = None,
) -> None:
    """Give a hold the intervals of its label, or mend them."""
    from scout.services import holds as service

    with garden_on(on) as context:
        found = service.standing(context)
        if number is None or not 1 <= number <= len(found):
            raise BadInput(f"Give the hold's number, 1 to {len(found)}; 'bedwalk holds' lists them.")
        hold = found[number - 1]
        days, hours = _intervals(days, hours)
        service.give_label(context, hold.id, days, hours)
        kept = next((one for one in service.standing(context) if one.id == hold.id), None)
        say(*(kept.lines if kept else ("This label's times are over already.",)))


def _intervals(days: int | None, hours: int | None) -> tuple[int | None, int | None]:
    if days is None and interactive():
        days = read("Days from last use to harvest, by its label (Enter: not known)", count("days"))
    if hours is None and interactive():
        hours = read("Hours until you may go in, by its label (Enter: not known)", count("hours"))
    return days, hours
