"""A grower's own words → symptoms and circumstances, clause by clause, with synonyms and spelling tolerance.

A clause may hold several signs: the surest is taken, its words are set aside, and what is left is heard again. What a
clause denies is never something seen.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from scout.diagnosis.clauses import Clause, clauses
from scout.diagnosis.phrases import Entry, needed
from scout.diagnosis.said import Hit, Said, Setting
from scout.diagnosis.said_counts import counted
from scout.diagnosis.spoken_vocabulary import Vocabulary, everyday_hit, vocabulary_of
from scout.knowledge.base import Knowledge

SURE = 0.74
"""Certainty from which a match is used without being confirmed on screen (scripts only). Our choice: on development
sentences every lower bound added more wrong signs than right ones."""
SURE_COMPLETE, SURE_WITH_PART, CLEARLY_AHEAD = 0.66, 0.62, 0.85
"""The same where every word of a name was said and the next reading is far behind, and where its part was said as well.
Our choice."""
SHOWN = 0.25
"""Certainty from which a match is offered for confirmation. Our choice."""
CLOSE = 0.6
"""Certainty from which a denied clause is taken to be a sign that is itself named by a denial. Our choice."""
AHEAD = 0.95
"""Share of a match's certainty that the next for the same words must stay under: what the words tell apart no better is
offered together, and nothing of it is sure. Our choice."""
_FIRST, _LATER = (0.3, 0.5), (0.6, 0.7)
"""Share of a phrase that must have been said for it to be looked at, and how near it must come to the best: at first,
and in what is left of a clause, where nothing but the best is offered."""
_SIGNS_IN_A_CLAUSE = 4
_PLANT, _VINE = frozenset("plant plants bush bushes".split()), frozenset("vine vines runner runners".split())
"""Whoever says these and no part speaks of the whole plant; a vine that flops is one."""


@dataclass(frozen=True)
class Match:
    """One thing that the words may mean."""

    kind: Literal["symptom", "circumstance"]
    id: str
    certainty: float
    """0-1: how much of the entry was said, how much of the words it explains, and how telling they are."""
    seen: bool
    """False: the words deny it."""
    words: str
    """The part of the text that it was matched to."""


@dataclass(frozen=True)
class _Heard:
    match: Match
    hit: Hit
    taken: bool
    """It is the surest of its clause (or of what was left of it)."""
    rival: float
    """Certainty of the next entry that lives on the same words."""


def match_words(knowledge: Knowledge, crop: str, text: str, most: int = 8) -> tuple[Match, ...]:
    """Return what `text` may mean for this crop, surest first; a denied clause never yields something seen."""
    best: dict[Entry, Match] = {}
    for heard in _hears(knowledge, crop, text):
        match = heard.match
        if match.certainty >= SHOWN and match.certainty > getattr(best.get(heard.hit.entry), "certainty", 0.0):
            best[heard.hit.entry] = match
    return tuple(sorted(best.values(), key=lambda m: (-m.certainty, m.id))[:most])


def sure_matches(knowledge: Knowledge, crop: str, text: str) -> tuple[Match, ...]:
    """Return what each part of the text surely means: for scripts, which nobody confirms."""
    best: dict[Entry, Match] = {}
    for heard in _hears(knowledge, crop, text):
        if heard.taken and _sure(heard):
            best.setdefault(heard.hit.entry, heard.match)
    return tuple(best.values())


def _sure(heard: _Heard) -> bool:
    hit = heard.hit
    if hit.unsure or heard.rival > AHEAD * hit.certainty:
        return False
    clearly = hit.complete and heard.rival < CLEARLY_AHEAD * hit.certainty
    if not clearly:
        return hit.certainty >= SURE
    return hit.certainty >= (SURE_WITH_PART if hit.with_part else SURE_COMPLETE)


def _hears(knowledge: Knowledge, crop: str, text: str) -> Iterator[_Heard]:
    """Yield every hit, those taken with the certainty of the next for the same words."""
    vocabulary = vocabulary_of(knowledge, crop)
    before: frozenset[str] = frozenset()
    for clause in clauses(text):
        for name, so in counted(clause.text, vocabulary.plants):
            hit = everyday_hit(("circumstance", name), so, bool(clause.unsure))
            yield _Heard(_match(clause, hit), hit, True, 0.0)
        understood: set[int] = set()
        for hit, places in vocabulary.as_it_stands(clause, bool(before)):
            yield _Heard(_match(clause, hit), hit, True, 0.0)
            understood |= {*places}
        said = vocabulary.said(clause, understood)
        own = frozenset(one.part for one in said if one.part and not one.aside)
        whole = bool(_VINE & {*clause.words}) or (not own and bool(_PLANT & {*clause.words}))
        yield from _rounds(clause, said, vocabulary, Setting(own, before, whole, needed(clause.words)))
        before = frozenset() if whole else own or before


def _rounds(clause: Clause, said: list[Said], vocabulary: Vocabulary, setting: Setting) -> Iterator[_Heard]:
    for round_n in range(_SIGNS_IN_A_CLAUSE):
        found = [
            hit
            for hit in vocabulary.index.find(said, setting, *(_LATER if round_n else _FIRST))
            if not hit.named_by_denial or (hit.seen and hit.certainty >= CLOSE)
        ]
        if not found:
            return
        first, *others = found
        rival = max((hit.certainty for hit in others if _reads_the_same(hit, first)), default=0.0)
        yield _Heard(_match(clause, first), first, True, rival)
        if round_n == 0:
            yield from (_Heard(_match(clause, hit), hit, False, 0.0) for hit in others)
        said = [one for place, one in enumerate(said) if place not in first.explains]


def _reads_the_same(other: Hit, first: Hit) -> bool:
    """Return whether another match is a second reading of the same words, and no part of the first.

    Two circumstances may well both be meant: "mulched with straw". What is denied agrees with what is seen by a denial.
    """
    if other.seen != first.seen:
        return False
    if other.entry[0] == first.entry[0] == "circumstance" and len(first.places) > 1:
        return False
    return not other.places < first.places and 2 * len(other.places & first.places) > len(first.places)


def _match(clause: Clause, hit: Hit) -> Match:
    return Match(hit.entry[0], hit.entry[1], round(hit.certainty, 3), hit.seen, clause.text)
