"""`bedwalk weather`: typed in a line, taken in from a file, shown, and what it means for the person."""

from dataclasses import asdict
from datetime import date
from typing import Annotated

import typer

from scout.cli.asking import given_or_asked
from scout.cli.commands import Json, On, app, jsonable, print_json
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.cli.typed import count, day, decimal
from scout.errors import BadInput

group = typer.Typer(help="Type, take in and show the weather; heat for the person.", no_args_is_help=True)
app.add_typer(group, name="weather")

_DAYS = 14
_MOST_DAYS = 3660


@group.command("add", context_settings={"ignore_unknown_options": True})  # it may begin with a minus
def add(
    text: Annotated[str | None, typer.Argument(help='Highest, lowest, rain, wet or dry: "34 22 3,5 wet".')] = None,
    on: On = None,
) -> None:
    """Keep one day of weather in one line."""
    from scout.services.weather import type_line

    with garden_on(on) as context:
        say(type_line(context, given_or_asked(text, "TEXT", "Highest, lowest, rain, wet or dry, like 34 22 3,5 wet")))


@group.command("forecast", context_settings={"ignore_unknown_options": True})  # it may begin with a minus
def forecast(
    on_day: Annotated[date, typer.Argument(parser=day("DATE"), metavar="DATE")],
    high: Annotated[float, typer.Argument(parser=decimal("HIGH"), metavar="HIGH")],
    on: On = None,
) -> None:
    """Keep the high forecast for a day to come, in the garden's unit."""
    from scout.science.units import c_from_f
    from scout.services import weather
    from scout.services.site import site_of

    with garden_on(on) as context:
        if on_day < context.today:
            raise BadInput("A forecast is for today or a day to come; type measured weather with: bedwalk weather add.")
        high_c = round(c_from_f(high), 2) if site_of(context).units == "us" else high
        weather.type_forecast(context, on_day, high_c)
        say(f"Forecast for {on_day.isoformat()}: {weather.temperature_text(high_c, site_of(context).units)}")


@group.command("show")
def show(
    days: Annotated[
        int | None, typer.Option("--days", parser=count("--days"), metavar="N", help="How many days; 14.")
    ] = None,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Show the last days, newest first; what is missing is said."""
    from scout.services import weather_marks, weather_words
    from scout.services.site import site_of
    from scout.services.weather_figures import mixed_sources

    days = _DAYS if days is None else days
    if not 1 <= days <= _MOST_DAYS:
        raise BadInput(f"--days: give 1 to {_MOST_DAYS}.")
    with garden_on(on) as context:
        if as_json:
            days_told = weather_marks.fortnight(context, days).days
            print_json([jsonable(one.day) | {"marks": jsonable(one.marks)} for one in days_told])
            return
        units, found = site_of(context).units, weather_marks.fortnight(context, days)
        say(weather_words.day_head(units, wide=True, dated=True))
        say(*(weather_words.day_row(one, units, context.today, wide=True, dated=True) for one in found.days))
        say(*weather_words.legend(found, units, wide=True), *found.lowered)
        say(*(line for one in found.days if (line := mixed_sources(one.day))))


@group.command("degree-days")
def degree_days(on: On = None, as_json: Json = False) -> None:
    """Say how far the pests of the crops here have come by warmth, and how cold it was for crops that need it."""
    from scout.services import warmth, warmth_words

    with garden_on(on) as context:
        counts, chill = warmth.pest_counts(context), warmth.chill_counts(context)
        if as_json:
            print_json(jsonable({"estimate": True, "pests": counts, "chill": chill}))
            return
        say(*warmth_words.head_lines(counts))
        for block in (
            *(warmth_words.pest_lines(context, one) for one in counts),
            *(warmth_words.chill_lines(context, one) for one in chill),
        ):
            say("", block[0], *(f"  {text}" for text in block[1:]))


@group.command("water")
def water(on: On = None, as_json: Json = False) -> None:
    """Say how much water the soil of each bed and tub still holds, by reckoning."""
    from scout.services import bed_water, weather_words

    with garden_on(on) as context:
        found = bed_water.bed_waters(context)
        if as_json:
            print_json(jsonable({"estimate": True, "beds": found}))
        else:
            say(*weather_words.water_lines(found, wide=True))


@group.command("heat")
def heat(on: On = None, as_json: Json = False) -> None:
    """Say how hot it is for the person today, hour by hour, what to do, and when to call for help."""
    from scout.services.heat import heat_today, person_lines

    with garden_on(on) as context:
        found = heat_today(context)
        if as_json:
            print_json(asdict(found))
        else:
            say(found.line, *found.advice, *person_lines(context, found))
