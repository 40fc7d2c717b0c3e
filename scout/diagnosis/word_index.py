"""Which entries of the vocabulary a part of a sentence may mean: phrases found word by word.

A phrase is met as far as its words are said; a stretch of the sentence is explained as far as its words belong to the
entry. Words outside that stretch do not count against it, so that one sentence may hold several signs.
"""

import math
from collections import Counter, defaultdict
from dataclasses import dataclass
from typing import Literal

from rapidfuzz import fuzz, process

from scout.diagnosis.stems import spoken_words, stem, stems

Kind = Literal["symptom", "circumstance"]
Entry = tuple[Kind, str]

_SPELLING = 80.0
_SHORTEST_SPELT_WRONG = 4
_SAME_GROUP = 0.85
"""How alike two words of one group are; the very word counts for more."""
_BESIDE = 0.6
"""What a word counts for that the entry uses in another phrase. Our choice, as the figures around it."""
_DOUBT = 1.6
"""Weight of words at which a complete match is still a matter of doubt."""
_ENOUGH_WORDS = 2
_ONE_WORD = 0.9
"""One word of several, or one that is only alike, is a hint."""
_OTHER_PART = 0.6
_PART_UNSAID = {"leaf": 1.0, "stem": 0.95, "fruit": 0.93, "root": 0.93, "flower": 0.93}
"""Who names no part mostly speaks of leaves."""
_PART_WEIGHT = 0.35
"""A part ("leaves") is often left unsaid, and alone it says little."""
_SHORT_PHRASE = 2


@dataclass(frozen=True)
class Phrase:
    """One way of saying an entry."""

    entry: Entry
    stems: frozenset[str]
    denies: bool
    """The phrase is itself a denial ("no brown inside", "growing well"); said like that, it is seen."""


@dataclass(frozen=True)
class Hit:
    """An entry that a stretch of the words may mean."""

    entry: Entry
    certainty: float
    denies: bool
    places: frozenset[int]
    """Numbers of the words it explains."""
    weight: float
    """How telling the words are that it was met by; parts are left out."""
    words_n: int
    """How many words other than parts it was met by."""
    complete: bool
    """Every word of the phrase but the part was said, and said as it stands there."""
    alone: bool
    """It is complete, and nothing else was said."""


