"""How well the parts that a clause speaks of fit an entry of the vocabulary: fruit words give no leaf sign."""

from collections.abc import Set
from dataclasses import dataclass

from scout.diagnosis.phrases import Entry, Phrase
from scout.diagnosis.said import Said, Setting

_OTHER_PART = 0.6
_BESIDE = 0.8
"""Where the part is only said to be near ("split from the stem down"), or the whole plant is meant and a fruit was
spoken of. Our choice, as the figures around it."""
_BEFORE = 0.8
"""Where another part was spoken of before."""
_UNSAID = {"leaf": 1.0, "stem": 0.95, "fruit": 0.93, "root": 0.93, "flower": 0.93}
"""Who names no part mostly speaks of leaves."""


@dataclass(frozen=True)
class Named:
    """What words name."""

    parts: frozenset[str]
    aside: frozenset[str]
    """Parts that only say where."""
    animal: bool


@dataclass(frozen=True)
class PartFit:
    """The parts of the vocabulary of a crop."""

    part_of: dict[Entry, str]
    parts: dict[str, str]
    """Stem → the part that it names."""
    groups: dict[str, str]
    animals: frozenset[str]
    """Stems of which one must be said where an animal is meant."""

    def named(self, said: list[Said]) -> Named:
        """Return what the words name."""
        return Named(
            frozenset(one.part for one in said if one.part and not one.aside),
            frozenset(one.part for one in said if one.part and one.aside),
            any(self.groups.get(one.stem, one.stem) in self.animals for one in said),
        )

    def fits(self, phrase: Phrase, met: Set[str], named: Named, setting: Setting) -> float:
        """Return how well the parts spoken of fit an entry, 0-1; met: the stems of the phrase that were said."""
        part = self.part_of.get(phrase.entry)
        if part in (None, "insect"):
            animal = part is None or named.animal
            return self._fits_own(phrase, met, named.parts, setting) * (1.0 if animal else _OTHER_PART)
        if part in named.parts:
            return 1.0
        if named.parts:
            return _BESIDE if part in named.aside else _OTHER_PART
        spoken_of = setting.own or setting.before
        if part in spoken_of or not spoken_of:
            return 1.0 if spoken_of else _UNSAID[part]
        return _BEFORE

    def _fits_own(self, phrase: Phrase, met: Set[str], named: Set[str], setting: Setting) -> float:
        """Return how well an entry of no part fits: by the parts that its phrase names."""
        own = phrase.stems & self.parts.keys()
        circumstance = phrase.entry[0] == "circumstance"
        if own and not own & met:
            return _OTHER_PART if named else _BESIDE if circumstance else 1.0
        of_whole = not (own or circumstance or setting.whole) and phrase.entry not in self.part_of
        spoken_of = named or setting.before
        return _BESIDE if of_whole and spoken_of and "leaf" not in spoken_of else 1.0
