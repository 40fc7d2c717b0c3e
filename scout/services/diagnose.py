"""One case in, one answer out: the contract of `bedwalk diagnose --case FILE --json`."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from scout.diagnosis.advise import Bedside, advise
from scout.diagnosis.conditions import conditions_on
from scout.diagnosis.evidence import Count, Day, Evidence
from scout.diagnosis.fruit import size_given
from scout.diagnosis.model import build_model
from scout.diagnosis.next_look import NextLook, next_looks
from scout.diagnosis.next_pattern import NextPattern, next_patterns
from scout.diagnosis.pattern import share_circumstances
from scout.diagnosis.rank import Ranked, Ranking, rank
from scout.diagnosis.reasons import ClueKind, Reason
from scout.errors import BadInput, BedwalkError, NotFound
from scout.knowledge.base import Knowledge
from scout.services.backdating import days_of
from scout.services.wording import pull_lines, reason_text, source_text

if TYPE_CHECKING:
    from scout.diagnosis.words import Match
    from scout.intake.case_file import Case, CaseError

Chance = float
CLINIC = "Still unclear then: ask a plant clinic or local extension, with a fresh sample."


class Out(BaseModel):
    """A part of the answer."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class ClueOut(Out):
    """One clue; `log_odds` is what it added to or took from the cause."""

    kind: ClueKind
    id: str
    text: str
    log_odds: float


class ActOut(Out):
    """One control, in the order of resort."""

    control: str
    name: str
    kind: Literal["cultural", "physical", "biological", "labelled"]
    when: Literal["today", "season", "next_season"]
    do: str
    only_if: list[str]
    cautions: list[str]
    look_again_d: list[float]
    worked: str


class LookAlikeOut(Out):
    """A cause it is mistaken for, and what splits the two."""

    cause: str
    split: str


class PullOut(Out):
    """Pull, or keep apart and confirm within a day: shown with the signs seen that prove the cause."""

    verdict: Literal["pull", "isolate_and_confirm"]
    say: list[str]
    proof_seen: list[str]
    proof: list[str]
    in_vain: Chance = Field(ge=0, le=1)
    """Chance that no cause is at work for which a plant is pulled."""
    loss_pull: float = Field(ge=0)
    loss_wait: float = Field(ge=0)
    """Expected losses on the scale of the stakes: of a pull now, and of one day kept apart."""


class CauseOut(Out):
    """One cause with its chance and reasons."""

    id: str
    name: str
    agent: str | None
    kind: str
    aliases: list[str]
    probability: Chance = Field(ge=0, le=1)
    made_on: list[str]
    """Days on which the weather did it, where the fruit was in bud, in flower or filling then."""
    because: list[ClueOut]
    against: list[ClueOut]
    act: list[ActOut]
    dont: list[str]
    confirm: list[str]
    look_alikes: list[LookAlikeOut]
    pull: PullOut | None
    """None: no plant is pulled for this cause."""
    pull_when: str | None
    clinic_when: str | None
    look_again_d: int
    sources: list[str]


class LeaderOut(Out):
    """The cause that would lead after an answer, and its chance then."""

    cause: str
    probability: Chance = Field(ge=0, le=1)


class AskOut(Out):
    """One observation worth making next."""

    id: str
    question: str
    how: str | None
    effort: str
    worth: float = Field(ge=0)
    """The order of asking, among symptoms and circumstances alike."""
    gain: float = Field(ge=0)
    """Expected information about which causes are at work, in bits."""
    splits: list[str]
    if_seen: LeaderOut
    if_not: LeaderOut


class PairOut(Out):
    """Two causes likely at work at once."""

    causes: list[str]
    probability: Chance = Field(ge=0, le=1)


class RuleOutOut(Out):
    """A cause not to be missed, whatever its rank."""

    id: str
    at_stake: str | None
    fast_check: str | None


class StopOut(Out):
    """A warning that comes before any ranking."""

    id: str
    title: str
    lines: list[str]


class CannotTellOut(Out):
    """Why no cause is named yet, and what to do meanwhile."""

    say: str
    holding: str
    look_again_d: int
    same_action: bool
    causes: list[str]
    look_for: list[str]
    look_for_names: list[str]
    """The same in a grower's words."""
    clinic: str
    """Where to ask when it stays unclear."""


class WordOut(Out):
    """What the free words were taken to mean."""

    kind: Literal["symptom", "circumstance"]
    id: str
    certainty: float
    seen: bool
    words: str


class Answer(Out):
    """The answer to one case."""

    crop: str
    knowledge: str
    """Hash of the knowledge base that answered."""
    causes: list[CauseOut]
    ask_next: list[AskOut]
    """Symptoms worth looking for next."""
    ask_patterns: list[AskOut]
    """Circumstances worth telling next: how the trouble lies in the bed."""
    also_together: list[PairOut]
    unexplained: list[str]
    rule_out_first: list[RuleOutOut]
    called_sick: Chance | None = Field(ge=0, le=1)
    stop: StopOut | None
    cannot_tell: CannotTellOut | None
    words_matched: list[WordOut]


class Failed(Out):
    """A case that could not be answered."""

    error: str


def answer_case(knowledge: Knowledge, case: "Case") -> Answer:
    """Return the answer to a case; NotFound or BadInput names what is unknown or cannot be."""
    crop = knowledge.crop(case.crop).id
    evidence, matches = _evidence(knowledge, crop, case)
    return answer_evidence(knowledge, evidence, matches)


def answer_text(knowledge: Knowledge, text: str) -> tuple[list[Answer | Failed], bool]:
    """Return an answer or an error for each case in JSON text, and whether the text was a list."""
    from scout.intake.case_file import read_cases

    cases = read_cases(text)
    return [_answer_or_error(knowledge, item) for item in cases.items], cases.is_list


