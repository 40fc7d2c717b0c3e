"""Rules of the knowledge check about what a grower is told to do; design: what the program must never say."""

import re
from collections.abc import Iterator

from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import file_of

_DOSE = re.compile(
    r"\b\d+([.,]\d+)?\s*(ml|millilit(er|re)s?|g/l|oz|ounces?|tablespoons?|teaspoons?|tbsp|tsp|ppm|parts? (in|to))\b",
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
        yield from ((file_of(cause), text, bitter) for text in texts if text)
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
