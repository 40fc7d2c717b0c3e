"""Did the job work: what was counted before and after, the weather between, and one answer with its figures."""

import math
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Literal

from scout.knowledge.cause_file import Cause
from scout.services.context import Context
from scout.services.counting import Around, Taken, counts_around, job_of, measure_of
from scout.services.weather_between import WeatherBetween, weather_between

if TYPE_CHECKING:
    from scout.science.did_it_work import Judged
    from scout.services.job_answer import Found
    from scout.store.jobs import JobView

Answer = Literal["yes", "no", "cannot_tell"]
_SPREADS = ("fungal", "oomycete", "bacterial", "viral", "phytoplasma")


@dataclass(frozen=True)
class JobOutcome:
    """The answer, in words and in figures; None where something was not counted."""

    job_id: str
    title: str
    verdict: Answer
    why: str
    """The reason as one word for scripts: clear, small, worse, chance, weather, too_early, not_counted, ..."""
    lines: tuple[str, ...]
    """What a grower reads, the answer first."""
    count: str | None
    """What to count, and on how many."""
    before: tuple[int, int] | None
    after: tuple[int, int] | None
    untreated_before: tuple[int, int] | None
    untreated_after: tuple[int, int] | None
    p: float | None
    low: float | None
    high: float | None
    efficacy_pct: float | None
    efficacy_by: str | None
    look_at_n: int | None
    tells_from: str | None
    """Day from which a count tells: what was infected before the job shows until then."""
    weather: WeatherBetween | None


def job_outcome(context: Context, job_id: str) -> JobOutcome:
    """Return whether a done job worked, from its counts; NotFound when it was taken back."""
    from scout.services.job_answer import Found, answer_lines

    job = job_of(context, job_id)
    measure, cause = measure_of(context, job), context.knowledge.causes.get(job.cause or "")
    around = counts_around(context, job, measure) if measure else Around()
    tells = tells_from(cause, date.fromisoformat(job.done_at[:10])) if job.done_at else None
    why = _cannot_judge(job, measure is not None, around)
    judged = weather = None
    verdict: Answer = "cannot_tell"
    if not why and measure is not None and around.after is not None:
        judged = _judge(measure.way == "number", measure.better, around)
        weather = _weather(context, job, around, cause)
        verdict, why = _weighed(judged, weather, around, tells)
    found = Found(
        verdict, why, measure, context.knowledge.controls.get(job.control or ""), around, judged, weather, tells
    )
    return _made(job, found, answer_lines(found, context.today))


def tells_from(cause: Cause | None, done_on: date) -> date | None:
    """Return the day from which a count of a disease tells; None where nothing was under way unseen.

    What was infected before the job turns until the longest incubation has passed.
    """
    if cause is None or cause.kind not in _SPREADS or cause.incubation_d is None:
        return None
    return done_on + timedelta(days=math.ceil(cause.incubation_d[1]))


def _cannot_judge(job: "JobView", counted: bool, around: Around) -> str:
    """Return what is wanting before anything can be judged, as one word; empty where nothing is."""
    if job.done_at is None:
        return "not_done"
    if not counted:
        return "not_counted"
    if around.before is None and around.there_after is None:
        return "no_before"
    return "no_after" if around.after is None else ""


def _judge(numbers: bool, better: Literal["fewer", "more"], around: Around) -> "Judged":
    from scout.science.did_it_work import judge_numbers, judge_shares

    assert around.after is not None
    before = around.before or around.there_after
    assert before is not None
    control = None
    if around.there_after is not None:
        there = around.there_before.looked if around.there_before and around.before else None
        control = (there, around.there_after.looked)
    judge = judge_numbers if numbers else judge_shares
    return judge(before.looked, around.after.looked, better, control)


def _weather(context: Context, job: "JobView", around: Around, cause: Cause | None) -> WeatherBetween:
    assert job.done_at is not None and around.after is not None
    done = date.fromisoformat(job.done_at[:10])
    return weather_between(context, around.before.on if around.before else done, around.after.on, done, cause)


def _weighed(judged: "Judged", weather: WeatherBetween, around: Around, tells: date | None) -> tuple[Answer, str]:
    """Return the answer after what could have made the counts by itself is weighed."""
    if tells is not None and around.after and around.after.on < tells and judged.verdict != "cannot_tell":
        return "cannot_tell", "too_early"
    if around.there_after is None:  # untreated plants would have had the same weather
        if judged.verdict == "yes" and weather.helps:
            return "cannot_tell", "weather"
        if judged.verdict == "no" and weather.hinders:
            return "cannot_tell", "weather_against"
    return judged.verdict, judged.reason


def _made(job: "JobView", found: "Found", lines: tuple[str, ...]) -> JobOutcome:
    from scout.services.job_answer import to_count

    def pair(one: Taken | None) -> tuple[int, int] | None:
        return (one.found_n, one.looked_n) if one else None

    around, judged = found.around, found.judged
    return JobOutcome(
        job_id=job.id,
        title=job.title,
        verdict=found.verdict,
        why=found.why,
        lines=lines,
        count=to_count(found.measure) if found.measure else None,
        before=pair(around.before),
        after=pair(around.after),
        untreated_before=pair(around.there_before),
        untreated_after=pair(around.there_after),
        p=judged.p if judged else None,
        low=judged.low if judged else None,
        high=judged.high if judged else None,
        efficacy_pct=judged.efficacy_pct if judged else None,
        efficacy_by=judged.efficacy_by if judged else None,
        look_at_n=judged.wanted_n if judged else None,
        tells_from=found.tells.isoformat() if found.tells else None,
        weather=found.weather,
    )
