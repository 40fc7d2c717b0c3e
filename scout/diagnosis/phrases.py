"""The ways of saying an entry of the vocabulary, as the stems that must be said."""

from dataclasses import dataclass
from typing import Literal

from scout.diagnosis.clauses import NEGATIONS, WELL, clauses
from scout.diagnosis.stems import spoken_words, stem, stems

Kind = Literal["symptom", "circumstance"]
Entry = tuple[Kind, str]
NARROW = frozenset("one single only just few".split())
"""Words that say how little it is; they weigh nothing, but must not be missing."""
_SHORT_PHRASE = 2


@dataclass(frozen=True)
class Phrase:
    """One way of saying an entry."""

    entry: Entry
    stems: frozenset[str]
    denied: frozenset[str]
    """Stems that the phrase itself denies ("no brown inside", "growing well"); said like that, it is seen."""
    everyday: bool = False
    """It has lost words that matter ("just planted"), so the word left is a hint."""
    narrow: bool = False
    """It speaks of one or a few: "one leaf limp"."""


def phrase_of(entry: Entry, text: str) -> Phrase | None:
    """Return the phrase that a text of the vocabulary makes; None where it says too little."""
    words = spoken_words(text)
    found = frozenset(stems(words, NEGATIONS | WELL))
    if not found or (len(found) == 1 and len(words) > _SHORT_PHRASE):
        return None
    says_well = words[0] in WELL and len(words) <= _SHORT_PHRASE
    denied = words if says_well else _denied(text, words)
    not_there = frozenset(stems(denied, NEGATIONS | WELL))
    return Phrase(entry, found, not_there, is_everyday(words), bool(NARROW & {*words}))


def _denied(text: str, words: list[str]) -> list[str]:
    if not (NEGATIONS | WELL) & {*words}:
        return []
    return [one.words[n] for one in clauses(text) for n in one.denied]


def is_everyday(words: list[str]) -> bool:
    """Return whether a phrase would lose words that matter if its everyday words were left out."""
    own = [word for word in words if word not in NEGATIONS]
    return len(stems(own, WELL)) < min(2, len(own) - (words[-1] in WELL))


def grouped(groups: list[tuple[str, tuple[str, ...]]]) -> dict[str, str]:
    """Return stem → the stem that stands for its group."""
    return {stem(one): stem(word) for word, same in groups for one in (word, *same)}