class WordIndex:
    """Stems → phrases → entries, with the weight of each stem by how rare it is among the entries."""

    def __init__(
        self,
        phrases: list[Phrase],
        bags: dict[Entry, frozenset[str]],
        groups: dict[str, str],
        part_of: dict[Entry, str],
        parts: dict[str, str],
        animals: frozenset[str],
    ) -> None:
        self._phrases, self._bags, self._groups = phrases, bags, groups
        self._part_of, self._parts, self._animals = part_of, parts, animals
        self._where: dict[str, list[int]] = defaultdict(list)
        for number, phrase in enumerate(phrases):
            for one in phrase.stems:
                self._where[one].append(number)
        self._mates: dict[str, list[str]] = defaultdict(list)
        for one in self._where:
            self._mates[groups.get(one, one)].append(one)
        self._weight = self._weights(len(bags), by_group=True)
        self._exact = self._weights(len(bags), by_group=False)
        self._known = list({*self._where, *groups})
        self._total = [sum(self._weight[s] for s in phrase.stems) for phrase in phrases]

    def _weights(self, entries_n: int, by_group: bool) -> dict[str, float]:
        """Return how telling each stem is: by the entries that use it, or that use any word of its group."""
        name = self._groups if by_group else {}
        spread = Counter(one for bag in self._bags.values() for one in {name.get(s, s) for s in bag})
        return {
            one: math.log(1.0 + max(1, entries_n) / spread[name.get(one, one)])
            * (_PART_WEIGHT if one in self._parts else 1.0)
            for one in self._where
        }

    def _told(self, one: str, likeness: float) -> float:
        return self._exact[one] if likeness >= 1.0 else self._weight[one] * likeness

    def find(self, said: list[str], least: float) -> list[Hit]:
        """Return every entry that the stems of one clause may mean, surest first, one hit an entry.

        least: share of a phrase that must have been said for it to be looked at.
        """
        alike = [self._alike(one) for one in said]
        met: dict[int, dict[str, tuple[float, int]]] = defaultdict(dict)
        for place, found in enumerate(alike):
            for one, likeness in found.items():
                for number in self._where[one]:
                    if likeness > met[number].get(one, (0.0, 0))[0]:
                        met[number][one] = (likeness, place)
        best: dict[Entry, Hit] = {}
        for number, words in met.items():
            if sum(self._weight[one] * likeness for one, (likeness, _) in words.items()) < least * self._total[number]:
                continue  # too little of the phrase was said
            hit = self._hit(number, words, said, alike)
            if hit.certainty > getattr(best.get(hit.entry), "certainty", 0.0):
                best[hit.entry] = hit
        return sorted(best.values(), key=lambda hit: (-hit.certainty, hit.entry))

    def _hit(
        self, number: int, words: dict[str, tuple[float, int]], said: list[str], alike: list[dict[str, float]]
    ) -> Hit:
        phrase = self._phrases[number]
        places = {place for _, place in words.values()}
        told = sum(self._told(one, likeness) for one, (likeness, _) in words.items())
        whole = told + sum(self._weight[one] * (1.0 - words.get(one, (0.0, 0))[0]) for one in phrase.stems)
        bag = self._bags[phrase.entry]
        beside, strange = 0.0, 0.0
        for place in range(min(places), max(places) + 1):
            if place not in places:
                weight = max((self._weight[one] for one in alike[place]), default=0.5 * self._doubtful)
                known = max((likeness for one, likeness in alike[place].items() if one in bag), default=0.0)
                beside += weight * known * _BESIDE
                strange += weight * (1.0 - known)
                if known:
                    places = places | {place}
        met = told / whole
        explained = (told + beside) / (told + beside + strange)
        sureness = math.sqrt(met * explained) * (told + beside) / (told + beside + _DOUBT)
        telling = [self._told(one, likeness) for one, (likeness, _) in words.items() if one not in self._parts]
        certainty = sureness * self._fits_part(phrase.entry, said)
        complete = all(one in self._parts or words.get(one, (0.0, 0))[0] >= 1.0 for one in phrase.stems)
        if len(telling) < _ENOUGH_WORDS and not complete:
            certainty *= _ONE_WORD
        alone = complete and len(places) == len(said)
        return Hit(
            phrase.entry, certainty, phrase.denies, frozenset(places), sum(telling), len(telling), complete, alone
        )

    _doubtful = 4.0

    def _fits_part(self, entry: Entry, said: list[str]) -> float:
        part = self._part_of.get(entry)
        named = {self._parts[one] for one in said if one in self._parts}
        if part == "insect":
            return 1.0 if any(self._groups.get(one, one) in self._animals for one in said) else _OTHER_PART
        if part is None or part in named:
            return 1.0
        return _OTHER_PART if named else _PART_UNSAID[part]

    def _alike(self, one: str) -> dict[str, float]:
        """Return the stems of the vocabulary that a said stem may stand for, and how alike they are."""
        found = self._same(one, 1.0)
        if found or len(one) < _SHORTEST_SPELT_WRONG:
            return found
        for word, score, _ in process.extract(one, self._known, scorer=fuzz.ratio, score_cutoff=_SPELLING, limit=3):
            for mate, likeness in self._same(word, score / 100.0).items():
                found[mate] = max(found.get(mate, 0.0), likeness)
        return found

    def _same(self, one: str, likeness: float) -> dict[str, float]:
        mates = self._mates.get(self._groups.get(one, one), [])
        return {mate: likeness * (1.0 if mate == one else _SAME_GROUP) for mate in mates}


def phrase_of(entry: Entry, text: str, negations: frozenset[str], well: frozenset[str]) -> Phrase | None:
    """Return the phrase that a text of the vocabulary makes; None where it says too little."""
    words = spoken_words(text)
    found = frozenset(stems(words, negations | well))
    if not found or (len(found) == 1 and len(words) > _SHORT_PHRASE):
        return None
    return Phrase(entry, found, bool(negations & set(words)) or words[-1] in well)


def grouped(groups: list[tuple[str, tuple[str, ...]]]) -> dict[str, str]:
    """Return stem → the stem that stands for its group."""
    return {stem(one): stem(word) for word, same in groups for one in (word, *same)}
