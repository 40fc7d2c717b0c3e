"""The calendar file read back by a library and, line by line, by the rules of RFC 5545."""

import re
from datetime import date

from icalendar import Calendar

from scout.services.garden import add_bed, add_planting, planted
from scout.services.job_calendar import write_calendar, write_own_calendar
from scout.services.troubles import job_done, job_lines, take_control

LONG = "Bed, \\ with; marks \N{SNOWMAN} " + "and a long name " * 7


def taken(context, name: str) -> str:
    bed = add_bed(context, name)
    add_planting(context, (bed,), "cucumber", plants_n=5, sown_on="2026-05-20")
    plant = next(one for one in planted(context) if one.bed_id == bed)
    return take_control(context, plant.planting_id, bed, None, "powdery_mildew_cucurbit", "base_watering", "today")


def unfolded(raw: bytes) -> list[str]:
    """RFC 5545, 3.1: lines end with CRLF, hold at most 75 octets, and go on after a space."""
    assert raw.endswith(b"\r\n") and b"\n" not in raw.replace(b"\r\n", b"")
    assert all(len(line) <= 75 for line in raw.split(b"\r\n"))
    return raw.replace(b"\r\n ", b"").decode().split("\r\n")[:-1]


def test_jobs_and_looks_are_read_back_as_they_were(context, tmp_path) -> None:
    taken(context, LONG)
    (job,) = job_lines(context)
    job_done(context, job.id)
    (look,) = job_lines(context)
    file = tmp_path / "jobs.ics"
    assert write_calendar(context, file) == 1
    (entry,) = Calendar.from_ical(file.read_bytes()).walk("VEVENT")
    assert str(entry["summary"]) == f"Look again: {look.title} ({look.bed})"
    assert entry.decoded("dtstart") == date.fromisoformat(look.due_on)


def test_the_lines_keep_the_rules_and_commas_are_escaped(context, tmp_path) -> None:
    taken(context, LONG)
    file = tmp_path / "jobs.ics"
    write_calendar(context, file)
    lines = unfolded(file.read_bytes())
    assert (lines[0], lines[-1]) == ("BEGIN:VCALENDAR", "END:VCALENDAR")
    fields = dict(line.split(":", 1) for line in lines if not line.startswith(("BEGIN", "END")))
    assert {"PRODID", "VERSION", "UID", "DTSTAMP"} <= set(fields)
    assert re.fullmatch(r"\d{8}T\d{6}Z", fields["DTSTAMP"])
    assert fields["DTSTART;VALUE=DATE"] == "20260722" and fields["DTEND;VALUE=DATE"] == "20260723"
    assert "Bed\\, \\\\ with\\; marks" in fields["SUMMARY"]


def test_the_same_job_has_the_same_id_in_the_next_file(context, tmp_path) -> None:
    taken(context, "Plain bed")
    first, second = tmp_path / "a.ics", tmp_path / "b.ics"
    write_calendar(context, first)
    write_calendar(context, second)
    uids = [[str(e["uid"]) for e in Calendar.from_ical(f.read_bytes()).walk("VEVENT")] for f in (first, second)]
    assert uids[0] == uids[1] and len(uids[0]) == 1


def test_no_job_gives_an_empty_calendar(context, tmp_path) -> None:
    file = tmp_path / "jobs.ics"
    assert write_calendar(context, file) == 0
    assert not Calendar.from_ical(file.read_bytes()).walk("VEVENT")


def test_with_no_file_named_it_lies_beside_the_garden_and_one_job_is_one_job(context) -> None:
    taken(context, "Plain bed")
    assert write_own_calendar(context).startswith(f"1 job written to {context.root / 'jobs.ics'};")
    assert (context.root / "jobs.ics").read_bytes().startswith(b"BEGIN:VCALENDAR")
