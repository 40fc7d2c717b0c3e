"""Rules of the knowledge check about clues and how often they are said to go with a cause."""

import re
from collections.abc import Iterator

from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause, file_of


def no_two_alike(k: Knowledge) -> Iterator[str]:
    """Two causes with the same clues cannot be told apart and must be declared a tie."""
    declared = [set(tie.causes) for tie in k.ties]
    for crop in k.crops:
        profiles: dict[frozenset[tuple[str, str]], str] = {}
        for cause in k.causes_of(crop):
            profile = frozenset((c.subject, c.how_often) for c in cause.clues if not c.crops or crop in c.crops)
            twin = profiles.setdefault(profile, cause.id)
            if twin != cause.id and not any({twin, cause.id} <= tie for tie in declared):
                yield f"{file_of(cause)}: has the same clues as {twin!r} on {crop}; add what splits them, or a tie."


MOST_SIGNS_N = 320
"""More than a grower could choose from, or a second reader keep apart. Our choice."""


def the_vocabulary_stays_small(k: Knowledge) -> Iterator[str]:
    """No more signs are in use than can be told apart without a handbook."""
    in_use = sum(symptom.status != "retired" for symptom in k.symptoms.values())
    if in_use > MOST_SIGNS_N:
        yield f"symptoms: {in_use} are in use, {MOST_SIGNS_N} are enough; retire one that another covers (replaced_by)."


def rare_causes_stay_quiet(k: Knowledge) -> Iterator[str]:
    """No rare cause leads on one sign alone while a less rare one gives that sign at least sometimes."""
    rare, sometimes = k.scales.commonness.words["rare"], k.scales.frequency.words["sometimes"]
    for crop in k.crops:
        for symptom, links in _links(k, crop).items():
            leader = max(links, key=lambda link: _chance_on_one_sign(link, links, k, symptom))
            rivals = [cause.id for cause, common, often in links if common > rare and often >= sometimes]
            if leader[1] <= rare and rivals:
                yield (
                    f"{file_of(leader[0])}: rare on {crop}, yet {symptom!r} alone puts it before {', '.join(rivals)}; "
                    "mend how often or how common."
                )


_Link = tuple[Cause, float, float]
"""A cause, its chance beforehand on this crop, and the chance that it shows the sign."""


def _links(k: Knowledge, crop: str) -> dict[str, list[_Link]]:
    found: dict[str, list[_Link]] = {}
    for cause in k.causes_of(crop):
        common = k.scales.commonness.words[cause.common[crop]]
        for clue in cause.clues:
            if clue.symptom in k.symptoms and (not clue.crops or crop in clue.crops):
                found.setdefault(clue.symptom, []).append((cause, common, k.scales.frequency.words[clue.how_often]))
    return found


def _chance_on_one_sign(link: _Link, links: list[_Link], k: Knowledge, symptom: str) -> float:
    """Return a number that orders the causes of one seen sign by their noisy-OR posterior."""
    _, common, often = link
    unexplained = 1 - k.scales.background.words[k.symptoms[symptom].background]
    for other in links:
        if other is not link:
            unexplained *= 1 - other[1] * other[2]
    return common * (1 - unexplained * (1 - often))


MEMORY_MOST_FRAC = 0.15
"""So many causes at most may rest on memory or common practice alone."""


def few_rest_on_memory(k: Knowledge) -> Iterator[str]:
    """All but a few causes rest on a page that was opened."""
    causes = [cause for cause in k.causes.values() if cause.status != "retired"]
    bare = [cause for cause in causes if not any(_opened(k, key) for key in _sources_of(cause))]
    if len(bare) > MEMORY_MOST_FRAC * len(causes):
        share = round(100 * len(bare) / len(causes))
        yield f"causes: {share} % rest on memory alone, {file_of(bare[0])} among them; open a page for some of them."


def _sources_of(cause: Cause) -> set[str]:
    return {*cause.sources, *(clue.source for clue in cause.clues if clue.source)}


def _opened(k: Knowledge, key: str) -> bool:
    return key in k.sources and k.sources[key].basis == "looked_up"


_ANSWERS_FOR_OTHERS = re.compile(
    r"\b(ask extension|(plant|disease|insect|pest) clinic|diagnos\w+ (lab|service|clinic)s?)\b", re.I
)


def no_diagnosing_service_is_a_source(k: Knowledge) -> Iterator[str]:
    """No source is a service that says what ails a plant: published pages only."""
    for key, source in k.sources.items():
        if _ANSWERS_FOR_OTHERS.search(f"{source.title} {source.by}"):
            yield f"sources.toml: {key}: a service that judges plants is no source; cite a published page."
