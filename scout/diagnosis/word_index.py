"""Which entries of the vocabulary a part of a sentence may mean: phrases found word by word.

A phrase is met as far as its words are said; a stretch of the sentence is explained as far as its words belong to the
entry. Words outside that stretch do not count against it, so that one sentence may hold several signs.
"""

import math
from collections import Counter, defaultdict
from dataclasses import dataclass

from rapidfuzz import fuzz, process

from scout.diagnosis.part_fit import PartFit
from scout.diagnosis.phrases import Entry, Phrase
from scout.diagnosis.said import Hit, Said, Setting
from scout.diagnosis.stems import stem

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
_PART_ALONE = 0.5
_HALF_DENIED = 0.8
"""Where a denial falls on some of its words only, they were hardly said of one thing."""
_LIGHT_MISSING = 0.85
"""Where the phrase has a light word that matters ("one", "still"), and the clause has not."""
_PART_WEIGHT = 0.35
"""A part ("leaves") is often left unsaid, and alone it says little."""


@dataclass
class _Met:
    """How far a phrase is met by the words of a clause."""

    words: dict[str, tuple[float, int]]
    """Stem of the phrase → how alike the word said is, and its number."""
    weight: float
    """Weight of the words met, by their groups, and as they were said."""
    told: float


class WordIndex:
    """Stems → phrases → entries, with the weight of each stem by how rare it is among the entries."""

    def __init__(
        self,
        phrases: list[Phrase],
        bags: dict[Entry, frozenset[str]],
        groups: dict[str, str],
        fit: PartFit,
    ) -> None:
        self._phrases, self._bags, self._groups = phrases, bags, groups
        self._fit, self._parts = fit, fit.parts
        self._where: dict[str, list[int]] = defaultdict(list)
        for number, phrase in enumerate(phrases):
            for one in sorted(phrase.stems):
                self._where[one].append(number)
        self._mates: dict[str, list[str]] = defaultdict(list)
        for one in self._where:
            self._mates[groups.get(one, one)].append(one)
        self._weight = self._weights(len(bags), by_group=True)
        self._exact = self._weights(len(bags), by_group=False)
        self._known = list({*self._where, *groups})
        self._total = [sum(self._weight[s] for s in sorted(phrase.stems)) for phrase in phrases]

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

    def find(self, said: list[Said], setting: Setting, least: float, near: float) -> list[Hit]:
        """Return every entry that the words of one clause may mean, surest first, one hit an entry.

        least: share of a phrase that must have been said for it to be looked at; near: share of the best certainty
        under which nothing is looked for.
        """
        top = 0.0
        best: dict[Entry, Hit] = {}
        named = self._fit.named(said)
        for most, number, met in self._met(said, least):
            if most < near * top:
                break
            phrase = self._phrases[number]
            fit = self._fit.fits(phrase, met.words.keys(), named, setting)
            if most * fit > max(near * top, getattr(best.get(phrase.entry), "certainty", 0.0)):
                hit = self._hit(number, met, said, setting, fit)
                top = max(top, hit.certainty)
                if hit.certainty > getattr(best.get(hit.entry), "certainty", 0.0):
                    best[hit.entry] = hit
        return sorted(best.values(), key=lambda hit: (-hit.certainty, hit.entry))

    def _met(self, said: list[Said], least: float) -> "list[tuple[float, int, _Met]]":
        """Return the phrases of which enough was said, with the certainty they can reach at most, the best first."""
        weights: dict[int, float] = defaultdict(float)
        heard: dict[str, list[tuple[float, int]]] = defaultdict(list)
        for place, word in enumerate(said):
            for one, likeness in word.alike.items():
                heard[one].append((likeness, -place))
                weight = self._weight[one] * likeness
                for number in self._where[one]:
                    weights[number] += weight
        total = self._total
        enough = [number for number, weight in weights.items() if weight >= least * total[number]]
        found = {number: self._meet(number, heard) for number in enough}
        every = sum(max((self._weight[one] for one in word.alike), default=0.0) for word in said)
        out = []
        for number, met in found.items():
            if met.weight >= least * total[number]:
                told = met.told + _BESIDE * max(0.0, every - met.weight)
                most = math.sqrt(met.told / (met.told + total[number] - met.weight)) * told / (told + _DOUBT)
                out.append((most, number, met))
        out.sort(key=lambda one: (-one[0], one[1]))
        return out

    def _meet(self, number: int, heard: dict[str, list[tuple[float, int]]]) -> "_Met":
        """Return how far a phrase is met; each word said stands for one of its stems.

        heard: stem → how alike the words said are, and their numbers, negative.
        """
        stems = self._phrases[number].stems
        pairs = [(likeness, place, one) for one in stems if one in heard for likeness, place in heard[one]]
        words: dict[str, tuple[float, int]] = {}
        used: set[int] = set()
        for likeness, place, one in sorted(pairs, reverse=True):
            if one not in words and place not in used:
                words[one] = (likeness, -place)
                used.add(place)
        weight = sum(self._weight[one] * likeness for one, (likeness, _) in words.items())
        return _Met(words, weight, sum(self._told(one, likeness) for one, (likeness, _) in words.items()))

    def _hit(self, number: int, found: "_Met", said: list[Said], setting: Setting, fit: float) -> Hit:
        phrase, words, told = self._phrases[number], found.words, found.told
        places = frozenset(place for _, place in words.values())
        whole = told + self._total[number] - found.weight
        beside, strange, also = self._between(self._bags[phrase.entry], places, said)
        met = told / whole
        explained = (told + beside) / (told + beside + strange)
        certainty = fit * math.sqrt(met * explained) * (told + beside) / (told + beside + _DOUBT)
        telling = {one: how for one, how in words.items() if one not in self._parts}
        light_missing = not phrase.needed <= setting.needed
        complete = not light_missing and self._complete(phrase, words, setting)
        if not telling:
            certainty *= _PART_ALONE
        elif len(telling) < _ENOUGH_WORDS and not complete:
            certainty *= _ONE_WORD
        tell = telling.keys() | (words.keys() & phrase.denied) or words.keys()
        agree = [said[words[one][1]].denied == (one in phrase.denied) for one in tell]
        if any(agree) and not all(agree):
            certainty *= _HALF_DENIED
        if light_missing:
            certainty *= _LIGHT_MISSING
        return Hit(
            phrase.entry,
            certainty,
            all(agree),
            any(one in phrase.denied for one in tell),
            places,
            places | also,
            complete,
            complete and len(words) == len(phrase.stems) > len(telling),
            not phrase.lasting and any(said[place].unsure for place in places),
        )

    def _complete(self, phrase: Phrase, words: dict[str, tuple[float, int]], setting: Setting) -> bool:
        """Return whether a phrase was said whole; its own part may go unsaid, and after one word be named nearby."""
        part = self._fit.part_of.get(phrase.entry)
        own = part in setting.own | setting.before or len(phrase.stems - self._parts.keys()) > 1
        return all(
            (own and self._parts[one] == part and one not in phrase.denied) or one in words
            if one in self._parts
            else words.get(one, (0.0, 0))[0] >= 1.0
            for one in phrase.stems
        )

    def _between(
        self, bag: frozenset[str], places: frozenset[int], said: list[Said]
    ) -> tuple[float, float, frozenset[int]]:
        """Return what the words between those met add, what they take away, and which of them the entry uses."""
        beside, strange, also = 0.0, 0.0, set()
        for place in range(min(places), max(places) + 1):
            if place not in places:
                alike = said[place].alike
                weight = max((self._weight[one] for one in alike), default=0.5 * self._doubtful)
                known = max((likeness for one, likeness in alike.items() if one in bag), default=0.0)
                beside += weight * known * _BESIDE
                strange += weight * (1.0 - known)
                if known:
                    also.add(place)
        return beside, strange, frozenset(also)

    _doubtful = 4.0

    def alike(self, one: str) -> dict[str, float]:
        """Return the stems of the vocabulary that a said stem may stand for, and how alike they are."""
        found = self._same(one, 1.0)
        if found or len(one) < _SHORTEST_SPELT_WRONG:
            return found
        for word, score, _ in process.extract(one, self._known, scorer=fuzz.ratio, score_cutoff=_SPELLING, limit=3):
            for mate, likeness in self._same(word, score / 100.0).items():
                found[mate] = max(found.get(mate, 0.0), likeness)
        return found

    def joined(self, word: str) -> dict[str, float]:
        """Return what two words written apart mean as one: "black fly"."""
        one = stem(word) if word else ""
        return self._same(one, 1.0) if one in self._where or one in self._groups else {}

    def _same(self, one: str, likeness: float) -> dict[str, float]:
        mates = self._mates.get(self._groups.get(one, one), [])
        return {mate: likeness * (1.0 if mate == one else _SAME_GROUP) for mate in mates}
