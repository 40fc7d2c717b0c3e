"""The course of an open problem: the sightings of one planting that belong together, and what they say as a whole."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from scout.diagnosis.evidence import Bout, Count

GAP_D = 21
"""After so many days without a sighting the next one begins a new problem. Our choice: three weekly walks."""
STOOD_STILL_D = 4
"""Days after which an unchanged number of plants counts as standing still. Our choice: the shortest leaf-spot cycle."""
GREW_D = 1
"""Least days between two counts that are compared."""


@dataclass(frozen=True)
class Sighting:
    """One finding of a planting, seen or looked for and not there."""

    on: date
    symptom: str
    seen: bool
    looked: int | None = None
    affected: int | None = None


@dataclass(frozen=True)
class Course:
    """The sightings of one open problem, oldest first; the first and the last day on which a sign was seen."""

    since: date
    last_seen: date
    sightings: tuple[Sighting, ...]


def course_of(sightings: Sequence[Sighting], today: date, ended: date | None = None) -> Course | None:
    """Return the course that is open today, or None.

    sightings: oldest first. ended: the day on which the problem was last judged over; what came before is past.
    """
    seen = [one.on for one in sightings if one.seen and one.on <= today and (ended is None or one.on > ended)]
    if not seen or (today - seen[-1]).days > GAP_D:
        return None
    since = seen[-1]
    for day in reversed(seen):
        if (since - day).days > GAP_D:
            break
        since = day
    return Course(since, seen[-1], tuple(one for one in sightings if since <= one.on <= today))


def earlier_bouts(course: Course | None, before: date, told: Collection[str]) -> tuple[Bout, ...]:
    """Return what the visits of the course before a day gave, each sign once, at its newest answer.

    told: signs answered from that day on; they count there.
    """
    if course is None:
        return ()
    newest = {one.symptom: one for one in course.sightings if one.on < before and one.symptom not in told}
    bouts = []
    for day in sorted({one.on for one in newest.values()}):
        mine = [one for one in newest.values() if one.on == day]
        bouts.append(
            Bout(
                day,
                {one.symptom: Count(one.looked, one.affected) for one in mine if one.seen},
                {one.symptom: Count(one.looked) for one in mine if not one.seen},
            )
        )
    return tuple(bouts)


def spread_circumstances(course: Course | None, today: date) -> dict[str, bool]:
    """Return whether the course reached more plants, stands still, or came to an end, where its counts tell."""
    if course is None:
        return {}
    grew = [_grew(course, sign) for sign in {one.symptom for one in course.sightings}]
    told = [one for one in grew if one is not None]
    if any(told):
        return {"spreading_plants": True, "not_spreading": False}
    if told and (course.last_seen - course.since).days >= STOOD_STILL_D:
        return {"spreading_plants": False, "not_spreading": True}
    return {}


def _grew(course: Course, sign: str) -> bool | None:
    """Return whether the share of plants with a sign rose from its first count to its newest; None: not counted twice.

    A different number of plants looked at shifts the share, so the number affected must rise as well.
    """
    counted = [one for one in course.sightings if one.symptom == sign and one.seen and one.looked and one.affected]
    if len(counted) < 2 or (counted[-1].on - counted[0].on).days < GREW_D:
        return None
    first, last = counted[0], counted[-1]
    assert first.looked and last.looked and first.affected and last.affected  # chosen so
    return last.affected > first.affected and last.affected / last.looked > first.affected / first.looked


def cleared(course: Course | None) -> bool:
    """Return True when every sign of the course was looked for again and not seen."""
    if course is None:
        return False
    newest = {one.symptom: one.seen for one in course.sightings}
    return not any(newest.values())


def counts_text(course: Course) -> str | None:
    """Return "2, now 4 of 6 plants" of the sign counted most often; None where nothing was counted."""
    counted = [one for one in course.sightings if one.seen and one.affected and one.looked]
    if not counted:
        return None
    signs = [one.symptom for one in counted]
    sign = max(signs, key=lambda name: (signs.count(name), -signs.index(name)))
    mine = [one for one in counted if one.symptom == sign]
    first, last = mine[0], mine[-1]
    if first.on == last.on:
        return f"{last.affected} of {last.looked} plants"
    if first.looked == last.looked:
        return f"{first.affected}, now {last.affected} of {last.looked} plants"
    return f"{first.affected} of {first.looked}, now {last.affected} of {last.looked} plants"
