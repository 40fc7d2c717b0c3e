"""Rules that span files, one function a rule; each yields sentences that name file, key and the mend."""

import re
from collections.abc import Callable, Container, Iterator
from datetime import date

from scout.knowledge.base import Knowledge
from scout.knowledge.schema import Cause

Rule = Callable[[Knowledge], Iterator[str]]
STALE_AFTER_D = 3 * 365
"""A cause not checked for three years is due for reading again. Our choice."""


def check_knowledge(knowledge: Knowledge, today: date) -> tuple[str, ...]:
    """Return every problem as one sentence; empty when the knowledge base is in order."""
    problems = [sentence for rule in RULES for sentence in rule(knowledge)]
    return tuple(problems + list(stale_reviews(knowledge, today)))


def _file(cause: Cause) -> str:
    return f"causes/{cause.kind}/{cause.id}.toml"


def known_sources(k: Knowledge) -> Iterator[str]:
    """Every source key that is cited stands in sources.toml."""
    for where, key in _cited(k):
        if key not in k.sources:
            yield f"{where}: source {key!r} is not in sources.toml; add it there or mend the key."


def _cited(k: Knowledge) -> Iterator[tuple[str, str]]:
    for cause in k.causes.values():
        yield from ((_file(cause), key) for key in cause.sources)
        yield from ((_file(cause), clue.source) for clue in cause.clues if clue.source)
    for crop in k.crops.values():
        yield from ((f"crops/{crop.id}.toml", key) for key in crop.sources)
        yield from ((f"crops/{crop.id}.toml", look.source) for look in crop.looks)
        if crop.fruit_set:
            yield f"crops/{crop.id}.toml", crop.fruit_set.source
    for control_id, control in k.controls.items():
        yield from ((f"controls/{k.control_kind[control_id]}.toml ({control_id})", key) for key in control.sources)
    yield from ((f"cautions.toml ({key})", caution.source) for key, caution in k.cautions.items())
    yield from (("conditions.toml", condition.source) for condition in k.conditions.values())
    yield from (("stops.toml", stop.source) for stop in k.stops)
    yield from (("ties.toml", tie.source) for tie in k.ties)
    yield from (("enemies.toml", enemy.source) for enemy in k.enemies.values())
    scales = k.scales
    yield from (
        ("scales.toml", s.source) for s in (scales.frequency, scales.commonness, scales.background, scales.stake)
    )


def known_ids(k: Knowledge) -> Iterator[str]:
    """Every id that a file names exists."""
    for cause in k.causes.values():
        for what, key, table in _named(k, cause):
            if key not in table:
                yield f"{_file(cause)}: {what} {key!r} does not exist; add it or mend the id."
    for crop in k.crops.values():
        for look in crop.looks:
            for key in look.symptoms:
                if key not in k.symptoms:
                    yield f"crops/{crop.id}.toml: look {look.id!r}: symptom {key!r} does not exist."
    yield from _named_elsewhere(k)


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
    for other in cause.look_alikes:
        yield "cause", other.cause, k.causes
        if other.symptom:
            yield "symptom", other.symptom, k.symptoms


def _named_elsewhere(k: Knowledge) -> Iterator[str]:
    for control in k.controls.values():
        yield from (
            f"control {control.id}: caution {c!r} does not exist." for c in control.cautions if c not in k.cautions
        )
    for stop in k.stops:
        if stop.symptom not in k.symptoms:
            yield f"stops.toml: symptom {stop.symptom!r} does not exist."
    for enemy in k.enemies.values():
        yield from (f"enemies.toml: {enemy.id}: cause {c!r} does not exist." for c in enemy.eats if c not in k.causes)
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
                yield f"{_file(cause)}: symptom {clue.symptom!r} is not for any crop of this cause."


def clues_stand_once(k: Knowledge) -> Iterator[str]:
    """Each clue acts once: no cause names the same subject twice for one crop."""
    for cause in k.causes.values():
        seen: set[tuple[str, str]] = set()
        for clue in cause.clues:
            for crop in clue.crops or tuple(cause.common):
                if (crop, clue.subject) in seen:
                    yield f"{_file(cause)}: the clue {clue.subject!r} stands twice for {crop}; keep one."
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
            yield f"{_file(cause)}: give a cultural, physical or biological control, or no_cultural with the reason."


def look_alikes_are_mutual(k: Knowledge) -> Iterator[str]:
    """Causes that are mistaken for each other name each other."""
    for cause in k.causes.values():
        for other in cause.look_alikes:
            back = k.causes.get(other.cause)
            if back is not None and cause.id not in {o.cause for o in back.look_alikes}:
                yield f"{_file(back)}: name {cause.id!r} as a look-alike, since {cause.id} names {back.id}."


