"""`bedwalk walk`: the likely causes at a stop, the question that tells most, and a control taken as a job."""

from dataclasses import asdict
from typing import Annotated, Literal

import typer

from scout.cli.commands import Json, On, print_json
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.walk import group
from scout.cli.walk_answers import confirmed
from scout.services.context import Context
from scout.services.views import CausesView


@group.command("causes")
def causes(
    cause: Annotated[str | None, typer.Argument(help="A cause to read: how to confirm it, what to do.")] = None,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Rank the likely causes here, or read one of them."""
    from scout.services.causes import cause_page
    from scout.services.named import cause_named
    from scout.services.spoken_walk import page_lines, stop_here

    with garden_on(on) as context:
        stop = stop_here(context)
        if cause is None:
            show_causes(context, stop.id, as_json)
            return
        page = cause_page(context, stop.id, cause_named(context, stop.crop_id, cause))
        if as_json:
            print_json(asdict(page))
        else:
            say(*page_lines(page))


def show_causes(context: Context, stop_id: str, as_json: bool = False) -> CausesView:
    """Print the ranking as it stands now and return it; it is kept as shown."""
    from scout.services.causes import causes_at
    from scout.services.spoken_walk import causes_lines

    found = causes_at(context, stop_id)
    if as_json:
        print_json(asdict(found))
    else:
        say(*causes_lines(found))
    return found


@group.command("reply")
def reply(
    symptom: Annotated[str, typer.Argument(help="The symptom or circumstance that was asked for.")],
    there: Annotated[Literal["yes", "no"], typer.Argument(help="Is it there?")],
    on: On = None,
    as_json: Json = False,
) -> None:
    """Answer what would tell most: there or not there; the ranking moves."""
    from scout.services.causes import answer
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        stop = stop_here(context)
        asked = symptom in context.knowledge.circumstances
        key = symptom if asked else confirmed(context, stop.crop_id, symptom).id
        answer(context, stop.id, key, there == "yes")
        show_causes(context, stop.id, as_json)


@group.command("size")
def size(
    size: Annotated[str, typer.Argument(help='How big the odd fruit is: small, half, full, ripe, or "12 cm".')],
    on: On = None,
    as_json: Json = False,
) -> None:
    """Say how big the odd fruit here is: it narrows the days that made it."""
    from scout.services.fruit_size import give_size
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        stop = stop_here(context)
        said = give_size(context, stop.id, size)
        if not as_json:
            say(said)
        show_causes(context, stop.id, as_json)


@group.command("take")
def take(
    cause: Annotated[str, typer.Argument(help="The cause, by id or name.")],
    control: Annotated[str, typer.Argument(help="What to do about it, by id, name or its number in the page.")],
    on: On = None,
) -> None:
    """Make a control a job with a day to look again."""
    from scout.services.causes import cause_page
    from scout.services.causes import take as take_control
    from scout.services.named import cause_named, control_named
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        stop = stop_here(context)
        cause_id = cause_named(context, stop.crop_id, cause)
        row = control_named(cause_page(context, stop.id, cause_id), control)
        sentence = take_control(context, stop.id, cause_id, row.id)
        say(
            sentence,
            f"  {row.do}",
            *(f"  Only if {text}." for text in row.only_if),
            *(f"  ! {c}" for c in row.cautions),
        )
