"""Rules of the knowledge check about what a grower is told to do; design: what the program must never say."""

import re
from collections.abc import Iterator

from pydantic import BaseModel

from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import file_of

_DOSE = re.compile(
    r"\b\d+([.,]\d+)?\s*(ml|millilit(er|re)s?|g/l|oz|ounces?|tablespoons?|teaspoons?|tbsp|tsp|ppm|parts? (in|to))\b",
    re.I,
)
_BREW = re.compile(r"\b(baking soda|dish soap|vinegar|epsom|eggshell|garlic spray|bleach)\b", re.I)
_PRODUCT = re.compile(
    r"\b(neem|spinosad|pyrethr\w+|permethrin|malathion|carbaryl|glyphosate|mancozeb|chlorothalonil|captan|"
    r"imidacloprid|metaldehyde|diatomaceous|streptomycin|Bt|copper (spray|soap|product|fungicide))\b"
)
_BURN = re.compile(r"\bburn (it|them|this|these|the|all|vines|plants|stalks|remains)\b", re.I)
_WET = re.compile(r"\b(strip|prune|pinch|cut off|take off)\b[^.;:]*\bwet (leaves|plants|beds?)\b", re.I)
_TASTE = re.compile(r"\btast(e|ing)\b", re.I)
_CURE = re.compile(r"\b(cur(e|es|ed)|heals?|healed)\b", re.I)
_COMPOST = re.compile(r"\bcompost\b", re.I)
_REFUSAL = re.compile(r"\b(not|never|no|nor|none|nothing|cannot|don't|without|spit)\b", re.I)
_EVERYWHERE = (
    (_BREW, "a home brew stands in {}; name it only to say it is not to be used."),
    (_PRODUCT, "a product stands in {}; name a class at most, the label and local extension name the rest."),
    (_BURN, "{} could send a grower to burn plants, which many places forbid."),
    (_WET, "{} could send a grower to strip wet leaves."),
)
_NOT_SAID = frozenset({"id", "source", "sources", "where", "agent", "latin", "synonyms", "aliases", "eppo"})
"""Fields that tell the grower nothing to do: keys, names, and the grower's own words."""


def must_nevers(k: Knowledge) -> Iterator[str]:
    """No dose, product, home brew, fire, wet stripping or taste of a squash, in any text that a grower reads."""
    for where, text, bitter in _told(k):
        if _DOSE.search(text):
            yield f"{where}: a dose stands in {text!r}; the label alone gives doses."
        if _REFUSAL.search(text):
            continue
        yield from (f"{where}: {say.format(repr(text))}" for what, say in _EVERYWHERE if what.search(text))
        if bitter and _TASTE.search(text):
            yield f"{where}: {text!r} could invite tasting a squash, pumpkin, gourd or melon."


def no_cure_is_promised(k: Knowledge) -> Iterator[str]:
    """Viruses and bacterial wilts are never said to be cured, nor late blight to be composted."""
    for cause in k.causes.values():
        lost = cause.kind in ("viral", "phytoplasma") or (cause.kind == "bacterial" and "wilt" in cause.id)
        for text in _texts(cause):
            if lost and _CURE.search(text) and not _REFUSAL.search(text):
                yield f"{file_of(cause)}: {text!r} could promise a cure; there is none."
            if cause.id == "late_blight" and _COMPOST.search(text) and not _REFUSAL.search(text):
                yield f"{file_of(cause)}: {text!r} could send late blight to the compost."


def donts_refuse(k: Knowledge) -> Iterator[str]:
    """What stands under "Do not" says not: a piece of advice there would be read as forbidden."""
    for cause in k.causes.values():
        for text in cause.dont:
            if not _REFUSAL.search(text):
                yield f"{file_of(cause)}: dont: {text!r} forbids nothing; say 'do not', or give it as a control."


def _told(k: Knowledge) -> Iterator[tuple[str, str, bool]]:
    """Yield where a text stands, the text, and whether it may be read beside a squash, pumpkin, gourd or melon."""
    bitter = {crop.id for crop in k.crops.values() if crop.bitter_stop}
    for cause in k.causes.values():
        yield from ((file_of(cause), text, bool(bitter & set(cause.common))) for text in _texts(cause))
    for crop in k.crops.values():
        yield from ((f"crops/{crop.id}.toml", text, crop.id in bitter) for text in _texts(crop))
    for symptom in k.symptoms.values():
        asked = " ".join(text for text in (symptom.question, symptom.how) if text)
        yield f"symptom {symptom.id}", asked, not symptom.crops or bool(bitter & set(symptom.crops))
    entries: list[tuple[str, BaseModel]] = [(tie.id, tie) for tie in k.ties] + [(stop.id, stop) for stop in k.stops]
    for table in (k.controls, k.cautions, k.circumstances, k.conditions, k.enemies, k.action_marks):
        entries += table.items()
    for key, one in entries:
        yield from ((f"{type(one).__name__.lower()} {key}", text, True) for text in _texts(one))


def _texts(value: object) -> Iterator[str]:
    """Yield every sentence inside an entry that is shown to a grower."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, BaseModel):
        for name in type(value).model_fields:
            if name not in _NOT_SAID:
                yield from _texts(getattr(value, name))
    elif isinstance(value, tuple):
        for part in value:
            yield from _texts(part)


def labelled_comes_last(k: Knowledge) -> Iterator[str]:
    """A labelled product always defers to the label and to local advice."""
    for key, control in k.controls.items():
        text = " ".join((control.name, control.do, *control.steps)).casefold()
        product = k.control_kind[key] == "labelled" or "hold_harvest" in control.cautions
        if product and ("label" not in text or "extension" not in text):
            yield f"controls/{k.control_kind[key]}.toml: {key}: say 'if local extension advises' and 'by the label'."


def grave_causes_have_a_fast_check(k: Knowledge) -> Iterator[str]:
    """Where much is lost or a person can be hurt, one look that tells it is named."""
    for cause in k.causes.values():
        if cause.stake in ("high", "person") and not cause.fast_check:
            yield f"{file_of(cause)}: stake {cause.stake!r} needs fast_check: the one look that tells it at once."
