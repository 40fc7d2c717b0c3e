"""`bedwalk jobs count`, `outcome`: counts before and after a job, and whether it worked."""

from dataclasses import asdict
from typing import Annotated, Any

import typer

from scout.cli.choosing import job_given
from scout.cli.commands import Json, On, print_json
from scout.cli.gardens import garden_on
from scout.cli.jobs import JobName, group
from scout.cli.printing import say
from scout.errors import BadInput
from scout.services.context import Context


def _count(flag: str) -> Any:
    return typer.Option(flag, metavar="FOUND/LOOKED", help="Such as 14/6, or one by one: 3,0,5.")


Before = Annotated[str | None, _count("--before")]
After = Annotated[str | None, _count("--after")]
ThereBefore = Annotated[str | None, _count("--untreated-before")]
ThereAfter = Annotated[str | None, _count("--untreated-after")]


@group.command("count")
def count(
    job: JobName = None,
    before: Before = None,
    after: After = None,
    untreated_before: ThereBefore = None,
    untreated_after: ThereAfter = None,
    on: On = None,
) -> None:
    """Keep what was counted before or after a job; without a count it says what to count."""
    with garden_on(on) as context:
        found = job_given(context, job)
        kept = _keep(context, found.id, before, after, untreated_before, untreated_after)
        say(f"{kept} kept." if kept else _to_count(context, found.id))


@group.command("outcome")
def outcome(
    job: JobName = None,
    before: Before = None,
    after: After = None,
    untreated_before: ThereBefore = None,
    untreated_after: ThereAfter = None,
    keep: Annotated[bool, typer.Option("--keep", help="Note the answer as the job's outcome.")] = False,
    on: On = None,
    as_json: Json = False,
) -> None:
    """Say whether a done job worked, from the counts kept and those given here; with its figures and the weather."""
    from scout.services import troubles
    from scout.services.job_outcome import job_outcome

    with garden_on(on) as context:
        found = job_given(context, job)
        _keep(context, found.id, before, after, untreated_before, untreated_after)
        answer = job_outcome(context, found.id)
        if keep and found.look_again:
            troubles.judged(context, found.id, answer.verdict)
        if as_json:
            print_json(asdict(answer) | {"bed": found.bed, "kept": keep and found.look_again})
            return
        say(f"{found.title} ({found.bed})", *answer.lines)
        if not keep and found.look_again and answer.why not in ("no_after", "no_before", "not_counted"):
            say(f"Note it with: bedwalk jobs judge {found.id} {answer.verdict}")


def _keep(context: Context, job_id: str, *given: str | None) -> str:
    """Keep the counts given, in the order before, after, and both untreated; return them in words."""
    from scout.services.counting import keep_count, read_count_text

    flags = ("--before", "--after", "--untreated-before", "--untreated-after")
    kept = []
    with context.write():
        for flag, text in zip(flags, given, strict=True):
            if text is None:
                continue
            try:
                taken = read_count_text(text)
            except BadInput as problem:
                raise BadInput(f"{flag}: {problem}") from None
            keep_count(context, job_id, "before" if "before" in flag else "after", taken, untreated="untreated" in flag)
            kept.append(f"{flag[2:].replace('-', ' ')} {taken.found_n}/{taken.looked_n}")
    return ", ".join(kept).capitalize()


def _to_count(context: Context, job_id: str) -> str:
    from scout.services.counting import HOW_TO_WRITE, job_of, measure_of
    from scout.services.job_answer import to_count

    measure = measure_of(context, job_of(context, job_id))
    if measure is None:
        return "There is nothing to count for this job; judge it by eye with: bedwalk jobs judge."
    return f"To count: {to_count(measure)}. Give it as --before or --after: {HOW_TO_WRITE}."
