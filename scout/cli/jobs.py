"""`bedwalk jobs`: what is to be done, what was done, and whether it worked."""

from dataclasses import asdict
from pathlib import Path
from typing import Annotated, Literal

import typer

from scout.cli.asking import choose, given_or_asked, interactive
from scout.cli.choosing import job_given, planting_given
from scout.cli.commands import Json, On, app, print_json
from scout.cli.garden import PlantingName
from scout.cli.gardens import garden_on
from scout.cli.printing import say
from scout.errors import BadInput

group = typer.Typer(help="List the jobs, note them done, say whether they worked.", invoke_without_command=True)
app.add_typer(group, name="jobs")

JobName = Annotated[str | None, typer.Argument(metavar="JOB", help="Its number in the list, its id, or its title.")]
_VERDICTS = (("yes", "Yes, it worked"), ("no", "No"), ("cannot_tell", "Cannot tell yet"))


@group.callback()
def jobs(context: typer.Context, on: On = None, as_json: Json = False) -> None:
    """List the open jobs and the results to look at."""
    if context.invoked_subcommand is None:
        list_jobs(on, as_json)


@group.command("list")
def list_jobs(
    on: On = None, as_json: Json = False, by: Annotated[Literal["due", "bed"], typer.Option("--by")] = "due"
) -> None:
    """List the open jobs and the results to look at, the longest due first, or bed by bed."""
    from scout.services.troubles import job_lines

    with garden_on(on) as context:
        found = job_lines(context, by_bed=by == "bed")
        if as_json:
            print_json([asdict(job) for job in found])
            return
        for number, job in enumerate(found, 1):
            late = "late, " if job.overdue else ""
            again = "look again: " if job.look_again else ""
            say(f"{number}. {job.due_on} {late}{job.bed}: {again}{job.title}")
        if not found:
            say("Nothing to do.")


@group.command("add")
def add(
    title: Annotated[str | None, typer.Argument(help="What is to be done.")] = None,
    planting: Annotated[str | None, typer.Option("--planting", help="For which planting; else the garden.")] = None,
    due: Annotated[str | None, typer.Option("--due", metavar="DATE", help="By when; else today.")] = None,
    on: On = None,
) -> None:
    """Add a job of your own."""
    from scout.intake.dates import read_date
    from scout.services import troubles
    from scout.services.named import planting_named

    with garden_on(on) as context:
        title = given_or_asked(title, "TITLE", "What is to be done")
        where = planting_named(context, planting).planting_id if planting is not None else None
        by = read_date(due) if due is not None else context.today
        troubles.add_job(context, title, by, where)
        say(f"To do by {by.isoformat()}: {title}")


@group.command("done")
def done(
    job: JobName = None,
    again: Annotated[
        int | None, typer.Option("--again", min=1, max=365, metavar="DAYS", help="Do it again then.")
    ] = None,
    on: On = None,
) -> None:
    """Note that a job was done, and in how many days it comes again."""
    from scout.services import troubles

    with garden_on(on) as context:
        found = job_given(context, job)
        if found.look_again:
            raise BadInput(f"{found.title} is done already; say whether it worked with: bedwalk jobs judge.")
        troubles.job_done(context, found.id, again_in_d=again)
        say(f"Done: {found.title} ({found.bed})", *([f"Again in {again} days."] if again else []))
        if found.labelled:
            say('Enter its label\'s days and hours with: bedwalk holds add "BED/CROP" --harvest-days N --entry-hours N')


@group.command("skip")
def skip(job: JobName = None, why: Annotated[str | None, typer.Option("--why")] = None, on: On = None) -> None:
    """Note that a job will not be done, and why."""
    from scout.services import troubles

    with garden_on(on) as context:
        found = job_given(context, job)
        if found.look_again:
            raise BadInput(f"{found.title} is done already; say whether it worked with: bedwalk jobs judge.")
        troubles.job_skipped(context, found.id, given_or_asked(why, "--why", "Why will it not be done"))
        say(f"Skipped: {found.title} ({found.bed})")


@group.command("judge")
def judge(
    job: JobName = None,
    verdict: Annotated[Literal["yes", "no", "cannot_tell"] | None, typer.Argument(help="Did it work?")] = None,
    sign: Annotated[
        Literal["independent", "clinic", "later_course", "agreement"],
        typer.Option("--sign", help="What says so; only an independent sign or a clinic proves a cause."),
    ] = "later_course",
    on: On = None,
) -> None:
    """Say whether a done job worked; a yes closes its problem."""
    from scout.services import troubles

    with garden_on(on) as context:
        found = job_given(context, job)
        if not found.look_again:
            raise BadInput(f"{found.title} is not done yet; note it with: bedwalk jobs done.")
        say(*troubles.worked_when(context, found.id))
        said = verdict or _asked()
        troubles.judged(context, found.id, said, sign)
        say(f"Kept: {dict(_VERDICTS)[said].lower()} ({found.title}, {found.bed})")


def _asked() -> str:
    place = choose("Did it work", [text for _, text in _VERDICTS]) if interactive() else None
    if place is None:
        raise BadInput("Say whether it worked: yes, no or cannot_tell.")
    return _VERDICTS[place][0]


@group.command("confirm")
def confirm_cause(
    planting: PlantingName = None,
    cause: Annotated[str | None, typer.Argument(help="The cause by id.")] = None,
    sign: Annotated[
        Literal["independent", "clinic", "later_course", "agreement"],
        typer.Option("--sign", help="What says so; agreement with the ranking counts nothing."),
    ] = "independent",
    was_not: Annotated[bool, typer.Option("--was-not", help="It turned out not to be this.")] = False,
    on: On = None,
) -> None:
    """Say what a trouble turned out to be; it shifts this garden's odds."""
    from scout.services.named import full_name
    from scout.services.own_history import confirm

    with garden_on(on) as context:
        plant = planting_given(context, planting)
        cause = given_or_asked(cause, "CAUSE", "Which cause, by id")
        confirm(context, plant, cause, sign, was=not was_not)
        say(f"Kept: {full_name(plant)} {'was not' if was_not else 'was'} {cause} ({sign.replace('_', ' ')})")


@group.command("confirmed")
def list_confirmed(on: On = None, as_json: Json = False) -> None:
    """List what this garden has confirmed, and how often."""
    from scout.services.confirmed_list import odds_rows
    from scout.services.own_history import confirmed

    with garden_on(on) as context:
        rows = confirmed(context)
        if as_json:
            print_json([asdict(row) for row in rows])
            return
        for odds in odds_rows(context):
            print(f"{odds.crop:<16} {odds.cause:<32} {odds.text}")
    if not rows:
        print("Nothing confirmed yet.")


@group.command("calendar")
def calendar(
    file: Annotated[Path, typer.Argument(help="The file to write, such as jobs.ics.")],
    on: On = None,
) -> None:
    """Write open jobs and re-looks as a calendar file."""
    from scout.services.job_calendar import write_calendar

    with garden_on(on) as context:
        say(f"Entries in {file}: {write_calendar(context, file)}")