def every_crop_has_causes(k: Knowledge) -> Iterator[str]:
    """A crop without a cause can be planted but never diagnosed."""
    for crop in k.crops:
        if not k.causes_of(crop):
            yield f"crops/{crop}.toml: no cause names this crop."


def no_two_alike(k: Knowledge) -> Iterator[str]:
    """Two causes with the same clues cannot be told apart and must be declared a tie."""
    declared = [set(tie.causes) for tie in k.ties]
    for crop in k.crops:
        profiles: dict[frozenset[tuple[str, str]], str] = {}
        for cause in k.causes_of(crop):
            profile = frozenset((c.subject, c.how_often) for c in cause.clues if not c.crops or crop in c.crops)
            twin = profiles.setdefault(profile, cause.id)
            if twin != cause.id and not any({twin, cause.id} <= tie for tie in declared):
                yield f"{_file(cause)}: has the same clues as {twin!r} on {crop}; add what splits them, or a tie."


def rare_causes_stay_quiet(k: Knowledge) -> Iterator[str]:
    """No rare cause leads on one sign alone while a less rare one gives that sign at least sometimes."""
    rare, sometimes = k.scales.commonness.words["rare"], k.scales.frequency.words["sometimes"]
    for crop in k.crops:
        for symptom, links in _links(k, crop).items():
            leader = max(links, key=lambda link: _chance_on_one_sign(link, links, k, symptom))
            rivals = [cause.id for cause, common, often in links if common > rare and often >= sometimes]
            if leader[1] <= rare and rivals:
                yield (
                    f"{_file(leader[0])}: rare on {crop}, yet {symptom!r} alone puts it before {', '.join(rivals)}; "
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


_DOSE = re.compile(
    r"\b\d+([.,]\d+)?\s*(ml|millilit(er|re)s?|g/l|oz|ounces?|tablespoons?|teaspoons?|tbsp|tsp|ppm|parts? (in|to|per))\b",
    re.I,
)
_BREW = re.compile(r"\b(baking soda|dish soap|vinegar|epsom|eggshell|garlic spray|bleach)\b", re.I)
_TASTE = re.compile(r"\btast(e|ing)\b", re.I)
_REFUSAL = re.compile(r"\b(not|never|no|nor|don't|without|spit)\b", re.I)


def must_nevers(k: Knowledge) -> Iterator[str]:
    """No dose, no home brew, and no invitation to taste a squash, in any text that a grower reads."""
    for where, text, bitter in _advice(k):
        if _DOSE.search(text):
            yield f"{where}: a dose stands in {text!r}; the label alone gives doses."
        if _BREW.search(text) and not _REFUSAL.search(text):
            yield f"{where}: a home brew stands in {text!r}; name it only to say it is not to be used."
        if bitter and _TASTE.search(text) and not _REFUSAL.search(text):
            yield f"{where}: {text!r} could invite tasting a squash, pumpkin, gourd or melon."


def _advice(k: Knowledge) -> Iterator[tuple[str, str, bool]]:
    for cause in k.causes.values():
        bitter = any(k.crops[crop].bitter_stop for crop in cause.common if crop in k.crops)
        texts = [cause.summary, *cause.confirm, *cause.dont, cause.pull_when, cause.clinic_when]
        texts += [cause.fast_check, cause.at_stake, cause.no_cultural, *(other.split for other in cause.look_alikes)]
        yield from ((_file(cause), text, bitter) for text in texts if text)
    for control in k.controls.values():
        texts = [control.do, *control.steps, control.count, control.worked]
        yield from ((f"control {control.id}", text, True) for text in texts if text)


def labelled_comes_last(k: Knowledge) -> Iterator[str]:
    """A labelled product always defers to the label and to local advice."""
    for key, control in k.controls.items():
        if k.control_kind[key] != "labelled":
            continue
        text = " ".join((control.do, *control.steps)).casefold()
        if "label" not in text or "extension" not in text:
            yield f"controls/labelled.toml: {key}: say 'if local extension advises' and 'by the label'."


def stale_reviews(k: Knowledge, today: date) -> Iterator[str]:
    """Every cause was checked within the last three years, and not in the future."""
    for cause in k.causes.values():
        if not 0 <= (today - cause.checked_on).days <= STALE_AFTER_D:
            yield f"{_file(cause)}: checked_on {cause.checked_on} is out of date or in the future; read it again."


RULES: tuple[Rule, ...] = (
    known_sources,
    known_ids,
    clues_fit_the_crop,
    clues_stand_once,
    orphan_symptoms,
    cultural_control_first,
    look_alikes_are_mutual,
    every_crop_has_causes,
    no_two_alike,
    rare_causes_stay_quiet,
    must_nevers,
    labelled_comes_last,
)
