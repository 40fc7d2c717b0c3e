"""`bedwalk walk`: plan, begin, go from stop to stop, end; by itself at a terminal it asks its way through."""

from collections.abc import Sequence
from dataclasses import asdict
from typing import Annotated

import typer

from scout.cli.asking import interactive
from scout.cli.choosing import planting_given
from scout.cli.commands import Json, On, app, print_json
from scout.cli.garden import PlantingName
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.typed import clock, decimal
from scout.errors import BadInput, NotFound
from scout.services.context import Context
from scout.services.views import WalkPlan

group = typer.Typer(help="Plan the walk, go from stop to stop, keep what each gives.", invoke_without_command=True)
app.add_typer(group, name="walk")

Minutes = Annotated[
    float | None,
    typer.Option("--minutes", parser=decimal("--minutes"), metavar="N", help="The least worthwhile waits."),
]
Begin = Annotated[
    int | None,
    typer.Option("--from", parser=clock("--from"), metavar="H:MM", help="When the walk begins; else now."),
]
Dry = Annotated[
    int | None,
    typer.Option("--dry-from", parser=clock("--dry-from"), metavar="H:MM", help="From when leaves are dry, as felt."),
]
All = Annotated[bool, typer.Option("--all", help="Also the plantings that are not due.")]


@group.callback()
def walk(context: typer.Context, on: On = None) -> None:
    """Walk the beds, question by question, at a terminal."""
    if context.invoked_subcommand is not None:
        return
    if not interactive():
        raise BadInput("Nobody is there to answer; use bedwalk walk plan, start, next, answer, find, clear, done, end.")
    from scout.cli.walk_prompts import PromptWalk

    with garden_on(on) as garden:
        PromptWalk(garden).run()


def _plan(
    context: Context, minutes: float | None, everything: bool, start: int | None = None, dry: int | None = None
) -> WalkPlan:
    from scout.services.plan import walk_plan

    if minutes is not None and minutes <= 0:
        raise BadInput("--minutes: give the minutes there are, more than 0.")
    return walk_plan(context, minutes, everything=everything, start=start, dry_from=dry)


@group.command("plan")
def plan(
    minutes: Minutes = None,
    everything: All = False,
    begin_at: Begin = None,
    dry_from: Dry = None,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Show which beds today, in which order, when and why; what waits until when; the dawn and after-dark lists."""
    from scout.services.spoken_walk import plan_lines

    with garden_on(on) as context:
        found = _plan(context, minutes, everything, begin_at, dry_from)
        if as_json:
            print_json(asdict(found))
        else:
            say(*plan_lines(found))


@group.command("start")
def start(minutes: Minutes = None, everything: All = False, on: On = None, as_json: Json = False) -> None:
    """Begin the walk, or go on with the one that is open, and show the stop."""
    with garden_on(on) as context:
        begin(context, minutes, everything)
        show_where(context, as_json)


def begin(context: Context, minutes: float | None, everything: bool) -> None:
    """Begin a walk unless one is open; NotFound when nothing is due."""
    from scout.services import walk as service

    if service.open_walk(context) is not None:
        return
    found = _plan(context, minutes, everything)
    if not found.stops:
        if found.deferred:
            raise NotFound(f"Nothing fits now. {found.deferred[0].deferred_why}.")
        raise NotFound("Nothing is due today; walk anyway with: bedwalk walk start --all.")
    service.start(context, (*found.stops, *found.deferred))


def show_where(context: Context, as_json: bool = False, first: Sequence[str] = ()) -> None:
    """Print the stop where the walk stands, or the summing up; as JSON the key that is not null."""
    from scout.services import walk as service
    from scout.services.spoken_walk import where_lines
    from scout.services.summary import last_summary

    if not as_json:
        say(*first, *where_lines(context))
        return
    stop = service.current_stop(context)
    summary = None if stop is not None else last_summary(context)
    print_json({"stop": asdict(stop) if stop else None, "summary": asdict(summary) if summary else None})


@group.command("go")
def go(planting: PlantingName = None, on: On = None, as_json: Json = False) -> None:
    """Go to a planting now, out of the planned order, and show the stop; with no walk open, begin one of this stop."""
    from scout.services.walk_elsewhere import look_now

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        look_now(context, plant.planting_id, plant.bed_id)
        show_where(context, as_json)


@group.command("next")
def next_stop(on: On = None, as_json: Json = False) -> None:
    """Show the stop where the walk stands: last visit, holds, open problems, looks with numbers."""
    from scout.services.spoken_walk import stop_here, stop_lines

    with garden_on(on) as context:
        stop = stop_here(context)
        if as_json:
            print_json(asdict(stop))
        else:
            say(*stop_lines(stop))


@group.command("done")
def done(on: On = None, as_json: Json = False) -> None:
    """Close this stop, or pass it by where nothing was answered, and show the next."""
    from scout.services import walk as service
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        service.leave_stop(context, stop_here(context).id)
        show_where(context, as_json)


@group.command("later")
def later(
    why: Annotated[str, typer.Argument(help="Why it waits, such as: the leaves are wet.")],
    on: On = None,
    as_json: Json = False,
) -> None:
    """Leave this stop for later, with the reason, and show the next."""
    from scout.services import walk as service
    from scout.services.spoken_walk import stop_here

    with garden_on(on) as context:
        service.defer(context, stop_here(context).id, why)
        show_where(context, as_json)


@group.command("undo")
def undo(on: On = None) -> None:
    """Take back the last thing given on this device, also after the walk."""
    from scout.services.undo import undo as take_back

    with garden_on(on) as context:
        say(take_back(context))


@group.command("end")
def end(on: On = None, as_json: Json = False) -> None:
    """End the walk; stops still open count as not looked at."""
    from scout.services import walk as service

    with garden_on(on) as context:
        if service.open_walk(context) is None:
            raise NotFound("No walk is open, so there is none to end.")
        service.finish(context)
        show_where(context, as_json)
