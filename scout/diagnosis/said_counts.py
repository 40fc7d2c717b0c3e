""" "5 of 7 plants", "all of them", "just the one": how many plants a grower says show it."""

import re

_NUMBERS = {
    word: n for n, word in enumerate("none one two three four five six seven eight nine ten eleven twelve".split())
} | {"all": -1, "both": -1}
_NUMBER = rf"(\d+|{'|'.join(_NUMBERS)})"
_SHARE = re.compile(rf"\b{_NUMBER}\s*(out of|of|/|from|in)\s*(?:the|my|our)?\s*{_NUMBER}\b\s*([a-z]*)")
_PLANTS = frozenset(("", *"plants plant them bushes vines are is have has had show got and so only look looks".split()))
_HALF = 0.5


def counted(text: str, plants: frozenset[str]) -> tuple[tuple[str, bool], ...]:
    """Return circumstances (id, whether so) that a count of affected plants in a clause says.

    plants: words that also stand for whole plants, such as the name of a crop pulled whole.
    """
    for some, how, every, of_what in _SHARE.findall(text.casefold()):
        affected, looked = _number(some), _number(every)
        affected = looked if affected < 0 else affected
        if 0 < affected <= looked and looked > 1 and of_what in (_PLANTS - {""} if how == "/" else _PLANTS) | plants:
            alone = (("one_plant_only", True),) if affected == 1 else ()
            return (("most_plants", affected / looked > _HALF), *alone)
    return ()


def _number(word: str) -> int:
    return _NUMBERS[word] if word in _NUMBERS else int(word)
