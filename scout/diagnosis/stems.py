"""A grower's words → stems: endings taken off, filler left out."""

import re
from functools import lru_cache
from unicodedata import combining, normalize

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?")
_SHORT = re.compile(r"'(?:s|ve|re|ll|m|d)$")
"""What is left of a second word: "there's", "the plant's"."""
_FILLER = frozenset(
    "a an the is are was were be been it its of on in at to with and or some there i my this that these those has"
    " have had very quite all just really so as from for they them look looks looking like got get gets getting"
    " see seen saw seem seems most one ones turn turning turned goes going gone went become became also now when"
    " where which what if then than we you he she his her our their me us do does did can could would will while"
    " already still almost nearly bit kind sort lots lot many much few every each both other others another any"
    " anything everything something thing things covered full come comes coming came start started starting keep"
    " keeps across around through into out about too even here plant plants again yesterday today week weeks day"
    " days last year rest load loads plenty found find noticed ive im theyre theyve theres thats whats hes ya u"
    " ur tho yet kinda sorta proper totally completely completly realy pretty anyone help please think thought"
    " maybe because since let stuff whatever anyway everywhere gotten given give gave put puts make makes made am"
    " how why who mine yours dear hi hello thanks right well hope hopes hoped hoping past".split()
)
_ENDINGS = (
    ("ness", 4),
    ("ings", 3),
    ("ing", 3),
    ("ies", 3),
    ("ish", 4),
    ("ed", 3),
    ("es", 3),
    ("ly", 4),
    ("s", 3),
    ("y", 4),
)
_OWN = {
    word: word
    for word in "sticky skinny droppings downy winding chewy gummy cobwebby shooting rate site pine scare stare paste"
    " tube stripped thinning transplants".split()
} | {"thinned": "thinning", "strip": "stripped", "stripping": "stripped", "ripe": "ripen", "tubes": "tube"}
"""Words that are not what is left without their ending: a skinny root has nothing to do with its skin."""
_DOUBLED = "bdgmnprt"


def spoken_words(text: str) -> list[str]:
    """Return the words of a text in lower case, in order."""
    plain = text.casefold().replace("’", "'")
    if not plain.isascii():
        plain = "".join(one for one in normalize("NFD", plain) if not combining(one))
    return [_SHORT.sub("", word) if "'" in word else word for word in _WORD.findall(plain)]


@lru_cache(maxsize=16_384)
def stem(word: str) -> str:
    """Return the word without its ending: "wilting", "wilted" and "wilts" are one."""
    if word in _OWN:
        return _OWN[word]
    for ending, least in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= least:
            word = word[: -len(ending)]
            if len(word) > 3 and word[-1] == word[-2] and word[-1] in _DOUBLED:
                word = word[:-1]
            break
    return word.removesuffix("e") if len(word) > 3 else word


def kept(word: str) -> bool:
    """Return whether a word says something."""
    return word not in _FILLER


def stems(words: list[str], left_out: frozenset[str] = frozenset()) -> list[str]:
    """Return the stems of the words that say something, in order; a word said twice counts once."""
    return list(dict.fromkeys(stem(word) for word in words if word not in _FILLER and word not in left_out))
