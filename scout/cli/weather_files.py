"""`bedwalk weather import` and what became of it: shown first, written when told, corrections kept."""

from dataclasses import asdict
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from scout.cli.asking import agree, interactive
from scout.cli.commands import Json, On, print_json
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.progress import progress
from scout.cli.weather import group
from scout.errors import BadInput

if TYPE_CHECKING:
    from scout.services.weather_files import TakenIn, WeatherFile

_SHOWN = 24


class Source(StrEnum):
    """Where the figures of a file come from."""

    measured = "measured"
    station = "station"
    typed = "typed"
    estimated = "estimated"


@group.command("import")
def import_file(
    file: Annotated[Path, typer.Argument(help="A CSV file of days, of hours, or of readings some minutes apart.")],
    yes: Annotated[bool, typer.Option("--yes", help="Take in the good rows without asking.")] = False,
    station: Annotated[str, typer.Option("--station", metavar="NAME", help="Whose weather it is.")] = "here",
    source: Annotated[
        Source | None, typer.Option("--source", help="measured here, a station (for any other name), typed, estimated.")
    ] = None,
    issued: Annotated[
        str | None, typer.Option("--issued", metavar="TIME", help="It is a forecast, issued then: 2026-07-22 06:00.")
    ] = None,
    hourly: Annotated[bool | None, typer.Option("--hourly/--daily", help="Hours or days; else the file tells.")] = None,
    zone: Annotated[
        str | None,
        typer.Option("--zone", help="Its clock: garden, standard (no summer time), UTC, +02:00, Europe/Rome."),
    ] = None,
    units: Annotated[
        Literal["metric", "us"] | None, typer.Option("--units", help="Units of a file that names none.")
    ] = None,
    dates: Annotated[
        Literal["ymd", "dmy", "mdy"] | None, typer.Option("--dates", help="Order of day, month, year.")
    ] = None,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Show what a weather file says, then take in its good rows; doing it twice changes nothing."""
    from scout.services import weather_files

    said = weather_files.Said(
        station=station,
        basis=source and source.value,
        issued_at=None if issued is None else weather_files.issued(issued),
        hourly=hourly,
        zone=zone,
        units=units,
        dates=dates,
    )
    with garden_on(on) as context:
        with progress("Reading") as told:
            found = weather_files.look_into(context, file, said, told)
        agreed(found, yes, as_json)
        with progress("Writing") as told:
            done = weather_files.take_in(context, found, told)
        show_done(found, done, as_json)


def agreed(found: "WeatherFile", yes: bool, as_json: bool) -> None:
    """Show what was understood and ask; BadInput where nothing may be written."""
    if not as_json:
        say(*found.lines[:_SHOWN])
        more = len(found.lines) - _SHOWN
        say(*([f"and {more} lines more"] if more > 0 else []))
        say(f"{found.rows_n} rows read, {found.refused_n} refused.")
    if not found.rows_n:
        raise BadInput("No row can be taken in, so nothing was written.")
    if not yes and not (interactive() and agree("Take in the good rows")):
        raise BadInput("Nothing was written; take the rows in with --yes.")


def show_done(found: "WeatherFile", done: "TakenIn", as_json: bool) -> None:
    """Say what became of the rows."""
    if as_json:
        print_json(asdict(done) | {"understood": found.lines, "refused": found.refused_n})
        return
    say(done.line)
    if done.corrections:
        say("Corrected; what stood there before stays in the history:", *done.corrections)


@group.command("feed")
def feed(
    yes: Annotated[bool, typer.Option("--yes", help="Take in the good rows without asking.")] = False,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Ask the address that settings.toml names as feed, show what it says, then take in its good rows."""
    from scout.services import weather_feed, weather_files

    with garden_on(on) as context:
        found = weather_feed.look_into_feed(context)
        agreed(found, yes, as_json)
        with progress("Writing") as told:
            done = weather_files.take_in(context, found, told)
        show_done(found, done, as_json)


@group.command("corrections")
def corrections(on: On = None, as_json: Json = False) -> None:
    """List every figure of the weather that was changed later, newest first."""
    from scout.services import weather_files

    with garden_on(on) as context:
        lines = weather_files.corrections(context)
    if as_json:
        print_json(list(lines))
    else:
        say(*(lines or ("No figure of the weather was corrected.",)))


@group.command("stations")
def stations(on: On = None, as_json: Json = False) -> None:
    """List the stations: whose weather is kept, from when to when, from which source."""
    from scout.services import weather_stations

    with garden_on(on) as context:
        found = weather_stations.kept(context)
    if as_json:
        print_json([asdict(one) for one in found])
    else:
        say(*([one.line for one in found] or ["No weather is kept yet."]))
