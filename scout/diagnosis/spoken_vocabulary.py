"""The names and synonyms of the vocabulary for one crop, made ready to be met by a grower's words."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from scout.diagnosis.clauses import NEGATIONS, WELL, Clause, denied_words
from scout.diagnosis.part_fit import PartFit
from scout.diagnosis.phrases import Entry, Phrase, grouped, is_everyday, phrase_of
from scout.diagnosis.said import Hit, Said
from scout.diagnosis.stems import kept, spoken_words, stem, stems
from scout.diagnosis.word_index import WordIndex
from scout.knowledge.base import Knowledge
from scout.knowledge.crop_file import Crop

_PARTS = {
    "leaf": ("leaf", "frond", "blade"),
    "fruit": ("fruit", "pod", "ear", "kernel", "husk"),
    "stem": ("stem", "vine", "stalk", "branch"),
    "root": ("root", "bulb", "tuber", "clove"),
    "flower": ("flower", "petal", "tassel"),
}
"""Words that name a part; a stalk or a bud may be of another part too, which the entry's own words then say."""
_ANIMALS = (
    "insect worm caterpillar aphid slug fly egg beetle moth mite thrips hopper leafhopper hornworm whitefly borer ant"
    " wasp looper cocoon spider earwig weevil cricket mummy".split()
)
_BESIDE = frozenset("from by near round around where off beside next behind".split())
"""Before a part: it says where, not what ("split from the stem down")."""
_ARTICLES = frozenset("the a an its their each every my to".split())
_LONGEST = 5
_PAIR = 2
_OWN_KIND = frozenset("bush pole seedless beefsteak".split())
"""Words of a name that are circumstances."""
_AS_IT_STANDS = 0.85


@dataclass(frozen=True)
class Vocabulary:
    """What can be said of one crop."""

    index: WordIndex
    own_words: frozenset[str]
    """Stems of the crop's names."""
    part_words: frozenset[str]
    part_of: dict[str, str]
    """Stem → the part that it names."""
    everyday: dict[tuple[str, ...], tuple[Entry, bool]]
    """Phrases made of everyday words, which are met only as they stand ("all at once"), and whether they last."""
    plants: frozenset[str]
    """The crop's names where they stand for whole plants: "3 of 8 lettuces"."""
    kinds: frozenset[str]
    """First words of the crop's names of two words: a "yellow squash" says nothing of a colour."""

    def as_it_stands(self, clause: Clause, part_before: bool) -> tuple[tuple[Hit, range], ...]:
        """Return what is said word for word in everyday words, with the numbers of those words.

        part_before: a part was spoken of, so that "all of them" may be leaves.
        """
        out = []
        for n in range(len(clause.words)):
            for m in range(min(len(clause.words), n + _LONGEST), n + 1, -1):
                if found := self.everyday.get(clause.words[n:m]):
                    entry, lasting = found
                    own = denied_words(list(clause.words[n:m]))
                    seen = clause.denied & {*range(n, m)} == {n + place for place in own}
                    of_today = lasting or not clause.unsure & {*range(n, m)}
                    unsure = not of_today or (part_before and "them" in clause.words[n:m])
                    out.append((everyday_hit(entry, seen, unsure), range(n, m)))
                    break
        return tuple(out)

    def said(self, clause: Clause, without: Iterable[int]) -> list[Said]:
        """Return the words of a clause that say something, but those already understood."""
        skipped = {*without, *self._crop_before_a_part(clause.words)}
        out: dict[str, Said] = {}
        for n, word in enumerate(clause.words):
            if n not in skipped and kept(word) and word not in NEGATIONS | WELL:
                one = stem(word)
                alike = self.index.alike(one) | self.index.joined(clause.words[n - 1] + word if n else "")
                aside = _stands_aside(clause.words, n)
                part, unsure = self.part_of.get(one), n in clause.unsure
                out.setdefault(one, Said(one, n in clause.denied, alike, part, aside, unsure))
        return list(out.values())

    def _crop_before_a_part(self, words: tuple[str, ...]) -> set[int]:
        """Return where the crop's name only says whose plant or leaf is meant: "my potato plant"."""
        return {
            n
            for n, (one, then) in enumerate(pairwise(words))
            if (stem(one) in self.own_words and stem(then) in self.part_words)
            or (one in self.kinds and stem(then) in self.own_words)
        }


def everyday_hit(entry: Entry, seen: bool, unsure: bool) -> Hit:
    """Return the hit of an entry that was named word for word."""
    return Hit(entry, _AS_IT_STANDS, seen, False, frozenset(), frozenset(), True, False, unsure)


