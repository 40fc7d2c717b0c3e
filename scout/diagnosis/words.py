"""A grower's own words → symptoms and circumstances, word by word, with synonyms and spelling tolerance.

Whole-phrase scorers rank "yellow fruit shoulders" above "lower leaves turning yellow" for "yelow leafs at botom";
here every word is matched for itself and weighed by how rare it is in the vocabulary.
"""

import math
import re
from collections import Counter, defaultdict
from dataclasses import dataclass
from typing import Literal

from rapidfuzz import fuzz, process

from scout.knowledge.base import Knowledge

SURE = 0.75
"""Certainty from which a match is used without being confirmed on screen (scripts only). Our choice."""
SHOWN = 0.4
"""Certainty from which a match is offered for confirmation. Our choice."""
_SPELLING = 80.0
_ONE_WORD = 0.8
_SHORT_PHRASE = 2
_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?")
_CLAUSE = re.compile(r"[,.;:!?\n]|\bbut\b|\bthough\b|\balthough\b|\bwhile\b|\bhowever\b|(?=\band no\b)|(?=\bwith no\b)")
_NEGATIONS = frozenset(
    "no not none never without isn't aren't don't doesn't didn't wasn't nothing hasn't haven't".split()
)
_WELL = frozenset("fine healthy clean normal ok okay good perfect well".split())
_FILLER = frozenset(
    "a an the is are was were be been it its of on in at to with and or some there i my this that these those has have"
    " had very quite all just really so as from for they them look looks looking like got get gets getting see seen"
    " saw seem seems most one ones small big little turn turning turned goes going also now no not none never".split()
)
_SAME = {
    "bottom": "low", "lower": "low", "lowest": "low", "upper": "top", "topmost": "top", "oldest": "old", "older": "old",
    "newest": "new", "newer": "new", "youngest": "new", "young": "new", "leaf": "leav", "leave": "leav",
    "foliage": "leav", "underside": "beneath", "underneath": "beneath", "under": "beneath", "bug": "insect",
    "circle": "ring", "concentric": "ring", "bullseye": "ring", "target": "ring", "dot": "speck", "droopy": "limp",
    "droop": "limp", "wilt": "limp", "floppy": "limp", "hole": "hole", "eaten": "chew", "chew": "chew",
    "curl": "curl", "fuzzy": "fuzz", "fluff": "fuzz", "mold": "fuzz", "mould": "fuzz", "powdery": "powder",
    "skinny": "thin", "narrow": "thin", "pointy": "point", "taper": "taper", "grey": "gray",
}  # fmt: skip


@dataclass(frozen=True)
class Match:
    """One thing that the words may mean."""

    kind: Literal["symptom", "circumstance"]
    id: str
    certainty: float
    """0-1: share of the weight of the words that the entry accounts for, both ways."""
    seen: bool
    """False: the words deny it."""
    words: str
    """The part of the text that it was matched to."""


def match_words(knowledge: Knowledge, crop: str, text: str, most: int = 8) -> tuple[Match, ...]:
    """Return what `text` may mean for this crop, surest first; a denied clause never yields something seen."""
    index = _index(knowledge.hash, crop) or _remember(knowledge, crop)
    best: dict[tuple[str, str], Match] = {}
    for clause in _CLAUSE.split(text.casefold()):
        tokens = _WORD.findall(clause)
        denied = _denies(tokens)
        for (kind, entry), (certainty, agrees) in index.score(_stems(tokens), denied).items():
            if denied and agrees and certainty < SURE:
                continue  # one denial is like another by a word or two: only a close match is the same one
            if certainty >= SHOWN and certainty > getattr(best.get((kind, entry)), "certainty", 0.0):
                best[kind, entry] = Match(kind, entry, round(certainty, 3), agrees, clause.strip())  # type: ignore[arg-type]
    ordered = sorted(best.values(), key=lambda m: (-m.certainty, m.id))
    return tuple(ordered[:most])


def sure_matches(knowledge: Knowledge, crop: str, text: str) -> tuple[Match, ...]:
    """Return the one surest match of each part of the text, where it is sure: for scripts, which nobody confirms."""
    best: dict[str, Match] = {}
    for match in match_words(knowledge, crop, text, most=100):
        if match.certainty >= SURE:
            best.setdefault(match.words, match)
    return tuple(best.values())


def _denies(tokens: list[str]) -> bool:
    """Return whether words say that something is not there, or that all is well."""
    return bool(set(tokens) & _NEGATIONS) or bool(set(tokens) & _WELL)


