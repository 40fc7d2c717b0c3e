"""Open jobs and re-looks as a calendar file that any calendar program takes in (RFC 5545)."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from scout import paths
from scout.plain import counted
from scout.services.context import Context
from scout.services.troubles import JobLine, job_lines

if TYPE_CHECKING:
    from icalendar import Event


def write_calendar(context: Context, file: Path) -> int:
    """Write every open job and re-look as an all-day entry and return how many; an entry keeps its id in every file."""
    from scout.errors import StoreError

    jobs = job_lines(context)
    try:
        file.write_bytes(_calendar(context, jobs))
    except OSError as failed:
        raise StoreError(f"{file}: cannot be written ({failed.strerror}).") from None
    return len(jobs)


def write_own_calendar(context: Context) -> str:
    """Write them beside the garden's data, where nobody names a file; return what was written as a sentence."""
    file = paths.calendar_file(context.root)
    return f"{counted(write_calendar(context, file), 'job')} written to {file}; open it with your calendar."


def _calendar(context: Context, jobs: tuple[JobLine, ...]) -> bytes:
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", "-//Bedwalk//jobs//EN")
    calendar.add("version", "2.0")
    made = datetime.fromisoformat(context.moment()[0]).replace(tzinfo=UTC) - timedelta(minutes=context.moment()[1])
    for job in jobs:
        calendar.add_component(_entry(job, made))
    written: bytes = calendar.to_ical()
    return written


def _entry(job: JobLine, made: datetime) -> "Event":
    from icalendar import Event

    due = date.fromisoformat(job.due_on)
    entry = Event()
    entry.add("uid", f"{job.id}-{'look' if job.look_again else 'job'}@bedwalk.invalid")
    entry.add("dtstamp", made)
    entry.add("dtstart", due)
    entry.add("dtend", due + timedelta(days=1))
    entry.add("summary", f"{'Look again: ' if job.look_again else ''}{job.title} ({job.bed})")
    entry.add("transp", "TRANSPARENT")
    return entry
