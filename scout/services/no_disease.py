"""What the causes page says of disease: no sign of it, and where nobody looked."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from scout.services.garden import Planted
from scout.services.spoken import NOT_LIVING

if TYPE_CHECKING:
    from scout.diagnosis.evidence import Evidence
    from scout.services.answer_shape import Answer

_PLACES = {
    "newest_leaf": "newest leaves",
    "underside": "undersides of leaves",
    "lowest_leaves": "lowest leaves",
    "growing_tip": "tips",
}
"""Where disease of leaf and shoot shows, in the order in which it is asked for."""
_NAMED = 2


def disease_lines(plant: Planted, evidence: "Evidence", answer: "Answer") -> tuple[str, ...]:
    """Return that nothing living shows, with the places nobody looked at; empty where that cannot be said."""
    if answer.stop is not None or answer.cannot_tell is not None or not evidence.seen:
        return ()
    if answer.called_sick is None or answer.called_sick >= NOT_LIVING:
        return ()
    return (no_disease(*_places(plant, evidence)),)


def no_disease(looked: Sequence[str], missed: Sequence[str]) -> str:
    """Return that nothing living shows, and where nobody looked: what was not looked at is never called clean."""
    if not looked and missed:
        return f"No sign of disease so far, but no leaf was looked at: {_listed(missed)} first."
    note = f" ({_listed(missed)}: not looked at)" if missed else ""
    return f"No sign of disease in what you looked at{note}."


def _places(plant: Planted, evidence: "Evidence") -> tuple[list[str], list[str]]:
    """Return the places of leaf and shoot that were looked at lately, and those of this stage that were not."""
    told = {*evidence.seen, *evidence.not_seen}
    here = [look for look in plant.crop.looks if plant.stage is None or plant.stage in look.stages]
    looked = {look.place for look in here if told & set(look.symptoms)}
    places = [place for place in _PLACES if any(look.place == place for look in here)]
    return [_PLACES[p] for p in places if p in looked], [_PLACES[p] for p in places if p not in looked]


def _listed(places: Sequence[str]) -> str:
    return " and ".join(places[:_NAMED])
