"""A grower's text → clauses: the words of each in order, and which of them it denies.

A denial reaches from its word to the end of the clause, or to a word that turns it ("but", "just", "and the"); where it
stands last ("mould? none") it speaks of what came before. "Look fine" denies the whole clause, "not right" nothing.
"""

import re
from dataclasses import dataclass

from scout.diagnosis.hearsay import Telling
from scout.diagnosis.stems import spoken_words, stems

NEGATIONS = frozenset(
    "no not none never without nothing neither nor nowhere isn't aren't don't doesn't didn't wasn't weren't hasn't"
    " haven't hadn't can't cannot couldn't won't wouldn't ain't isnt arent dont doesnt didnt wasnt werent hasnt havent"
    " hadnt cant couldnt wont aint zero hardly barely scarcely".split()
)
WELL = frozenset("fine healthy clean normal ok okay good perfect well".split())
_UNWELL = WELL | {"right", "happy", "great", "nice", "themselves", "itself"}
_AFTER_WELL = frozenset("otherwise though tho far morning mornings dawn again".split())
_TURNS = frozenset("but just only though although however yet".split())
_NEW_SUBJECT = frozenset("the its it it's they they're theyre i i'm my there theres there's now then some".split())
_SPELT = (
    (re.compile(r"[’`´]"), "'"),
    (re.compile(r"\bw/o\b"), " without "),
    (re.compile(r"\bw/"), " with "),
    (re.compile(r"\bthru\b"), "through"),
    (re.compile(r"\b(i|we|they)'ll\b"), r"\1 will"),
    (re.compile(r"\bdropp?(?:ed|ing|s)? dead\b"), "died"),
    (re.compile(r"\bout(?:er|side) (?=(?:edge|margin|rim)s?\b)"), ""),
    (re.compile(r"\bas well(?: as)?\b"), " and "),
    (re.compile(r"\bsee[- ]through\b"), "seethrough"),
    (re.compile(r" n | & | \+ "), " and "),
    (re.compile(r"\s*[?:(–—-]+\s*(?=(?:no|none|nope|nowhere|zero)\s*(?:[).,;!]|$))"), " none "),
    (re.compile(r"\b(?:(?:all|now) gone|gone now|cleared up)(?=\s*(?:[).,;!]|$))"), " none "),
    (re.compile(r"\b(?:free|clear) (?:of|from)\b|\black of\b|\brather than\b|\binstead of\b"), " no "),
    (
        re.compile(r"\bno (?:idea|wonder|doubt|end of|matter)\b|\bnot (?:sure|only|just|bad|long)\b|\bdon'?t know\b"),
        " ",
    ),
)
"""Short forms of a phone's keyboard, other ways to say no, and a "no" that denies nothing."""
_SENTENCE = re.compile(r"[.;!?\n…]+(?!\d)")
_BREAK = re.compile(
    r"[,:()–—]|(?<=\s)-+(?=\s)|\bbut\b|\btho(?:ugh)?\b|\balthough\b|\bwhile\b|\bhowever\b"
    r"|\bapart from\b|\baside from\b|\bother than\b|\bexcept(?: for)?\b"
)
_LIST_WORDS = 3
"""Words of a stretch between commas that may still be a thing in a list."""


@dataclass(frozen=True)
class Clause:
    """One clause of a grower's text."""

    text: str
    words: tuple[str, ...]
    denied: frozenset[int]
    """Numbers of the words that it says are not there."""
    unsure: frozenset[int]
    """Numbers of the words that are asked, guessed, or told of another year."""


def clauses(text: str) -> tuple[Clause, ...]:
    """Return the clauses of a text in order."""
    text = text.casefold()
    for pattern, instead in _SPELT:
        text = pattern.sub(instead, text)
    telling, out = Telling(), []
    for sentence in _SENTENCE.split(text):
        pieces = [piece for piece in _joined(_BREAK.split(sentence)) if spoken_words(piece)]
        words = [spoken_words(piece) for piece in pieces]
        listed = _denied_as_list(words)
        telling.new_sentence()
        for n, (piece, said) in enumerate(zip(pieces, words, strict=True)):
            denied = frozenset(range(len(said))) if n in listed else denied_words(said)
            out.append(Clause(piece.strip(), tuple(said), denied, telling.unsure(said)))
    return tuple(out)


def _joined(pieces: list[str]) -> list[str]:
    """Return the pieces of a sentence, a single word joined to what follows, or at its end to what went before.

    "Big, dark, oily patches" is one thing.
    """
    out: list[str] = []
    waiting = ""
    for piece in pieces:
        words = spoken_words(piece)
        if len(words) == 1 and not _denies(words):
            waiting = f"{waiting} {piece}"
            continue
        if waiting and _denies(words):
            out, waiting = [*out, waiting], ""
        out, waiting = [*out, f"{waiting} {piece}"], ""
    if waiting and out and not _denies(spoken_words(out[-1])):
        return [*out[:-1], f"{out[-1]} {waiting}"]
    return [*out, waiting]


def _denied_as_list(words: list[list[str]]) -> set[int]:
    """Return the numbers of the pieces that go on a denied list: "no spots, holes or mould"."""
    out: set[int] = set()
    for n, said in enumerate(words):
        if {"or", "nor"} & {*said} and not _denies(said):
            first = n - 1
            while first >= 0 and not _denies(words[first]) and len(words[first]) <= _LIST_WORDS:
                first -= 1
            if first >= 0 and NEGATIONS & {*words[first]}:
                out |= {*range(first + 1, n + 1)}
    return out


def _denies(words: list[str]) -> bool:
    return bool(denied_words(words))


def denied_words(words: list[str]) -> frozenset[int]:
    """Return the numbers of the words that one clause denies."""
    found: set[int] = set()
    for n, word in enumerate(words):
        if word in WELL and not {*words[:n]} & NEGATIONS and not stems(words[n + 1 :], WELL | _AFTER_WELL):
            joined = [m for m in range(n) if words[m] == "and" and words[m - 1] not in WELL]
            found |= set(range(joined[-1] + 1 if joined else 0, len(words)))
        if word in NEGATIONS and not _unwell(words[n + 1 :]):
            end = next((m for m in range(n + 1, len(words)) if _turns(words, m)), len(words))
            says_what = stems([one for one in words[n + 1 : end] if one not in NEGATIONS])
            found |= set(range(n, end)) if says_what or word == "nothing" else set(range(end))
    return frozenset(found)


def _turns(words: list[str], place: int) -> bool:
    word, then = words[place], words[place + 1] if place + 1 < len(words) else ""
    return word in _TURNS or (word == "and" and then in _NEW_SUBJECT)


def _unwell(after: list[str]) -> bool:
    """Return whether a denial is of being well: "not right", "don't look good"."""
    said = [word for word in after if stems([word]) or word in _UNWELL]
    return bool(said) and said[0] in _UNWELL
