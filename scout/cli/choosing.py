"""The planting or job that was named; at a terminal, one of a numbered list where none was."""

from scout.cli.asking import choose, interactive
from scout.errors import BadInput
from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.troubles import JobLine


def planting_given(context: Context, words: str | None) -> Planted:
    """Return the planting named, or the one chosen at a prompt."""
    from scout.services.garden import planted
    from scout.services.named import full_name, planting_named

    if words is not None:
        return planting_named(context, words)
    plants = list({one.planting_id: one for one in planted(context)}.values())
    return plants[_place("PLANTING", "Which planting", [full_name(one) for one in plants])]


def job_given(context: Context, words: str | None) -> JobLine:
    """Return the job named, or the one chosen at a prompt."""
    from scout.services.named import job_named
    from scout.services.troubles import job_lines

    if words is not None:
        return job_named(context, words)
    jobs = job_lines(context)
    return jobs[_place("JOB", "Which job", [f"{job.due_on} {job.bed}: {job.title}" for job in jobs])]


def _place(flag: str, question: str, rows: list[str]) -> int:
    if not interactive():
        raise BadInput(f"{flag} is missing: say {question[0].lower()}{question[1:]}.")
    place = choose(question, rows) if rows else None
    if place is None:
        raise BadInput("Nothing was chosen, so nothing was changed.")
    return place
