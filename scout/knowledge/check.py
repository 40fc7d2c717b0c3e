"""Rules that span files, one function a rule; each yields sentences that name file, key and the mend."""

from collections.abc import Callable, Container, Iterator
from datetime import date

from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause, file_of
from scout.knowledge.crop_file import Crop
from scout.knowledge.rules_of_advice import (
    donts_refuse,
    grave_causes_have_a_fast_check,
    labelled_comes_last,
    must_nevers,
    no_cure_is_promised,
)
from scout.knowledge.rules_of_cases import every_cause_has_a_case, every_crop_has_a_healthy_case
from scout.knowledge.rules_of_evidence import (
    few_rest_on_memory,
    no_diagnosing_service_is_a_source,
    no_two_alike,
    rare_causes_stay_quiet,
    the_vocabulary_stays_small,
)
from scout.knowledge.rules_of_fullness import (
    codes_are_confirmed,
    every_cause_has_a_look_alike,
    every_crop_has_causes,
    families_are_named_alike,
    something_is_said_for_today,
)

Rule = Callable[[Knowledge], Iterator[str]]
STALE_AFTER_D = 3 * 365
"""A cause not checked for three years is due for reading again. Our choice."""


def check_knowledge(knowledge: Knowledge, today: date) -> tuple[str, ...]:
    """Return every problem as one sentence; empty when the knowledge base is in order."""
    problems = [sentence for rule in RULES for sentence in rule(knowledge)]
    return tuple(problems + list(stale_reviews(knowledge, today)))


def known_sources(k: Knowledge) -> Iterator[str]:
    """Every source key that is cited stands in sources.toml."""
    for where, key in _cited(k):
        if key not in k.sources:
            yield f"{where}: source {key!r} is not in sources.toml; add it there or mend the key."


def _cited(k: Knowledge) -> Iterator[tuple[str, str]]:
    for cause in k.causes.values():
        yield from ((file_of(cause), key) for key in cause.sources)
        yield from ((file_of(cause), clue.source) for clue in cause.clues if clue.source)
        yield from ((file_of(cause), count.source) for count in cause.degree_days)
        if cause.times_source is not None:
            yield file_of(cause), cause.times_source
        if cause.warmth is not None:
            yield file_of(cause), cause.warmth.source
    for crop in k.crops.values():
        yield from ((f"crops/{crop.id}.toml", key) for key in _cited_by(crop))
    for control_id, control in k.controls.items():
        yield from ((f"controls/{k.control_kind[control_id]}.toml ({control_id})", key) for key in control.sources)
    yield from ((f"cautions.toml ({key})", caution.source) for key, caution in k.cautions.items())
    yield from (("conditions.toml", condition.source) for condition in k.conditions.values())
    yield from (("patterns.toml", pattern.source) for pattern in k.patterns)
    yield from (("stops.toml", stop.source) for stop in k.stops)
    yield from (("ties.toml", tie.source) for tie in k.ties)
    yield from (("enemies.toml", enemy.source) for enemy in k.enemies.values())
    yield from (("action_marks.toml", mark.source) for mark in k.action_marks.values())
    scales = k.scales
    words = (scales.frequency, scales.commonness, scales.background, scales.stake, scales.wrong_pull, scales.one_day)
    yield from (("scales.toml", scale.source) for scale in words)


def _cited_by(crop: Crop) -> Iterator[str]:
    yield from crop.sources
    yield from (look.source for look in crop.looks)
    yield from (part.source for part in (crop.comfort, crop.fruit_set, crop.water, crop.chill, crop.growth) if part)
    if crop.growth:
        yield crop.growth.size_source


def known_ids(k: Knowledge) -> Iterator[str]:
    """Every id that a file names exists."""
    for cause in k.causes.values():
        for what, key, table in _named(k, cause):
            if key not in table:
                yield f"{file_of(cause)}: {what} {key!r} does not exist; add it or mend the id."
    for crop in k.crops.values():
        for look in crop.looks:
            for key in look.symptoms:
                if key not in k.symptoms:
                    yield f"crops/{crop.id}.toml: look {look.id!r}: symptom {key!r} does not exist."
    yield from _named_elsewhere(k)
    yield from _asked_first(k)


def _named(k: Knowledge, cause: Cause) -> Iterator[tuple[str, str, Container[str]]]:
    tables: dict[str, Container[str]] = {
        "symptom": k.symptoms,
        "circumstance": k.circumstances,
        "condition": k.conditions,
    }
    for clue in cause.clues:
        for what, table in tables.items():
            key = getattr(clue, what)
            if key is not None:
                yield what, key, table
        yield from (("crop", key, cause.common) for key in clue.crops)
    yield from (("crop", key, k.crops) for key in cause.common)
    yield from (("symptom", key, k.symptoms) for key in (*cause.excludes, *cause.proof))
    yield from (("control", action.control, k.controls) for action in cause.do)
    yield from (("crop", key, cause.common) for action in cause.do for key in action.crops)
    yield from (("symptom", count.since_seen, k.symptoms) for count in cause.degree_days if count.since_seen)
    for other in cause.look_alikes:
        yield "cause", other.cause, k.causes
        if other.symptom:
            yield "symptom", other.symptom, k.symptoms


