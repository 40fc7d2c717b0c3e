"""`bedwalk jobs forget`: take what was confirmed out of the count."""

from typing import Annotated

import typer

from scout.cli.commands import On
from scout.cli.gardens import garden_on
from scout.cli.jobs import group
from scout.cli.printing import say
from scout.errors import BadInput


@group.command("forget")
def forget(
    cause: Annotated[str | None, typer.Argument(help="The cause by id.")] = None,
    crop: Annotated[str | None, typer.Option("--crop", help="Only on this crop.")] = None,
    everything: Annotated[bool, typer.Option("--all", help="Everything this garden has confirmed.")] = False,
    on: On = None,
) -> None:
    """Take confirmed answers out of the count; they stay in the record, and undo brings them back."""
    from scout.services.confirmed_list import reset

    if cause is None and crop is None and not everything:
        raise BadInput("Say which cause, which --crop, or --all.")
    with garden_on(on) as context:
        known = context.knowledge.crop(crop).id if crop else None
        taken_n = reset(context, known, cause)
        say(f"Taken out of the count: {taken_n}. Undo brings them back.")
