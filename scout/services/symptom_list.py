"""The vocabulary of a crop as it is chosen from: the likeliest, by part, by look, or by the grower's own words."""

from itertools import islice

from scout.knowledge.vocabulary import Symptom
from scout.services.context import Context
from scout.services.garden import Planted, planted_as
from scout.services.site import site_of
from scout.services.views import SymptomView

FIRST_OFFERED_N = 8
"""As many as fit a phone's first page."""
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


def likeliest(context: Context, planting_id: str) -> tuple[SymptomView, ...]:
    """Return the few signs of trouble that are likeliest at a planting at this stage of the plants and the season.

    Those that show in passing only: what needs a knife, a lens or another hour is found by its part.
    """
    signs = _expected(context, planted_as(context, planting_id))
    shown = (as_view(sign) for sign in signs if sign.kind != "quality" and sign.effort in ("glance", "turn_leaf"))
    return tuple(islice(shown, FIRST_OFFERED_N))


def parts_of(context: Context, planting_id: str) -> tuple[tuple[str, tuple[SymptomView, ...]], ...]:
    """Return each part by name with the signs that a cause or a warning of the crop knows there, likeliest first."""
    known = context.knowledge
    plant = planted_as(context, planting_id)
    warned = [known.symptoms[stop.symptom] for stop in known.stops if plant.crop.bitter_stop]
    signs = dict.fromkeys((*_expected(context, plant), *warned))
    parts = ((name, tuple(as_view(s) for s in signs if known.part_of[s.id] == part)) for part, name in _PARTS)
    return tuple((name, symptoms) for name, symptoms in parts if symptoms)


def _expected(context: Context, plant: Planted) -> list[Symptom]:
    from scout.diagnosis.conditions import season_on
    from scout.diagnosis.evidence import Evidence
    from scout.diagnosis.expected import signs_expected

    site = site_of(context)
    season = season_on(context.knowledge, context.today, site.last_frost, site.first_frost)
    evidence = Evidence(crop=plant.crop.id, stage=plant.stage, season=season)
    return [sign for sign, _ in signs_expected(context.knowledge, evidence)]


def meant_by(context: Context, crop_id: str, words: str) -> tuple[SymptomView, ...]:
    """Return the symptoms that the words may mean, surest first; denied clauses are left out."""
    from scout.diagnosis.words import match_words

    found = match_words(context.knowledge, crop_id, words)
    return tuple(as_view(context.knowledge.symptoms[m.id]) for m in found if m.kind == "symptom" and m.seen)
