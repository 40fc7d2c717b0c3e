"""`bedwalk walk alerts`: the few lines of the first screen, and putting one away with a reason."""

from dataclasses import asdict
from typing import Annotated

import typer

from scout.cli.commands import Json, On, print_json
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.walk import group
from scout.errors import NotFound


@group.command("alerts")
def alerts(on: On = None, as_json: Json = False) -> None:
    """Show at most three things that want to be known today, numbered."""
    from scout.services.alerts import alerts_today

    with garden_on(on) as context:
        found = alerts_today(context)
        if as_json:
            print_json([asdict(one) | {"on": one.on.isoformat()} for one in found])
        else:
            lines = [f"{number}. {one.text}" for number, one in enumerate(found, 1)]
            say(*lines or ["Nothing out of the way today."])


@group.command("put-away")
def put_away(
    number: Annotated[int, typer.Argument(help="Its number in the list of alerts.")],
    why: Annotated[str, typer.Argument(help="Why it can go, such as: seen to already.")],
    on: On = None,
) -> None:
    """Put one of the alerts away, with a reason; it comes back when it changes."""
    from scout.services import alerts as service

    with garden_on(on) as context:
        found = service.alerts_today(context)
        if not 1 <= number <= len(found):
            raise NotFound(f"There is no alert {number}; there are {len(found)}: bedwalk walk alerts lists them.")
        service.put_away(context, found[number - 1], why)
        say(f"Put away until it changes: {found[number - 1].text}")
