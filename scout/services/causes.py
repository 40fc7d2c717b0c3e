"""The likely causes at a stop: ranked, kept as shown, answered in place, and turned into jobs."""

import json
from collections.abc import Callable
from dataclasses import replace
from functools import partial

from scout.diagnosis.evidence import Evidence
from scout.diagnosis.pulling import pulls
from scout.diagnosis.rank import stop_for
from scout.errors import NotFound, Refused
from scout.knowledge.cause_file import Cause
from scout.services.answer_shape import Answer
from scout.services.answering import answer_evidence
from scout.services.answers import add_finding, stop_of, tell_at
from scout.services.backdating import backdated_lines
from scout.services.context import Context
from scout.services.course import course_lines
from scout.services.evidence import bedside_for, evidence_for
from scout.services.fruit_size import size_question
from scout.services.garden import Planted, planted_as
from scout.services.no_disease import disease_lines
from scout.services.spoken import (
    cannot_tell_lines,
    chance_text,
    headline,
    questions_of,
    worth_showing,
    would_change_lines,
)
from scout.services.views import CausePage, CauseRow, CausesView, ControlRow, QuestionView
from scout.services.vocabulary import cause_lines
from scout.services.wording import kind_text, pull_lines

ROWS = 6
SIZE_FOR = 3
"""The size is asked for where the days speak of one of so many causes. Our choice."""
SIZE_ASKED = "How big is the odd fruit? It tells when it flowered."
Later = Callable[[Callable[[], None]], object]
KEPT = 20
"""Causes whose chances are kept with a ranking shown."""
FRIENDS_D = 7
"""Natural enemies seen in the last week count as being at work. Our choice."""
_EFFORTS = {
    "glance": "a look",
    "turn_leaf": "turn a leaf",
    "count": "count",
    "lens": "with a lens",
    "cut": "cut it open",
    "wait": "at the next visit",
    "dawn": "at dawn",
    "dark": "after dark",
}


def causes_at(context: Context, stop_id: str, later: Later | None = None) -> CausesView:
    """Return the ranking of a stop's planting as it stands now, and keep it as shown.

    later: takes the keeping, for a screen that is drawn first; the answers it rests on are in the store already.
    """
    with context.read():
        plant, evidence = _at(context, stop_id)
        answer = answer_evidence(context.knowledge, evidence, most=KEPT, acts=False)
        first = [cause.id for cause in answer.causes[:SIZE_FOR]]
        size = SIZE_ASKED if answer.stop is None and size_question(context, plant, evidence, first) else None
        view = replace(
            as_view(context, answer, _friends(context, plant, answer), course_lines(context, plant, evidence)),
            disease=disease_lines(plant, evidence, answer),
            size=size,
        )
    keep = partial(_keep, context, plant, stop_id, evidence, answer)
    (later or _now)(keep)
    return view


def _now(act: Callable[[], None]) -> None:
    act()


def _friends(context: Context, plant: Planted, answer: Answer) -> tuple[str, ...]:
    """Return what natural enemies seen this week mean for the first causes: they lower the urgency."""
    from datetime import timedelta

    from scout.store import records

    since = (context.today - timedelta(days=FRIENDS_D)).isoformat()
    with context.read() as session:
        seen = {e.enemy for e in records.enemies_seen(session=session, planting_id=plant.planting_id, since=since)}
    first = {cause.id for cause in answer.causes[:ROWS]}
    known = [context.knowledge.enemies[key] for key in sorted(seen) if key in context.knowledge.enemies]
    return tuple(f"{enemy.name} at work: {enemy.say}" for enemy in known if first & set(enemy.eats))


def as_view(
    context: Context, answer: Answer, friends: tuple[str, ...] = (), course: tuple[str, ...] = ()
) -> CausesView:
    """Return an answer as a screen shows it; `friends` are said beside pairs of causes, `course` under the answer."""
    known = context.knowledge
    rows = tuple(
        CauseRow(
            c.id,
            c.name,
            chance_text(c.probability),
            tuple(clue.text for clue in c.because),
            tuple(clue.text for clue in c.against),
        )
        for c in worth_showing(answer)[:ROWS]
    )
    return CausesView(
        headline=headline(answer),
        stop=(answer.stop.title, tuple(answer.stop.lines)) if answer.stop else None,
        cannot_tell=tuple(cannot_tell_lines(answer)),
        rule_out=tuple(f"{r.name}. {r.fast_check or ''}" for r in answer.rule_out_first[:2]),
        pull=_pull_of(answer),
        course=course,
        causes=rows,
        together=tuple(
            f"Both at once: {' and '.join(known.causes[c].name.lower() for c in pair.causes)}"
            for pair in answer.also_together[:1]
        )
        + friends,
        unexplained=tuple(f"Nothing known explains: {known.symptoms[s].name.lower()}" for s in answer.unexplained),
        questions=tuple(
            QuestionView(a.id, a.question, a.how, _EFFORTS[a.effort], tuple(known.causes[c].name for c in a.splits))
            for a in questions_of(answer)
        ),
        would_change=tuple(would_change_lines(answer)),
    )


