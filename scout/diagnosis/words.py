"""A grower's own words → symptoms and circumstances, clause by clause, with synonyms and spelling tolerance.

A clause may hold several signs: the surest is taken, its words are set aside, and what is left is heard again. A denied
clause never yields something seen.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from scout.diagnosis.stems import spoken_words, stem, stems
from scout.diagnosis.word_index import Entry, Hit, Phrase, WordIndex, grouped, phrase_of
from scout.knowledge.base import Knowledge
from scout.knowledge.crop_file import Crop

SURE, SURE_ALONE = 0.74, 0.6
"""Certainty from which a match is used without being confirmed on screen (scripts only), and where nothing else was
said beside it. Our choice: on sentences written without sight of the vocabulary's synonyms every lower bound added more
wrong signs than right ones."""
SHOWN = 0.25
"""Certainty from which a match is offered for confirmation. Our choice."""
CLOSE = 0.6
"""Certainty from which a denied clause is taken to be a sign that is itself named by a denial. Our choice."""
TELLING, TELLING_ALONE = 4.0, 5.0
"""Weight of a single word from which it is enough: when it is a whole name of the entry, and when it is a part of one.
At 5 two entries in the vocabulary hold it, at 4 about six. Our choice."""
_TURNED = 0.8
_LEAST, _LEAST_LATER = 0.3, 0.6
"""Share of a phrase that must have been said for it to be looked at: at first, and in what is left of a clause."""
_SIGNS_IN_A_CLAUSE = 4
_CLAUSE = re.compile(
    r"[,.;:!?\n]|\bbut\b|\bthough\b|\balthough\b|\bwhile\b|\bhowever\b"
    r"|(?=\b(?:and|with) (?:no|not|none|never|without)\b)"
)
_NEGATIONS = frozenset(
    "no not none never without isn't aren't don't doesn't didn't wasn't nothing hasn't haven't".split()
)
_WELL = frozenset("fine healthy clean normal ok okay good perfect well".split())
_AFTER_WELL = frozenset("otherwise though far morning mornings dawn again".split())
_PARTS = {
    "leaf": ("leaf", "frond", "blade"),
    "fruit": ("fruit", "pod", "ear", "kernel", "husk"),
    "stem": ("stem", "vine", "stalk", "branch"),
    "root": ("root", "bulb", "tuber", "clove"),
    "flower": ("flower", "petal", "bud", "tassel"),
}
_ANIMALS = (
    "insect worm caterpillar aphid slug fly egg beetle moth mite thrips hopper leafhopper hornworm whitefly borer ant"
    " wasp looper cocoon spider earwig weevil cricket mummy".split()
)
"""Words that name a part; a stalk or a bud may be of another part too, which the entry's own words then say."""


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


def match_words(knowledge: Knowledge, crop: str, text: str, most: int = 8) -> tuple[Match, ...]:
    """Return what `text` may mean for this crop, surest first; a denied clause never yields something seen."""
    best: dict[Entry, Match] = {}
    for clause, denied, hit, _ in _hits(knowledge, crop, text):
        match = _match(clause, denied, hit)
        enough = match.certainty >= SHOWN
        if enough and match.certainty > getattr(best.get(hit.entry), "certainty", 0.0):
            best[hit.entry] = match
    return tuple(sorted(best.values(), key=lambda m: (-m.certainty, m.id))[:most])


def sure_matches(knowledge: Knowledge, crop: str, text: str) -> tuple[Match, ...]:
    """Return what each part of the text surely means: for scripts, which nobody confirms."""
    best: dict[Entry, Match] = {}
    for clause, denied, hit, taken in _hits(knowledge, crop, text):
        match = _match(clause, denied, hit)
        if taken and ((match.certainty >= SURE and _telling(hit)) or (hit.alone and match.certainty >= SURE_ALONE)):
            best.setdefault(hit.entry, match)
    return tuple(best.values())


def _telling(hit: Hit) -> bool:
    """Return whether a match rests on two words at least, or on one that hardly anything else is called by."""
    return hit.words_n > 1 or hit.weight >= (TELLING if hit.complete else TELLING_ALONE)


def _match(clause: str, denied: bool, hit: Hit) -> Match:
    return Match(hit.entry[0], hit.entry[1], round(hit.certainty, 3), denied == hit.denies, clause)


def _fits(hit: Hit, denied: bool) -> float:
    """Return the certainty by which hits of a clause are ordered: a name turned round by a denial comes later."""
    return hit.certainty * (1.0 if denied == hit.denies else _TURNED)


