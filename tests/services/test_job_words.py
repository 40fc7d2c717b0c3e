"""Jobs in words: where and when, how and why not now, also at the stop; a job of one's own; what a verdict does."""

from datetime import date, timedelta

from scout.services import troubles, walk
from scout.services.felt import feel_leaves
from scout.services.garden import planted
from scout.services.job_words import how_lines, job_row, outcome_words
from scout.services.plan import walk_plan


def take(context, control: str = "strip_lowest_leaves", cause: str = "powdery_mildew_cucurbit"):
    plant = next(one for one in planted(context) if one.crop.id == "cucumber")
    troubles.take_control(context, plant.planting_id, plant.bed_id, None, cause, control, "today")
    return plant


def test_a_row_says_when_where_on_what_and_what(context, clock) -> None:
    take(context, "mulch")
    (job,) = troubles.job_lines(context)
    assert job_row(job, context.today).startswith("today · Long bed, cucumber · Mulch")
    clock.on(7, 24)
    (job,) = troubles.job_lines(context)
    assert job_row(job, context.today).startswith("22 July, late · Long bed, cucumber · ")
    troubles.job_done(context, job.id)
    assert "· look again: Mulch" in job_row(troubles.job_lines(context)[0], context.today)


def test_how_it_is_done_stands_at_the_job_and_wet_leaves_speak_against_it(context) -> None:
    plant = take(context)
    (job,) = troubles.job_lines(context)
    control = context.knowledge.controls["strip_lowest_leaves"]
    lines = how_lines(context, job)
    assert lines[0] == "For: Powdery mildew" and lines[1] == control.do
    assert "Only if the leaves feel dry." in lines
    feel_leaves(context, plant.planting_id, dry=False)
    assert "Not now: The leaves are wet: look, do not touch." in how_lines(context, job)


def test_what_is_due_at_a_planting_is_said_at_its_stop_until_it_is_done(context, clock) -> None:
    plant = take(context, "mulch")
    title = troubles.job_lines(context)[0].title
    walk.start(context, walk_plan(context, everything=True).stops)
    while (stop := walk.current_stop(context)).planting_id != plant.planting_id:
        walk.skip_stop(context, stop.id)
    assert stop.jobs == (f"To do: {title}",)
    troubles.job_done(context, troubles.job_lines(context)[0].id)
    assert walk.current_stop(context).jobs == ()
    clock.on(8, 20)
    assert walk.current_stop(context).jobs == (f"Did it work: {title}",)


def test_a_job_of_the_growers_own_is_listed_done_and_gone(context) -> None:
    plant = next(one for one in planted(context) if one.crop.id == "beet")
    troubles.add_job(context, "thin the [red] beets", context.today + timedelta(days=3), plant.planting_id)
    troubles.add_job(context, "sharpen the knife", context.today)
    own, thin = troubles.job_lines(context)
    assert job_row(own, context.today) == "today · garden · sharpen the knife"
    assert job_row(thin, context.today) == "25 July · Mixed bed, beet · thin the [red] beets"
    assert how_lines(context, thin) == ()
    assert troubles.job_lines(context, planting_id=plant.planting_id) == (thin,)
    troubles.job_done(context, own.id, again_in_d=7)
    assert [job.due_on for job in troubles.job_lines(context)] == ["2026-07-25", "2026-07-29"]


def test_the_verdict_says_what_it_leads_to(context) -> None:
    take(context, "mulch")
    (job,) = troubles.job_lines(context)
    troubles.job_done(context, job.id)
    troubles.judged(context, job.id, "cannot_tell")
    again = date.fromisoformat(troubles.job_lines(context)[0].due_on)
    assert outcome_words(context, job.id, "cannot_tell") == f"Kept. Look again on {again.day} {again:%B}."
    assert "stays open" in outcome_words(context, job.id, "no") and "closed" in outcome_words(context, job.id, "yes")