def _named_by_denial(words: list[str]) -> bool:
    """Return whether a phrase of the vocabulary is itself a denial ("no roots, only leaves", "growing well").

    Said like that, it is seen.
    """
    return bool(words) and (words[0] in _NEGATIONS or words[-1] in _WELL)


def _stems(tokens: list[str]) -> list[str]:
    stems = [
        _stem(token) for token in tokens if token not in _FILLER and token not in _WELL and token not in _NEGATIONS
    ]
    return list(dict.fromkeys(stems))


def _stem(word: str) -> str:
    if word in _SAME:
        return _SAME[word]
    for ending, least in (("ness", 4), ("ings", 3), ("ing", 3), ("ies", 3), ("ish", 4), ("ed", 3), ("es", 4), ("s", 3)):
        if word.endswith(ending) and len(word) - len(ending) >= least:
            word = word[: -len(ending)]
            break
    return _SAME.get(word, word)


class _Index:
    """Inverted index: stem → phrases, phrases → entries."""

    def __init__(self, entries: dict[tuple[str, str], list[str]]) -> None:
        self.phrases: list[tuple[tuple[str, str], frozenset[str], bool]] = []
        self.where: dict[str, list[int]] = defaultdict(list)
        for entry, texts in entries.items():
            for text in texts:
                words = _WORD.findall(text.casefold())
                stems = frozenset(_stems(words))
                if len(stems) > 1 or len(words) <= _SHORT_PHRASE:  # a phrase that is all filler but one says little
                    for stem in stems:
                        self.where[stem].append(len(self.phrases))
                    self.phrases.append((entry, stems, _named_by_denial(words)))
        spread = Counter(stem for stem in self.where for _ in {self.phrases[p][0] for p in self.where[stem]})
        total = max(1, len(entries))
        self.weight = {stem: math.log(1.0 + total / spread[stem]) for stem in self.where}
        self.vocabulary = list(self.where)
        self._unknown = math.log(1.0 + total)

    def score(self, stems: list[str], denied: bool) -> dict[tuple[str, str], tuple[float, bool]]:
        """Return entry → certainty for the words of one clause, and whether the clause says that it is so."""
        alike = [self._alike(stem) for stem in stems]
        asked = sum(max((self.weight[s] for s, _ in found), default=self._unknown * 0.5) for found in alike)
        if not asked:
            return {}
        met: dict[int, dict[str, float]] = defaultdict(dict)
        for found in alike:
            for stem, likeness in found:
                for phrase in self.where[stem]:
                    met[phrase][stem] = max(met[phrase].get(stem, 0.0), likeness)
        scores: dict[tuple[str, str], tuple[float, bool]] = {}
        for phrase, stems_met in met.items():
            entry, all_stems, denies = self.phrases[phrase]
            hit = sum(self.weight[s] * likeness for s, likeness in stems_met.items())
            there = sum(self.weight[s] for s in all_stems)
            recall, precision = min(1.0, hit / asked), hit / there
            certainty = math.sqrt(recall * precision)
            if len(stems_met) == 1 and len(all_stems) > 1:
                certainty *= _ONE_WORD  # one word of several in common is a hint, not a match
            scores[entry] = max(scores.get(entry, (0.0, False)), (certainty, denied == denies))
        return scores

    def _alike(self, stem: str) -> list[tuple[str, float]]:
        if stem in self.where:
            return [(stem, 1.0)]
        if len(stem) < 4:
            return []
        found = process.extract(stem, self.vocabulary, scorer=fuzz.ratio, score_cutoff=_SPELLING, limit=3)
        return [(word, score / 100.0) for word, score, _ in found]


_built: dict[tuple[str, str], _Index] = {}


def _index(digest: str, crop: str) -> _Index | None:
    return _built.get((digest, crop))


def _remember(knowledge: Knowledge, crop: str) -> _Index:
    entries: dict[tuple[str, str], list[str]] = {}
    for symptom in knowledge.symptoms_of(crop):
        part = knowledge.part_of[symptom.id].replace("_", " ")
        texts = [symptom.name, *symptom.synonyms, symptom.id.split(".")[1].replace("_", " ")]
        entries["symptom", symptom.id] = [*texts, f"{part} {symptom.id.split('.')[1].replace('_', ' ')}"]
    for circumstance in knowledge.circumstances.values():
        entries["circumstance", circumstance.id] = [circumstance.name, *circumstance.synonyms]
    index = _built[knowledge.hash, crop] = _Index(entries)
    return index