def _pull_of(answer: Answer) -> tuple[str, ...]:
    """Return whether to pull for the leading cause, where plants are pulled for it."""
    first = worth_showing(answer)[:1]
    return tuple(first[0].pull.say) if first and first[0].pull else ()


def _at(context: Context, stop_id: str) -> tuple[Planted, Evidence]:
    plant = plant_at(context, stop_id)
    return plant, evidence_for(context, plant)


def plant_at(context: Context, stop_id: str) -> Planted:
    """Return the planting of a stop."""
    with context.read() as session:
        return planted_as(context, stop_of(session, stop_id).planting_id)


def _keep(context: Context, plant: Planted, stop_id: str, evidence: Evidence, answer: Answer) -> None:
    """Keep the ranking as it was shown: knowledge, evidence, posteriors, question."""
    from scout.store.tables_follow import Ranking

    at, offset = context.moment()
    shown = {c.id: round(c.probability, 6) for c in answer.causes[:KEPT]}
    clues = {
        "seen": {s: [c.looked, c.affected] for s, c in evidence.seen.items()},
        "not_seen": {s: [c.looked, c.affected] for s, c in evidence.not_seen.items()},
        "circumstances": dict(evidence.circumstances),
        "conditions": {k: v for k, v in evidence.conditions.items() if v is not None},
        "stage": evidence.stage,
        "season": evidence.season,
        "earlier": {bout.on.isoformat(): sorted(bout.seen) for bout in evidence.earlier},
        "responses": {cause: response.control for cause, response in evidence.responses.items()},
    }
    with context.write() as tx:
        tx.add_silently(
            Ranking,
            planting_id=plant.planting_id,
            stop_id=stop_id,
            knowledge_hash=answer.knowledge,
            evidence=json.dumps(clues),
            answer=json.dumps(shown),
            asked=answer.ask_next[0].id if answer.ask_next else None,
            observed_at=at,
            observed_offset_min=offset,
        )


def answer(context: Context, stop_id: str, symptom: str, there: bool) -> None:
    """Keep the answer to the question on screen: a sign seen or looked for and not there, or how the trouble lies."""
    if symptom in context.knowledge.circumstances:
        tell_at(context, stop_id, symptom, there)
        return
    state = "seen" if there else "not_seen"
    looked_n = plant_at(context, stop_id).plants_n
    add_finding(context, stop_id, symptom, "asked", state=state, looked_n=looked_n)


def cause_page(context: Context, stop_id: str, cause_id: str) -> CausePage:
    """Return one cause as a page, with its controls as they stand at this bed now."""
    cause = context.knowledge.causes.get(cause_id)
    if cause is None:
        raise NotFound(f"There is no cause {cause_id!r}.")
    with context.read():
        return _page(context, cause, *_at(context, stop_id))


def _page(context: Context, cause: Cause, plant: Planted, evidence: Evidence) -> CausePage:
    from scout.diagnosis.advise import advise

    stop = stop_for(context.knowledge, evidence)
    verdicts = {} if stop else pulls(context.knowledge, evidence)
    bedside = replace(bedside_for(context, plant, evidence), pulls=verdicts, crop=evidence.crop)
    controls = tuple(
        ControlRow(
            a.control.id,
            a.control.name,
            a.kind,
            a.when.replace("_", " "),
            a.control.do,
            a.refused,
            a.only_if,
            a.cautions,
        )
        for a in advise(context.knowledge, cause, bedside)
    )
    made = list(backdated_lines(context, plant, cause, evidence))
    asked = size_question(context, plant, evidence, [cause.id])
    first = [stop.title, *stop.lines] if stop else []
    first += pull_lines(context.knowledge, verdicts[cause.id]) if cause.id in verdicts else []
    lines = first + made + cause_lines(context.knowledge, cause)[1:]
    return CausePage(cause.id, cause.name, kind_text(cause.kind), tuple(lines), controls, SIZE_ASKED if asked else None)


def take(context: Context, stop_id: str, cause_id: str, control_id: str) -> str:
    """Make a control a job with a day to look again; return what is due when."""
    from scout.services.troubles import take_control

    with context.read() as session:
        stop = stop_of(session, stop_id)
    page = cause_page(context, stop_id, cause_id)
    row = next((control for control in page.controls if control.id == control_id), None)
    if row is None:
        raise NotFound(f"{page.name} has no control {control_id!r}.")
    if row.refused is not None:
        raise Refused(row.refused)
    return take_control(context, stop.planting_id, stop.bed_id, stop_id, cause_id, control_id, row.when)
