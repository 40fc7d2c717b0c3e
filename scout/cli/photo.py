"""`bedwalk photo`: take pictures in without their place, list them, look at one, erase one."""

import sys
from dataclasses import asdict
from pathlib import Path
from typing import Annotated

import typer

from scout.cli.asking import agree, interactive
from scout.cli.commands import Json, On, app, print_json
from scout.cli.gardens import data_on, garden_on
from scout.cli.printing import say
from scout.cli.typed import count
from scout.errors import BadInput

group = typer.Typer(help="Take pictures in, list them, look at one, erase one.", no_args_is_help=True)
app.add_typer(group, name="photo")

Bed = Annotated[str | None, typer.Option("--bed", help="The bed it shows.")]
Stop = Annotated[str | None, typer.Option("--stop", help="current, or the id of a stop.")]
Planting = Annotated[str | None, typer.Option("--planting", help="The planting it shows.")]
_COLUMNS = 60
_MOST_COLUMNS = 400
_ROWS = 200


@group.command("add")
def add(
    file: Annotated[Path, typer.Argument(help="A JPEG, PNG, WebP or HEIC picture.")],
    bed: Bed = None,
    stop: Stop = None,
    planting: Planting = None,
    note: Annotated[str, typer.Option("--note", help="What it shows.")] = "",
    on: On = None,
) -> None:
    """Take in a picture; the place it was taken at is not kept."""
    from scout.services import photos
    from scout.services.photo_list import owner_named

    with garden_on(on) as context:
        kind, owner_id = owner_named(context, bed, stop, planting)
        photo_id = photos.attach(context, file.expanduser(), kind, owner_id, note=note)
        say(f"Taken in, without its place: {photo_id}")


@group.command("inbox")
def inbox(on: On = None, as_json: Json = False) -> None:
    """List new pictures in the watched folder, oldest first."""
    from scout.services.photos import in_inbox

    with data_on(on) as context:
        waiting = in_inbox(context)
        if as_json:
            print_json([str(file) for file in waiting])
        else:
            say(*(str(file) for file in waiting) if waiting else ["The inbox is empty."])


@group.command("list")
def list_photos(
    bed: Bed = None, stop: Stop = None, planting: Planting = None, on: On = None, as_json: Json = False
) -> None:
    """List the pictures, all or those of a bed, a stop or a planting."""
    from scout.services.photo_list import kept_photos, owner_named, photo_line

    with garden_on(on) as context:
        asked = any(name is not None for name in (bed, stop, planting))
        found = kept_photos(context, owner_named(context, bed, stop, planting) if asked else None)
        if as_json:
            print_json([asdict(photo) for photo in found])
        else:
            say(*(photo_line(photo) for photo in found) if found else ["No pictures."])


@group.command("show")
def show(
    picture: Annotated[str, typer.Argument(metavar="FILE_OR_ID")],
    columns: Annotated[
        int | None, typer.Option("--columns", parser=count("--columns"), metavar="N", help="Cells across; 60.")
    ] = None,
    on: On = None,
) -> None:
    """Show a picture as coloured half blocks; where that cannot be, say its size and label."""
    from scout.services import photos
    from scout.services.photo_list import ansi_lines
    from scout.services.photo_list import picture as named

    columns = _COLUMNS if columns is None else columns
    if not 1 <= columns <= _MOST_COLUMNS:
        raise BadInput(f"--columns: give 1 to {_MOST_COLUMNS}.")
    with data_on(on) as context:
        found = named(context, picture)
        say(f"{found.label}, {found.width} × {found.height} pixels")
        if sys.stdout.isatty():
            print("\n".join(ansi_lines(photos.cells(found.file, columns, _ROWS))))


@group.command("erase")
def erase_picture(
    picture: Annotated[str, typer.Argument(metavar="ID")],
    why: Annotated[str | None, typer.Option("--why", help="Kept in its place; a person is in it.")] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Erase it without asking.")] = False,
    on: On = None,
) -> None:
    """Erase a picture for good, such as one with a person in it; this cannot be undone."""
    from scout.services.photo_erase import STAYS, WHY, erase

    with garden_on(on) as context:
        if not yes and not (interactive() and agree("Erase it for good? This cannot be undone")):
            raise BadInput("Nothing was erased; erase it for good with --yes.")
        same = erase(context, picture, why or WHY)
        say("Erased for good.", *(f"The same picture is still kept as {one}." for one in same), STAYS)


@group.command("erased")
def list_erased(on: On = None, as_json: Json = False) -> None:
    """List which pictures were erased, when and why."""
    from scout.services.photo_erase import erased

    with garden_on(on) as context:
        found = erased(context)
        if as_json:
            print_json([asdict(one) for one in found])
        else:
            say(*(f"{one.id}  {one.erased_at}, {one.why}" for one in found) if found else ["Nothing was erased."])
