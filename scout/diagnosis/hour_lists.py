"""What can only be told at dawn or after dark, where something open or lately seen asks for it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause
from scout.knowledge.crop_file import Crop
from scout.knowledge.schema import StageId
from scout.plain import lower_first

When = Literal["dawn", "dark"]
_TELLING = frozenset({"almost_always", "usually", "often", "sometimes"})


@dataclass(frozen=True)
class HourLook:
    """One look or question that waits for its hour."""

    when: When
    ask: str
    why: str


def hour_looks(
    knowledge: Knowledge, crop: Crop, stage: StageId | None, open_causes: Iterable[Cause], seen: str | None
) -> tuple[HourLook, ...]:
    """Return the dawn and after-dark looks of a planting that an open problem or a sign seen lately asks for.

    seen: the newest symptom seen. A sign that none of the crop's looks shows is asked by its own question.
    """
    asked = _asked(knowledge, crop, open_causes, seen)
    found, covered = [], set()
    for look in crop.looks:
        if look.effort not in ("dawn", "dark") or (stage or "leafy") not in look.stages:
            continue
        why = next((asked[symptom] for symptom in look.symptoms if symptom in asked), None)
        if why is not None:
            covered |= set(look.symptoms)
            found.append(HourLook(look.effort, look.ask, why))
    for symptom, why in asked.items():
        told = knowledge.symptoms[symptom]
        if told.effort in ("dawn", "dark") and symptom not in covered and not _asked_for(found, told.effort, why):
            found.append(HourLook(told.effort, told.question, why))
    return tuple(found)


def _asked_for(found: Iterable[HourLook], when: When, why: str) -> bool:
    """Return whether something is asked at that hour for that reason: limp at dawn, and firm at dawn, are one look."""
    return any((look.when, look.why) == (when, why) for look in found)


def _asked(knowledge: Knowledge, crop: Crop, open_causes: Iterable[Cause], seen: str | None) -> dict[str, str]:
    """Return the signs worth looking for, and why."""
    why = {sign: f"open problem: {lower_first(cause.name)}" for cause in open_causes for sign in _signs(cause, crop)}
    if seen is None or seen not in knowledge.symptoms:
        return why
    told = f"would tell more of: {lower_first(knowledge.symptoms[seen].name)}"
    for cause in knowledge.causes_of(crop.id):
        signs = tuple(_signs(cause, crop))
        if seen in signs:
            why |= {sign: told for sign in signs if sign not in why and sign != seen}
    return why


def _signs(cause: Cause, crop: Crop) -> Iterator[str]:
    for clue in cause.clues:
        if clue.symptom is not None and clue.how_often in _TELLING and (not clue.crops or crop.id in clue.crops):
            yield clue.symptom