def _asked_first(k: Knowledge) -> Iterator[str]:
    for key, symptom in k.symptoms.items():
        if symptom.ask_first and symptom.ask_first not in k.circumstances:
            yield f"symptoms/{k.part_of[key]}.toml: {key}: circumstance {symptom.ask_first!r} does not exist."


def _named_elsewhere(k: Knowledge) -> Iterator[str]:
    for control in k.controls.values():
        yield from (
            f"control {control.id}: caution {c!r} does not exist." for c in control.cautions if c not in k.cautions
        )
    named = [pattern.circumstance for pattern in k.patterns]
    named += [c.implies for c in k.circumstances.values() if c.implies]
    yield from (f"patterns.toml: circumstance {c!r} does not exist." for c in named if c not in k.circumstances)
    for stop in k.stops:
        if stop.symptom not in k.symptoms:
            yield f"stops.toml: symptom {stop.symptom!r} does not exist."
    for enemy in k.enemies.values():
        yield from (f"enemies.toml: {enemy.id}: cause {c!r} does not exist." for c in enemy.eats if c not in k.causes)
    for mark in k.action_marks.values():
        where = f"action_marks.toml: {mark.id}"
        yield from (f"{where}: cause {c!r} does not exist." for c in mark.causes if c not in k.causes)
        yield from (f"{where}: crop {c!r} does not exist." for c in mark.crops if c not in k.crops)
    for tie in k.ties:
        yield from (f"ties.toml: {tie.id}: cause {c!r} does not exist." for c in tie.causes if c not in k.causes)
        signs = (*tie.shared, *tie.settled_by)
        yield from (f"ties.toml: {tie.id}: symptom {s!r} does not exist." for s in signs if s not in k.symptoms)


def clues_fit_the_crop(k: Knowledge) -> Iterator[str]:
    """A clue that applies to every crop of its cause names a symptom that at least one of them can show."""
    for cause in k.causes.values():
        for clue in cause.clues:
            if clue.symptom is None or clue.symptom not in k.symptoms:
                continue
            allowed = k.symptoms[clue.symptom].crops
            if allowed and not set(clue.crops or cause.common) & set(allowed):
                yield f"{file_of(cause)}: symptom {clue.symptom!r} is not for any crop of this cause."


def clues_stand_once(k: Knowledge) -> Iterator[str]:
    """Each clue acts once: no cause names the same subject twice for one crop."""
    for cause in k.causes.values():
        seen: set[tuple[str, str]] = set()
        for clue in cause.clues:
            for crop in clue.crops or tuple(cause.common):
                if (crop, clue.subject) in seen:
                    yield f"{file_of(cause)}: the clue {clue.subject!r} stands twice for {crop}; keep one."
                seen.add((crop, clue.subject))


def orphan_symptoms(k: Knowledge) -> Iterator[str]:
    """Every symptom in use is a clue of some cause or triggers a stop, unless it only describes quality."""
    used = {clue.symptom for cause in k.causes.values() for clue in cause.clues}
    used |= {stop.symptom for stop in k.stops} | {s for cause in k.causes.values() for s in cause.excludes}
    for symptom in k.symptoms.values():
        if symptom.id not in used and symptom.status != "retired" and symptom.kind != "quality":
            yield f"symptoms/{k.part_of[symptom.id]}.toml: no cause uses {symptom.id!r}; use it in a clue or retire it."


def cultural_control_first(k: Knowledge) -> Iterator[str]:
    """Every cause has a cultural, physical or biological control, or says why none."""
    for cause in k.causes.values():
        kinds = {k.control_kind.get(action.control) for action in cause.do}
        if not kinds - {"labelled", None} and not cause.no_cultural:
            yield f"{file_of(cause)}: give a cultural, physical or biological control, or no_cultural with the reason."


def look_alikes_are_mutual(k: Knowledge) -> Iterator[str]:
    """Causes that are mistaken for each other name each other."""
    for cause in k.causes.values():
        for other in cause.look_alikes:
            back = k.causes.get(other.cause)
            if back is not None and cause.id not in {o.cause for o in back.look_alikes}:
                yield f"{file_of(back)}: name {cause.id!r} as a look-alike, since {cause.id} names {back.id}."


def stale_reviews(k: Knowledge, today: date) -> Iterator[str]:
    """Every cause was checked within the last three years, and not in the future."""
    for cause in k.causes.values():
        if not 0 <= (today - cause.checked_on).days <= STALE_AFTER_D:
            yield f"{file_of(cause)}: checked_on {cause.checked_on} is out of date or in the future; read it again."


RULES: tuple[Rule, ...] = (
    known_sources,
    known_ids,
    clues_fit_the_crop,
    clues_stand_once,
    orphan_symptoms,
    cultural_control_first,
    something_is_said_for_today,
    look_alikes_are_mutual,
    every_cause_has_a_look_alike,
    every_crop_has_causes,
    families_are_named_alike,
    codes_are_confirmed,
    no_two_alike,
    rare_causes_stay_quiet,
    the_vocabulary_stays_small,
    few_rest_on_memory,
    no_diagnosing_service_is_a_source,
    every_crop_has_a_healthy_case,
    every_cause_has_a_case,
    must_nevers,
    no_cure_is_promised,
    donts_refuse,
    labelled_comes_last,
    grave_causes_have_a_fast_check,
)
