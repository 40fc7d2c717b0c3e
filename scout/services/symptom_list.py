"""The vocabulary of a crop as it is chosen from: by part, by look, or by the grower's own words."""

from scout.knowledge.vocabulary import Symptom
from scout.services.context import Context
from scout.services.views import SymptomView

_PARTS = (
    ("leaf", "Leaves"),
    ("fruit", "Fruit or pods"),
    ("flower", "Flowers"),
    ("stem", "Stem and stem base"),
    ("whole_plant", "Whole plant"),
    ("insect", "Insects and mites"),
    ("root", "Roots"),
    ("ground", "Ground"),
)


def as_view(symptom: Symptom) -> SymptomView:
    """Return a symptom as it is chosen."""
    return SymptomView(symptom.id, symptom.name, symptom.question, symptom.how)


def parts_of_crop(context: Context, crop_id: str) -> tuple[tuple[str, tuple[SymptomView, ...]], ...]:
    """Return each part by name with the symptoms that the crop can show there."""
    known = context.knowledge
    shown = known.symptoms_of(crop_id)
    parts = ((name, tuple(as_view(s) for s in shown if known.part_of[s.id] == part)) for part, name in _PARTS)
    return tuple((name, symptoms) for name, symptoms in parts if symptoms)


def meant_by(context: Context, crop_id: str, words: str) -> tuple[SymptomView, ...]:
    """Return the symptoms that the words may mean, surest first; denied clauses are left out."""
    from scout.diagnosis.words import match_words

    found = match_words(context.knowledge, crop_id, words)
    return tuple(as_view(context.knowledge.symptoms[m.id]) for m in found if m.kind == "symptom" and m.seen)
