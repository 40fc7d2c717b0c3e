"""Everything that is known, as one checked object."""

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from scout.errors import NotFound
from scout.knowledge.cause_file import Cause, Pattern
from scout.knowledge.control_file import ActionMark, Caution, Control, Enemy, Stop, Tie
from scout.knowledge.crop_file import Crop
from scout.knowledge.schema import ControlKind, Part, ScaleFile, Source
from scout.knowledge.vocabulary import Circumstance, Condition, Season, Symptom, WordGroup


@dataclass(frozen=True)
class Knowledge:
    """The knowledge base; every mapping is id → entry, in file order."""

    folder: Path
    hash: str
    """Hash of all file contents; kept with every ranking shown."""
    sources: dict[str, Source]
    scales: ScaleFile
    crops: dict[str, Crop]
    symptoms: dict[str, Symptom]
    part_of: dict[str, Part]
    """Symptom id → the part it is seen on."""
    circumstances: dict[str, Circumstance]
    patterns: tuple[Pattern, ...]
    conditions: dict[str, Condition]
    seasons: dict[str, Season]
    causes: dict[str, Cause]
    controls: dict[str, Control]
    control_kind: dict[str, ControlKind]
    cautions: dict[str, Caution]
    stops: tuple[Stop, ...]
    ties: tuple[Tie, ...]
    enemies: dict[str, Enemy]
    word_groups: tuple[WordGroup, ...]
    """Words that growers use for one thing, for the plain-words search."""
    action_marks: dict[str, ActionMark]

    def crop(self, word: str) -> Crop:
        """Return the crop by id or published alias; NotFound lists what there is."""
        found = self._crop_words.get(word.strip().casefold().replace(" ", "_"))
        if found is None:
            raise NotFound(f"There is no crop {word!r}; known are {', '.join(self.crops)}.")
        return self.crops[found]

    def symptom(self, word: str) -> Symptom:
        """Return the symptom by id, name or published alias; a retired id leads to its replacement."""
        found = self._symptom_words.get(word.strip().casefold())
        if found is None:
            raise NotFound(f"There is no symptom {word!r}; 'bedwalk knowledge list symptoms' prints those there are.")
        symptom = self.symptoms[found]
        return self.symptom(symptom.replaced_by) if symptom.replaced_by else symptom

    def causes_of(self, crop: str) -> tuple[Cause, ...]:
        """Return the causes in use that the crop can have, in file order."""
        return self._by_crop.get(crop, ())

    def symptoms_of(self, crop: str) -> tuple[Symptom, ...]:
        """Return the symptoms in use that can be seen on the crop."""
        return tuple(s for s in self.symptoms.values() if (not s.crops or crop in s.crops) and s.status != "retired")

    @cached_property
    def pulled_for(self) -> frozenset[str]:
        """Return the causes whose controls include pulling plants, which needs proof."""
        needs = {key: control.needs for key, control in self.controls.items()}
        return frozenset(
            cause.id
            for cause in self.causes.values()
            if any("proof_seen" in needs.get(action.control, ()) for action in cause.do)
        )

    @cached_property
    def _by_crop(self) -> dict[str, tuple[Cause, ...]]:
        return {
            crop: tuple(c for c in self.causes.values() if crop in c.common and c.status != "retired")
            for crop in self.crops
        }

    @cached_property
    def _crop_words(self) -> dict[str, str]:
        words = {crop.id: crop.id for crop in self.crops.values()}
        for crop in self.crops.values():
            for alias in (crop.name, *crop.aliases):
                words.setdefault(alias.casefold().replace(" ", "_"), crop.id)
        return words

    @cached_property
    def _symptom_words(self) -> dict[str, str]:
        words = {symptom.id: symptom.id for symptom in self.symptoms.values()}
        for symptom in self.symptoms.values():
            for alias in (symptom.name, *symptom.synonyms):
                words.setdefault(alias.casefold(), symptom.id)
        return words