def _hits(knowledge: Knowledge, crop: str, text: str) -> Iterator[tuple[str, bool, Hit, bool]]:
    """Yield the clause, whether it denies, a hit, and whether its words were taken for it."""
    index = _built.get((knowledge.hash, crop)) or _remember(knowledge, crop)
    for clause in _CLAUSE.split(text.casefold()):
        words = spoken_words(clause)
        denied = _denies(words)
        said = stems(_without_crop_before_a_part(words, knowledge.crops[crop]), _NEGATIONS | _WELL)
        for round_n in range(_SIGNS_IN_A_CLAUSE):
            found = [
                hit
                for hit in index.find(said, _LEAST if round_n == 0 else _LEAST_LATER)
                if not (denied and hit.denies and hit.certainty < CLOSE)
            ]
            if not found:
                break
            first = max(found, key=lambda hit: _fits(hit, denied))
            yield clause.strip(), denied, first, True
            if round_n == 0:
                yield from ((clause.strip(), denied, hit, False) for hit in found if hit is not first)
            said = [one for place, one in enumerate(said) if place not in first.places]


def _denies(words: list[str]) -> bool:
    """Return whether words say that something is not there, or that all is well ("look fine", not "fine webs")."""
    well = (n for n, word in enumerate(words) if word in _WELL)
    return bool(set(words) & _NEGATIONS) or any(not stems(words[n + 1 :], _WELL | _AFTER_WELL) for n in well)


_built: dict[tuple[str, str], WordIndex] = {}


def _remember(knowledge: Knowledge, crop: str) -> WordIndex:
    groups = grouped([(group.word, group.same) for group in knowledge.word_groups])
    parts = {one: part for part, words in _PARTS.items() for word in words for one in stems([word])}
    parts |= {one: parts[groups[one]] for one in groups if groups[one] in parts}
    parts |= dict.fromkeys(_crop_words(knowledge.crops[crop]), _picked_part(knowledge, crop))
    groups = parts | groups | {one: parts[one] for one in _crop_words(knowledge.crops[crop])}
    phrases: list[Phrase] = []
    for entry, texts in _texts(knowledge, crop).items():
        made = (phrase_of(entry, text, _NEGATIONS, _WELL) for text in texts)
        phrases += [phrase for phrase in made if phrase is not None]
    bags: dict[Entry, frozenset[str]] = {}
    for phrase in phrases:
        bags[phrase.entry] = bags.get(phrase.entry, frozenset()) | phrase.stems
    part_of: dict[Entry, str] = {
        entry: knowledge.part_of[entry[1]]
        for entry in bags
        if entry[0] == "symptom" and knowledge.part_of[entry[1]] in {*_PARTS, "insect"}
    }
    animals = frozenset(groups.get(one, one) for one in stems(_ANIMALS))
    index = _built[knowledge.hash, crop] = WordIndex(phrases, bags, groups, part_of, parts, animals)
    return index


def _texts(knowledge: Knowledge, crop: str) -> dict[Entry, list[str]]:
    texts: dict[Entry, list[str]] = {}
    for symptom in knowledge.symptoms_of(crop):
        part = knowledge.part_of[symptom.id].replace("_", " ")
        by_id = symptom.id.split(".")[1].replace("_", " ")
        texts["symptom", symptom.id] = [symptom.name, *symptom.synonyms, by_id, f"{part} {by_id}"]
    for circumstance in knowledge.circumstances.values():
        texts["circumstance", circumstance.id] = [circumstance.name, *circumstance.synonyms]
    return texts


def _crop_words(crop: Crop) -> list[str]:
    return [one for name in (crop.name, *crop.aliases) for one in stems(spoken_words(name))]


def _without_crop_before_a_part(words: list[str], crop: Crop) -> list[str]:
    """Leave out the crop's name where it only says whose plant or leaf is meant: "my potato plant"."""
    own = set(_crop_words(crop))
    owned = {stem(one) for one in ("plant", "leaves", *(word for part in _PARTS.values() for word in part))}
    pairs = pairwise([*words, ""])
    return [one for one, then in pairs if not (stem(one) in own and stem(then) in owned)]


def _picked_part(knowledge: Knowledge, crop: str) -> str:
    """Return the part that the crop's own name stands for: "the cucumbers are bent" speaks of the fruit."""
    if knowledge.crops[crop].flower_to_pick_d is not None:
        return "fruit"
    own = [s.id for s in knowledge.symptoms.values() if crop in s.crops and knowledge.part_of[s.id] == "root"]
    return "root" if own else "leaf"