def _answer_or_error(knowledge: Knowledge, item: "Case | CaseError") -> Answer | Failed:
    from scout.intake.case_file import CaseError

    if isinstance(item, CaseError):
        return Failed(error=item.error)
    try:
        return answer_case(knowledge, item)
    except BedwalkError as error:
        return Failed(error=str(error))


def case_and_answer_schema() -> dict[str, Any]:
    """Return the JSON schema of a case and of an answer, as `bedwalk diagnose --schema` prints it."""
    from scout.intake.case_file import Case

    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "case": Case.model_json_schema(),
        "answer": Answer.model_json_schema(mode="serialization"),
        "error": Failed.model_json_schema(mode="serialization"),
    }


def answer_evidence(
    knowledge: Knowledge,
    evidence: Evidence,
    matches: "tuple[Match, ...]" = (),
    bedside: Bedside | None = None,
    most: int | None = None,
) -> Answer:
    """Return the answer to evidence gathered anywhere: a case file or a stop of a walk.

    most: so many causes are told, by rank and of those that explain something seen; None: all of them.
    """
    model = build_model(knowledge, evidence)
    ranking = rank(knowledge, evidence, model)
    looks = () if ranking.stop else next_looks(knowledge, evidence, model=model)
    patterns = () if ranking.stop else next_patterns(knowledge, evidence, model=model)
    at_bed = replace(bedside or Bedside(), pulls=ranking.pulls)
    return Answer(
        crop=evidence.crop,
        knowledge=knowledge.hash,
        causes=[_cause(knowledge, ranked, at_bed, evidence) for ranked in _told(ranking, looks, patterns, most)],
        ask_next=[
            AskOut(
                id=look.symptom.id,
                question=look.symptom.question,
                how=look.symptom.how,
                effort=look.symptom.effort,
                worth=look.worth,
                gain=look.gain_bits,
                splits=list(look.splits),
                if_seen=LeaderOut(cause=look.leads_if_seen[0], probability=look.leads_if_seen[1]),
                if_not=LeaderOut(cause=look.leads_if_not[0], probability=look.leads_if_not[1]),
            )
            for look in looks
        ],
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


def _evidence(knowledge: Knowledge, crop: str, case: "Case") -> "tuple[Evidence, tuple[Match, ...]]":
    matches = _sure_words(knowledge, crop, case.words)
    seen = [_symptom(knowledge, crop, word) for word in case.seen]
    not_seen = [_symptom(knowledge, crop, word) for word in case.not_seen]
    seen += [m.id for m in matches if m.kind == "symptom" and m.seen]
    not_seen += [m.id for m in matches if m.kind == "symptom" and not m.seen and m.id not in seen]
    clash = set(seen) & set(not_seen)
    if clash:
        raise BadInput(f"{sorted(clash)[0]!r} is given both as seen and as not seen; keep one.")
    said = {m.id: m.seen for m in matches if m.kind == "circumstance"}
    counted = share_circumstances(case.looked, case.affected) if seen else {}
    circumstances = counted | said | _circumstances(knowledge, case.circumstances)
    days = [_day(row, case.on) for row in case.weather]
    size = size_given(circumstances)
    return (
        Evidence(
            crop=crop,
            on=case.on,
            stage=case.stage,
            seen={s: Count(case.looked, case.affected) for s in dict.fromkeys(seen)},
            not_seen={s: Count(case.looked) for s in dict.fromkeys(not_seen)},
            circumstances=circumstances,
            conditions=conditions_on(knowledge, crop, case.on, days, size) if case.on else {},
            days=tuple(days),
            size=size,
        ),
        matches,
    )


def _sure_words(knowledge: Knowledge, crop: str, words: str | None) -> "tuple[Match, ...]":
    if not words:
        return ()
    from scout.diagnosis.words import sure_matches

    return sure_matches(knowledge, crop, words)


def _symptom(knowledge: Knowledge, crop: str, word: str) -> str:
    symptom = knowledge.symptom(word)
    if symptom.crops and crop not in symptom.crops:
        raise BadInput(f"The symptom {symptom.id!r} is not one of {knowledge.crops[crop].name.lower()}.")
    return symptom.id


def _circumstances(knowledge: Knowledge, given: Mapping[str, bool]) -> dict[str, bool]:
    for key in given:
        if key not in knowledge.circumstances:
            raise NotFound(
                f"There is no circumstance {key!r}; 'bedwalk knowledge list circumstances' prints those there are."
            )
    return dict(given)


def _day(row: object, on: date | None) -> Day:
    day: date = row.date  # type: ignore[attr-defined]
    values = {
        name: getattr(row, name, None)
        for name in ("tmax_c", "tmin_c", "rain_mm", "wet_h", "wet_morning", "rh_mean_pct")
    }
    return Day(on=day, forecast=on is not None and day > on, **values)


def _cause(knowledge: Knowledge, ranked: Ranked, bedside: Bedside, evidence: Evidence) -> CauseOut:
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
            for a in advise(knowledge, cause, bedside)
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


def _pattern(one: NextPattern) -> AskOut:
    return AskOut(
        id=one.circumstance.id,
        question=one.circumstance.question,
        how=None,
        effort="glance",
        worth=one.worth,
        gain=one.gain_bits,
        splits=list(one.splits),
        if_seen=LeaderOut(cause=one.leads_if_true[0], probability=one.leads_if_true[1]),
        if_not=LeaderOut(cause=one.leads_if_not[0], probability=one.leads_if_not[1]),
    )


def _rule_out(knowledge: Knowledge, key: str) -> RuleOutOut:
    cause = knowledge.causes[key]
    return RuleOutOut(id=key, at_stake=cause.at_stake, fast_check=cause.fast_check)


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
