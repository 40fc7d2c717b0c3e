"""`bedwalk weather gaps`: what the heat of the last weeks will cost, and when flowers set again."""

from dataclasses import asdict

from scout.cli.commands import Json, On, print_json
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.weather import group


@group.command("gaps")
def gaps(on: On = None, as_json: Json = False) -> None:
    """Say which gaps in picking are ahead, and when flowers set again."""
    from scout.services.gaps import gaps_ahead

    with garden_on(on) as context:
        found = gaps_ahead(context)
        if as_json:
            print_json([asdict(view) for view in found])
            return
        say(*(line for view in found for line in view.lines))
        if not found:
            say("No gap in picking is to be seen ahead.")
