"""Counts before and after a job: what to count, how it was typed, what is kept."""

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Literal

from scout.errors import BadInput, NotFound
from scout.knowledge.control_file import Measure
from scout.services.context import Context

if TYPE_CHECKING:
    from scout.science.did_it_work import Looked
    from scout.store.counts import CountedView
    from scout.store.jobs import JobView
    from scout.store.records import PickView

PICKS_BEFORE_D, PICKS_AFTER_D = 7, 14
"""Picks of a week before and two weeks after a job are compared. Our choice: two or three picks each."""
Phase = Literal["before", "after"]
HOW_TO_WRITE = "write 14/6 for 14 on 6 looked at, or the number on each one, like 3,0,5"


@dataclass(frozen=True)
class Count:
    """What was found on how many; `each` where they were counted one by one."""

    found_n: int
    looked_n: int
    each: tuple[int, ...] | None = None


def read_count_text(text: str) -> Count:
    """Return a count as typed: "14/6", or "3,0,5" one by one. Errors: BadInput."""
    parted = re.fullmatch(r"\s*(\d{1,6})\s*(?:/|of|on)\s*(\d{1,6})\s*", text)
    if parted:
        found, looked = int(parted[1]), int(parted[2])
        if looked == 0:
            raise BadInput("None looked at is no count; say on how many.")
        return Count(found, looked)
    pieces = re.split(r"[,;\s]+", text.strip())
    if len(pieces) > 1 and all(re.fullmatch(r"\d{1,6}", piece) for piece in pieces):
        each = tuple(int(piece) for piece in pieces)
        return Count(sum(each), len(each), each)
    raise BadInput(f"{text!r} is no count; {HOW_TO_WRITE}.")


def measure_of(context: Context, job: "JobView") -> Measure | None:
    """Return what is counted before and after a job; None where it is judged by eye."""
    control = context.knowledge.controls.get(job.control or "")
    return control.measure if control else None


def job_of(context: Context, job_id: str) -> "JobView":
    """Return a job; NotFound when it was taken back."""
    from scout.store import jobs

    with context.read() as session:
        job = jobs.job(session=session, job_id=job_id)
    if job is None:
        raise NotFound("This job was taken back.")
    return job


def keep_count(context: Context, job_id: str, phase: Phase, count: Count, *, untreated: bool = False) -> str:
    """Keep a count before or after a job, on its plants or on those left out; return its id. Errors: BadInput."""
    from scout.store.tables_follow import Counted

    job = job_of(context, job_id)
    measure = measure_of(context, job)
    if measure is None or measure.way == "picks" or job.planting_id is None:
        raise BadInput(f"{job.title}: there is nothing to count here; say by eye whether it worked.")
    if phase == "after" and job.done_at is None:
        raise BadInput(f"{job.title} is not done yet; note it done first, then count what is left.")
    if measure.way == "share" and count.found_n > count.looked_n:
        raise BadInput(f"{count.found_n} of {count.looked_n} {measure.unit} cannot be; say how many were looked at.")
    at, offset = context.moment()
    with context.write() as tx:
        return tx.add(
            Counted,
            planting_id=job.planting_id,
            job_id=job_id,
            what=measure.what,
            way=measure.way,
            unit=measure.unit,
            phase=phase,
            untreated=untreated,
            counted_n=count.found_n,
            looked_n=count.looked_n,
            each=json.dumps(list(count.each)) if count.each is not None else None,
            observed_at=at,
            observed_offset_min=offset,
        )


@dataclass(frozen=True)
class Taken:
    """A count and its day."""

    found_n: int
    looked_n: int
    each: tuple[int, ...] | None
    on: date

    @property
    def looked(self) -> "Looked":
        """Return it for the tests."""
        from scout.science.did_it_work import Looked

        return Looked(self.found_n, self.looked_n, self.each)


@dataclass(frozen=True)
class Around:
    """What was counted around a job; `there` are plants left untreated. None was not counted."""

    before: Taken | None = None
    after: Taken | None = None
    there_before: Taken | None = None
    there_after: Taken | None = None


def counts_around(context: Context, job: "JobView", measure: Measure) -> Around:
    """Return the newest counts before and after a job; where the picks count themselves, those."""
    if measure.way == "picks":
        return _picks_around(context, job)
    from scout.store import counts

    with context.read() as session:
        found = counts.counts_of_job(session=session, job_id=job.id)
    newest: dict[tuple[str, bool], Taken] = {(one.phase, one.untreated): _taken(one) for one in found}
    return Around(
        *(newest.get(key) for key in (("before", False), ("after", False), ("before", True), ("after", True)))
    )


def _taken(one: "CountedView") -> Taken:
    each = tuple(json.loads(one.each)) if one.each else None
    return Taken(one.counted_n, one.looked_n, each, date.fromisoformat(one.observed_at[:10]))


def _picks_around(context: Context, job: "JobView") -> Around:
    """Return odd of all picked in the days up to the job, its day among them, and in the days after."""
    from scout.store import records

    if job.done_at is None:
        return Around()
    done = date.fromisoformat(job.done_at[:10])
    since, until = done - timedelta(days=PICKS_BEFORE_D), done + timedelta(days=PICKS_AFTER_D)
    with context.read() as session:
        found = records.picks(
            session=session, garden_id=str(context.garden_id), since=since.isoformat(), until=until.isoformat()
        )
    mine = [one for one in found if one.planting_id == job.planting_id and one.sound_n + one.odd_n > 0]
    before = [one for one in mine if one.observed_at[:10] <= done.isoformat()]
    return Around(_picked(before), _picked(mine[len(before) :]))


def _picked(picks: "Sequence[PickView]") -> Taken | None:
    if not picks:
        return None
    odd = sum(one.odd_n for one in picks)
    of = odd + sum(one.sound_n for one in picks)
    return Taken(odd, of, None, date.fromisoformat(picks[-1].observed_at[:10]))


def count_words(measure: Measure, found_n: int, looked_n: int) -> str:
    """Return a count as a grower says it."""
    if measure.way == "number":
        return f"{found_n} {measure.what} on {looked_n} {measure.unit}"
    return f"{found_n} of {looked_n} {measure.unit}"
