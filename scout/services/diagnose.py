"""One case in, one answer out: the contract of `bedwalk diagnose --case FILE --json`."""

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from scout.diagnosis.conditions import conditions_on
from scout.diagnosis.evidence import Count, Day, Evidence
from scout.diagnosis.fruit import size_given
from scout.diagnosis.pattern import share_circumstances
from scout.errors import BadInput, BedwalkError, NotFound
from scout.knowledge.base import Knowledge
from scout.services.answer_shape import Answer, Failed
from scout.services.answering import answer_evidence

if TYPE_CHECKING:
    from scout.diagnosis.words import Match
    from scout.intake.case_file import Case, CaseError


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


def _evidence(knowledge: Knowledge, crop: str, case: "Case") -> "tuple[Evidence, tuple[Match, ...]]":
    matches = _sure_words(knowledge, crop, case.words)
    seen = [_symptom(knowledge, crop, word) for word in case.seen]
    not_seen = [_symptom(knowledge, crop, word) for word in case.not_seen]
    seen += [m.id for m in matches if m.kind == "symptom" and m.seen and m.id not in not_seen]
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
