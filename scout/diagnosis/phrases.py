"""The ways of saying an entry of the vocabulary, as the stems that must be said."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from scout.diagnosis.clauses import NEGATIONS, WELL, clauses
from scout.diagnosis.stems import spoken_words, stem, stems

Kind = Literal["symptom", "circumstance"]
Entry = tuple[Kind, str]
_NEEDED = tuple(
    frozenset(words.split())
    for words in ("one single only just few", "here there same", "still even", "thing", "too", "last year again")
)
"""Words that weigh nothing, but one of each sort must not be missing where a phrase has one."""
_SHORT_PHRASE = 2


@dataclass(frozen=True)
class Phrase:
    """One way of saying an entry."""

    entry: Entry
    stems: frozenset[str]
    denied: frozenset[str]
    """Stems that the phrase itself denies ("no brown inside", "growing well"); said like that, it is seen."""
    needed: frozenset[int]
    """Sorts of light words that it has: "one leaf limp", "still limp"."""
    lasting: bool
    """It may be told of another year and hold today: "tomatoes here last year"."""


def needed(words: Iterable[str]) -> frozenset[int]:
    """Return the numbers of the sorts of light words that are said."""
    return frozenset(n for n, sort in enumerate(_NEEDED) if sort & {*words})


def phrase_of(entry: Entry, text: str, lasting: bool) -> Phrase | None:
    """Return the phrase that a text of the vocabulary makes; None where it says too little."""
    words = spoken_words(text)
    found = frozenset(stems(words, NEGATIONS | WELL))
    if not found or (len(found) == 1 and len(words) > _SHORT_PHRASE):
        return None
    says_well = words[0] in WELL and len(words) <= _SHORT_PHRASE
    denied = words if says_well else _denied(text, words)
    not_there = frozenset(stems(denied, NEGATIONS | WELL))
    return Phrase(entry, found, not_there, needed(words), lasting)


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
