"""Evidence gathered anywhere, from a case file or at a stop of a walk, answered in full."""

from dataclasses import replace
from typing import TYPE_CHECKING

from scout.diagnosis.advise import Bedside, advise
from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import build_model
from scout.diagnosis.next_look import NextLook, next_looks
from scout.diagnosis.next_pattern import NextPattern, next_patterns
from scout.diagnosis.rank import Ranked, Ranking, rank
from scout.diagnosis.reasons import Reason
from scout.knowledge.base import Knowledge
from scout.services.answer_shape import (
    ActOut,
    Answer,
    AskOut,
    CannotTellOut,
    CauseOut,
    ClueOut,
    LeaderOut,
    LookAlikeOut,
    PairOut,
    PullOut,
    RuleOutOut,
    StopOut,
    WordOut,
)
from scout.services.backdating import days_of
from scout.services.wording import pull_lines, reason_text, source_text

if TYPE_CHECKING:
    from scout.diagnosis.words import Match

CLINIC = "Still unclear then: ask a plant clinic or local extension, with a fresh sample."


def answer_evidence(
    knowledge: Knowledge,
    evidence: Evidence,
    matches: "tuple[Match, ...]" = (),
    bedside: Bedside | None = None,
    most: int | None = None,
    acts: bool = True,
) -> Answer:
    """Return the answer to evidence gathered anywhere: a case file or a stop of a walk.

    most: so many causes are told, by rank and of those that explain something seen; None: all of them.
    acts: False where nobody reads what to do about each cause, such as a screen that asks for it cause by cause.
    """
    model = build_model(knowledge, evidence)
    ranking = rank(knowledge, evidence, model)
    looks = () if ranking.stop else next_looks(knowledge, evidence, model=model)
    patterns = () if ranking.stop else next_patterns(knowledge, evidence, model=model)
    at_bed = replace(bedside or Bedside(), pulls=ranking.pulls, crop=evidence.crop)
    return Answer(
        crop=evidence.crop,
        knowledge=knowledge.hash,
        causes=[_cause(knowledge, ranked, at_bed, evidence, acts) for ranked in _told(ranking, looks, patterns, most)],
        ask_next=[_look(one) for one in looks],
        ask_patterns=[_pattern(one) for one in patterns],
        also_together=[PairOut(causes=[a, b], probability=p) for a, b, p in ranking.together],
        unexplained=list(ranking.unexplained),
        rule_out_first=[_rule_out(knowledge, key) for key in ranking.rule_out_first],
        called_sick=ranking.called_sick,
        stop=_stop(ranking),
        cannot_tell=_cannot_tell(knowledge, ranking),
        words_matched=[
            WordOut(kind=m.kind, id=m.id, certainty=m.certainty, seen=m.seen, words=m.words) for m in matches
        ],
    )


def _told(
    ranking: Ranking, looks: tuple[NextLook, ...], patterns: tuple[NextPattern, ...], most: int | None
) -> list[Ranked]:
    """Return the causes to tell of, in order of chance; those a question would bring to the front are among them."""
    explaining = [r for r in ranking.causes if any(reason.kind in ("seen", "earlier") for reason in r.because)]
    wanted = {r.cause.id for r in (*ranking.causes[:most], *explaining[:most])}
    wanted |= {leader for look in looks for leader, _ in (look.leads_if_seen, look.leads_if_not)}
    wanted |= {leader for one in patterns for leader, _ in (one.leads_if_true, one.leads_if_not)}
    return [r for r in ranking.causes if r.cause.id in wanted]


def _cause(knowledge: Knowledge, ranked: Ranked, bedside: Bedside, evidence: Evidence, acts: bool) -> CauseOut:
    cause = ranked.cause
    return CauseOut(
        id=cause.id,
        name=cause.name,
        agent=cause.agent,
        kind=cause.kind,
        aliases=list(cause.aliases),
        probability=ranked.probability,
        made_on=days_of(knowledge, cause, evidence),
        because=[_clue(knowledge, reason) for reason in ranked.because],
        against=[_clue(knowledge, reason) for reason in ranked.against],
        act=[
            ActOut(
                control=a.control.id,
                name=a.control.name,
                kind=a.kind,
                when=a.when,
                do=a.control.do,
                only_if=list(a.only_if),
                cautions=list(a.cautions),
                look_again_d=list(a.control.look_again_d),
                worked=a.control.worked,
            )
            for a in (advise(knowledge, cause, bedside) if acts else ())
            if a.refused is None
        ],
        dont=list(cause.dont),
        confirm=list(cause.confirm),
        look_alikes=[LookAlikeOut(cause=o.cause, split=o.split) for o in cause.look_alikes],
        pull=_pull(knowledge, ranked, bedside),
        pull_when=cause.pull_when,
        clinic_when=cause.clinic_when,
        look_again_d=cause.look_again_d,
        sources=[source_text(knowledge, key) for key in cause.sources],
    )


def _pull(knowledge: Knowledge, ranked: Ranked, bedside: Bedside) -> PullOut | None:
    pull = bedside.pulls.get(ranked.cause.id)
    if pull is None:
        return None
    return PullOut(
        verdict=pull.verdict,
        say=list(pull_lines(knowledge, pull)),
        proof_seen=list(pull.proof_seen),
        proof=list(pull.proof),
        in_vain=pull.in_vain,
        loss_pull=pull.loss_pull,
        loss_wait=pull.loss_wait,
    )


def _clue(knowledge: Knowledge, reason: Reason) -> ClueOut:
    return ClueOut(
        kind=reason.kind,
        id=reason.subject,
        text=reason_text(knowledge, reason),
        log_odds=round(reason.log_odds, 4),
    )


def _look(one: NextLook) -> AskOut:
    return AskOut(
        id=one.symptom.id,
        question=one.symptom.question,
        how=one.symptom.how,
        effort=one.symptom.effort,
        worth=one.worth,
        first=False,
        gain=one.gain_bits,
        splits=list(one.splits),
        if_seen=_leader(one.leads_if_seen),
        if_not=_leader(one.leads_if_not),
    )


def _leader(leads: tuple[str, float]) -> LeaderOut:
    return LeaderOut(cause=leads[0], probability=leads[1])


def _pattern(one: NextPattern) -> AskOut:
    return AskOut(
        id=one.circumstance.id,
        question=one.circumstance.question,
        how=None,
        effort="glance",
        worth=one.worth,
        first=one.first,
        gain=one.gain_bits,
        splits=list(one.splits),
        if_seen=_leader(one.leads_if_true),
        if_not=_leader(one.leads_if_not),
    )


def _rule_out(knowledge: Knowledge, key: str) -> RuleOutOut:
    cause = knowledge.causes[key]
    return RuleOutOut(id=key, name=cause.name, at_stake=cause.at_stake, fast_check=cause.fast_check)


def _stop(ranking: Ranking) -> StopOut | None:
    stop = ranking.stop
    return StopOut(id=stop.id, title=stop.title, lines=list(stop.lines)) if stop else None


def _cannot_tell(knowledge: Knowledge, ranking: Ranking) -> CannotTellOut | None:
    cannot = ranking.cannot_tell
    if cannot is None:
        return None
    return CannotTellOut(
        say=cannot.say,
        holding=cannot.holding,
        look_again_d=cannot.look_again_d,
        same_action=cannot.same_action,
        causes=list(cannot.causes),
        look_for=list(cannot.look_for),
        look_for_names=[knowledge.symptoms[sign].name for sign in cannot.look_for],
        clinic=CLINIC,
    )
