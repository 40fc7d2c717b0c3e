"""What in a grower's text is no report of today: questions, guesses, purposes, and what was another year.

"Is it blight?", "maybe it's mites", "sprayed to keep the slugs off", "last year they wilted": it may be offered, and is
never sure.
"""

from itertools import pairwise

_ASKING = frozenset("is are was were could can did does do should would will might has have".split())
_ASKED_OF = frozenset("it this that these those they them the there i we you my our he she anyone too".split())
_OPENING = frozenset("and or so but also".split())
_GUESSING = frozenset(
    "maybe perhaps possibly probably if whether wonder wondering suspect suspected assume assumed assuming guess"
    " guessed guessing thought supposedly might".split()
)
_GUESSES = frozenset(
    tuple(pair.split())
    for pair in (
        "i think,could be,may be,must be,could have,may have,could either,in case".split(",")
        + "i will,we will,they will,plan to,want to,next time".split(",")
    )
)
_EARLIER = frozenset("was were been looked".split())
_WELL_THEN = frozenset("doing looking growing healthy fine great good beautiful".split())
_SOUGHT = frozenset("look looked looking check checked checking search searched watch watching".split())
_WATER = frozenset("water watering watered".split())
_WHENEVER = frozenset("when whenever once until unless".split())
_AIMS = frozenset("keep prevent protect stop deter avoid control kill cure treat fight".split())
_DOERS = frozenset("i we".split())
_ANOTHER_YEAR = frozenset(
    "year season summer spring autumn fall winter january february march april may june july august september october"
    " november december".split()
)
_BACK = frozenset("last previous next".split())
_COMPARED = frozenset("as than from the like".split())
_BY_NOW = frozenset("now today currently yesterday tonight".split())


class Telling:
    """Follows a text clause by clause.

    A question lasts to the end of its sentence, another year until it is "now", and a guess goes on with "or".
    """

    def __init__(self) -> None:
        self._asked = self._past = self._guessed = False

    def new_sentence(self) -> None:
        """A new sentence begins."""
        self._asked = self._guessed = False

    def unsure(self, words: list[str]) -> frozenset[int]:
        """Return the numbers of the words of the next clause that are no report of today."""
        self._asked |= _is_question(words)
        self._past = _is_of_another_year(words) or (self._past and not _is_of_today(words))
        goes_on = self._guessed and words[0] == "or"
        begins = 0 if self._asked or self._past or goes_on else min(_guesses(words), default=len(words))
        self._guessed |= begins < len(words)
        return frozenset(range(begins, _end_of_aim(words) if begins == 0 else len(words)))


def _is_question(words: list[str]) -> bool:
    said = words[1:] if words[0] in _OPENING else words
    return len(said) > 1 and said[0] in _ASKING and said[1] in _ASKED_OF


def _is_of_another_year(words: list[str]) -> bool:
    pairs = list(zip(["", *words], words, words[1:], strict=False))
    return any(
        (word in _BACK and then in _ANOTHER_YEAR and before not in _COMPARED) or (word, then) == ("used", "to")
        for before, word, then in pairs
    )


def _is_of_today(words: list[str]) -> bool:
    return bool(_BY_NOW & {*words}) or any(
        word == "this" and then in {*_ANOTHER_YEAR, "time", "week", "month"} for word, then in pairwise(words)
    )


def _end_of_aim(words: list[str]) -> int:
    """Return where an aim that was put first ends: "to deter the flies I put fleece on"."""
    return next((n for n, word in enumerate(words) if words[0] == "to" and word in _DOERS), len(words))


def _guesses(words: list[str]) -> list[int]:
    """Return where a guess, an aim, a search or a rule of watering begins."""
    return [
        n
        for n, word in enumerate(words)
        if (word in _GUESSING and words[n - 1 : n] != ["as"])
        or tuple(words[n : n + 2]) in _GUESSES
        or (word == "to" and {*words[n + 1 : n + 2]} & _AIMS)
        or (word in _EARLIER and {*words[n + 1 : n + 2]} & _WELL_THEN)
        or (word == "for" and {*words[n - 1 : n]} & _SOUGHT)
        or (word in _WHENEVER and {*words[:n]} & _WATER)
    ]