def _stands_aside(words: tuple[str, ...], place: int) -> bool:
    before = [word for word in words[max(0, place - 3) : place] if word not in _ARTICLES]
    return bool(before) and before[-1] in _BESIDE


_built: dict[tuple[str, str], Vocabulary] = {}


def vocabulary_of(knowledge: Knowledge, crop: str) -> Vocabulary:
    """Return the vocabulary of a crop, built once."""
    key = (knowledge.hash, crop)
    if key not in _built:
        _built[key] = _vocabulary(knowledge, crop)
    return _built[key]


def _vocabulary(knowledge: Knowledge, crop: str) -> Vocabulary:
    groups = grouped([(group.word, group.same) for group in knowledge.word_groups])
    parts = {one: part for part, words in _PARTS.items() for word in words for one in stems([word])}
    parts |= {one: parts[groups[one]] for one in groups if groups[one] in parts}
    parts |= dict.fromkeys(_crop_words(knowledge.crops[crop]), _picked_part(knowledge, crop))
    groups = parts | groups | {one: parts[one] for one in _crop_words(knowledge.crops[crop])}
    phrases, everyday = _phrases(knowledge, crop)
    bags: dict[Entry, frozenset[str]] = {}
    for phrase in phrases:
        bags[phrase.entry] = bags.get(phrase.entry, frozenset()) | phrase.stems
    part_of: dict[Entry, str] = {
        entry: knowledge.part_of[entry[1]]
        for entry in bags
        if entry[0] == "symptom" and knowledge.part_of[entry[1]] in {*_PARTS, "insect"}
    }
    animals = frozenset(groups.get(one, one) for one in stems(_ANIMALS))
    own = frozenset(_crop_words(knowledge.crops[crop]))
    owned = frozenset(stem(one) for one in ("plant", "leaves", *(word for words in _PARTS.values() for word in words)))
    index = WordIndex(phrases, bags, groups, PartFit(part_of, parts, groups, animals))
    kinds = frozenset(_kinds(knowledge.crops[crop]))
    return Vocabulary(index, own, owned, parts, everyday, _whole_plants(knowledge.crops[crop]), kinds)


def _kinds(crop: Crop) -> list[str]:
    """Return the first words of names of two words, but those that say how it grows."""
    names = [spoken_words(name) for name in crop.aliases]
    return [name[0] for name in names if len(name) == _PAIR and name[0] not in _OWN_KIND]


def _phrases(knowledge: Knowledge, crop: str) -> tuple[list[Phrase], dict[tuple[str, ...], tuple[Entry, bool]]]:
    """Return the phrases to be met by their words, and those of everyday words to be met as they stand."""
    phrases: list[Phrase] = []
    everyday: dict[tuple[str, ...], tuple[Entry, bool]] = {}
    sources = {one.id for one in knowledge.circumstances.values() if one.kind == "source"}
    for entry, texts in _texts(knowledge, crop).items():
        for text in texts:
            words = spoken_words(text)
            lasting = entry[1] in sources or "last" in words
            if is_everyday(words):
                everyday[tuple(words)] = entry, lasting
            elif phrase := phrase_of(entry, text, lasting):
                phrases.append(phrase)
    return phrases, everyday


def _whole_plants(crop: Crop) -> frozenset[str]:
    if crop.flower_to_pick_d is not None:
        return frozenset()
    names = [spoken_words(name)[-1] for name in (crop.name, *crop.aliases)]
    return frozenset(word for name in names for word in (name, f"{name}s", f"{name}es"))


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
    """Return the stems that mean the crop itself: "squash", but not the "yellow" of "yellow squash"."""
    names = [spoken_words(name) for name in (*crop.name.split(" and "), *crop.name.split(", "), *crop.aliases)]
    last = Counter(stem(name[-1]) for name in names if name)
    alone = {stem(name[0]) for name in names if len(name) == 1}
    main = stem(spoken_words(crop.name)[-1])
    return sorted(alone | {one for one, times in last.items() if times > 1} | {main})


def _picked_part(knowledge: Knowledge, crop: str) -> str:
    """Return the part that the crop's own name stands for: "the cucumbers are bent" speaks of the fruit."""
    if knowledge.crops[crop].flower_to_pick_d is not None:
        return "fruit"
    own = [s.id for s in knowledge.symptoms.values() if crop in s.crops and knowledge.part_of[s.id] == "root"]
    return "root" if own else "leaf"
