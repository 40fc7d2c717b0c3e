"""A job as a grower reads it: its row, how it is done, what speaks against it now, what its outcome leads to."""

from datetime import date

from scout.plain import day_text
from scout.services.context import Context
from scout.services.troubles import JobLine

_FOLLOWS = {
    "yes": "Kept: it worked. The problem is closed.",
    "no": "Kept: it did not work. The problem stays open; at the bed the causes (r) show what else can be done.",
}


def job_row(job: JobLine, today: date) -> str:
    """Return "today · Long bed, cucumber · look again: Mulch"."""
    due = date.fromisoformat(job.due_on)
    when = "today" if due == today else f"{day_text(due)}{', late' if job.overdue else ''}"
    again = "look again: " if job.look_again else ""
    return f"{when} · {place(job)} · {again}{job.title}"


def place(job: JobLine) -> str:
    """Return bed and crop of a job."""
    return f"{job.bed}, {job.crop.lower()}" if job.crop else job.bed


def how_lines(context: Context, job: JobLine) -> tuple[str, ...]:
    """Return how a job is done, why not now or only if, and its cautions; nothing for a job of the grower's own."""
    from scout.services.counting import job_of

    kept = job_of(context, job.id)
    control = context.knowledge.controls.get(kept.control or "")
    if control is None:
        return ()
    cause = context.knowledge.causes.get(kept.cause or "")
    against = _against(context, job)
    cautions = tuple(context.knowledge.cautions[one].text for one in control.cautions)
    return (*([f"For: {cause.name}"] if cause else []), control.do, *against, *cautions)


def _against(context: Context, job: JobLine) -> tuple[str, ...]:
    """Return what speaks against doing it now, or what must be so first."""
    from scout.diagnosis.advise import guard
    from scout.services.counting import job_of
    from scout.services.evidence import bedside_for, evidence_for
    from scout.services.garden import planted

    plant = next((one for one in planted(context) if one.planting_id == job.planting_id), None)
    control = context.knowledge.controls.get(job_of(context, job.id).control or "")
    if plant is None or control is None:
        return ()
    refused, only_if = guard(control, bedside_for(context, plant, evidence_for(context, plant)))
    return (f"Not now: {refused}",) if refused else tuple(f"Only if {text}." for text in only_if)


def outcome_words(context: Context, job_id: str, verdict: str) -> str:
    """Return what follows from the verdict that was kept."""
    from scout.services.counting import job_of

    if verdict in _FOLLOWS:
        return _FOLLOWS[verdict]
    again = job_of(context, job_id).look_again_on
    return f"Kept. Look again on {day_text(date.fromisoformat(again))}." if again else "Kept."
