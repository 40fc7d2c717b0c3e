"""`bedwalk backup`, `restore`, `export`, `selfcheck`: your data is yours, and whether it is whole."""

from dataclasses import asdict
from pathlib import Path
from typing import Annotated

import typer

from scout import paths
from scout.cli.commands import Json, On, app, print_json
from scout.cli.gardens import data_on, garden_on
from scout.cli.printing import say
from scout.errors import StoreError


@app.command()
def backup(
    to: Annotated[Path | None, typer.Argument(help="A file or folder; none: the folder of backups.")] = None,
    on: On = None,
) -> None:
    """Write a checked copy of the garden file."""
    from scout.services.copies import back_up_garden

    with data_on(on) as context:
        written = back_up_garden(context, to.expanduser() if to else None)
        say(f"Backup: {written}", f"Pictures are not in it; they lie in {paths.photos(context.root)}.")


@app.command()
def restore(source: Annotated[Path, typer.Argument(metavar="FROM", help="A backup file.")], on: On = None) -> None:
    """Put a backup in the place of the garden; the garden that was there is kept as a backup."""
    from scout.services.copies import restore_garden
    from scout.services.site import site_of

    with data_on(on) as context:
        kept = restore_garden(context, source.expanduser())
        say(f"Restored: {site_of(context).name}")
        if kept is not None:
            say(f"The garden that was here before is kept in {kept}.")


@app.command()
def export(
    folder: Annotated[Path, typer.Argument(help="A new or empty folder.")],
    with_place: Annotated[bool, typer.Option("--with-place", help="Also latitude and longitude.")] = False,
    on: On = None,
) -> None:
    """Write plain tables and pictures that need no Bedwalk; never the place, unless asked for."""
    from scout.services.export import export as write

    with garden_on(on) as context:
        done = write(context, folder.expanduser(), with_place=with_place)
        say(f"Exported to {folder}: {done.tables_n} tables, {done.rows_n} rows, {done.photos_n} pictures.")
        if done.photos_missing_n:
            say(f"{done.photos_missing_n} pictures are gone from their folder or damaged, so they are not in it.")


@app.command()
def selfcheck(on: On = None, as_json: Json = False) -> None:
    """Check versions, data folder, garden file and knowledge; exit code 1 when something is wrong."""
    from scout.services.selfcheck import selfcheck as check

    with data_on(on) as context:
        found = check(context)
    if as_json:
        print_json([asdict(one) for one in found])
    else:
        say(*(f"{'ok' if one.ok else 'WRONG'}  {one.what}: {one.text}" for one in found))
    wrong = [one.what for one in found if not one.ok]
    if wrong:
        raise StoreError(f"Not in order: {', '.join(wrong)}.")
