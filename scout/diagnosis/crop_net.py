"""The part of the network that does not depend on what was seen: one table a crop, made once."""

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Cause, Clue
from scout.knowledge.vocabulary import Symptom

if TYPE_CHECKING:
    from scout.diagnosis.network import Array


@dataclass(frozen=True)
class CropNet:
    """Causes and symptoms of one crop, and how often each goes with the other."""

    causes: tuple[Cause, ...]
    symptoms: tuple[Symptom, ...]
    """The symptoms that can be seen on the crop and that a cause of it shows."""
    clues: tuple[tuple[Clue, ...], ...]
    """The clues of each cause that hold on this crop."""
    base: "Array"
    """Log-odds of each cause before anything is known, (n,)."""
    strength: "Array"
    """How often cause i shows symptom s, (n, S); the last column is a symptom no cause shows."""
    leak: "Array"
    """How often symptom s is seen with none of the causes, (S,)."""

    @cached_property
    def column(self) -> dict[str, int]:
        """Return symptom id → its column."""
        return {symptom.id: number for number, symptom in enumerate(self.symptoms)}

    @cached_property
    def shown(self) -> tuple[frozenset[str], ...]:
        """Return the symptom ids among the clues of each cause."""
        return tuple(frozenset(clue.symptom for clue in each if clue.symptom) for each in self.clues)

    @cached_property
    def told_by(self) -> dict[tuple[str, str], list[tuple[int, Clue]]]:
        """Return a circumstance or condition → the causes it is a clue of, by number, with the clue."""
        told: dict[tuple[str, str], list[tuple[int, Clue]]] = {}
        for number, each in enumerate(self.clues):
            for clue in each:
                if clue.circumstance or clue.condition:
                    kind = "circumstance" if clue.circumstance else "condition"
                    told.setdefault((kind, clue.subject), []).append((number, clue))
        return told

    def columns(self, symptoms: tuple[str, ...]) -> list[int]:
        """Return the columns of some symptoms; one that no cause of the crop shows has the last, empty column."""
        return [self.column.get(s, len(self.symptoms)) for s in symptoms]


def crop_net(knowledge: Knowledge, crop: str) -> CropNet:
    """Return the network of a crop, made at the first call for this knowledge."""
    key = (knowledge.hash, crop)
    if key not in _made:
        _made[key] = _make(knowledge, crop)
    return _made[key]


def clues_on(knowledge: Knowledge, cause: Cause, crop: str) -> tuple[Clue, ...]:
    """Return the clues of a cause on a crop: its own, what these imply, and those of its kind (patterns.toml)."""
    own = tuple(clue for clue in cause.clues if not clue.crops or crop in clue.crops)
    told = {clue.circumstance for clue in own}
    implied = []
    for clue in own:
        circumstance = knowledge.circumstances.get(clue.circumstance or "")
        implies = circumstance.implies if circumstance else None
        if implies and implies not in told and clue.how_often in _USUAL:
            implied.append(clue.model_copy(update={"circumstance": implies}))
            told.add(implies)
    of_kind = [  # checked already, as a pattern
        Clue.model_construct(circumstance=pattern.circumstance, how_often=pattern.how_often, source=pattern.source)
        for pattern in knowledge.patterns
        if pattern.fits(cause) and pattern.circumstance not in told
    ]
    return (*own, *implied, *of_kind)


_USUAL = ("almost_always", "usually", "often")
_made: dict[tuple[str, str], CropNet] = {}


def _make(knowledge: Knowledge, crop: str) -> CropNet:
    import numpy as np

    causes = knowledge.causes_of(crop)
    clues = tuple(clues_on(knowledge, cause, crop) for cause in causes)
    shown = {clue.symptom for each in clues for clue in each}
    symptoms = tuple(s for s in knowledge.symptoms_of(crop) if s.id in shown)
    words, background = knowledge.scales.frequency.words, knowledge.scales.background.words
    column = {symptom.id: number for number, symptom in enumerate(symptoms)}
    strength = np.zeros((len(causes), len(symptoms) + 1))
    for row, each in enumerate(clues):
        for clue in each:
            if clue.symptom in column:
                strength[row, column[clue.symptom]] = words[clue.how_often]
    common = knowledge.scales.commonness.words
    chance = np.array([common[cause.common[crop]] for cause in causes])
    leak = np.array([background[symptom.background] for symptom in symptoms])
    return CropNet(causes, symptoms, clues, np.log(chance / (1.0 - chance)), strength, leak)
