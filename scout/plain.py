"""Text from outside made safe to keep and show; days and counts as a grower says them."""

import re
import unicodedata
from datetime import date

_ESCAPES = re.compile(
    r"""
    (?:\x1b\[|\x9b) [0-?]* [ -/]* [@-~]?              # cursor and colour commands
    | (?:\x1b[\]PX^_]|[\x90\x98\x9d\x9e\x9f]) [^\x07\x1b\x9c]* (?:\x07|\x1b\\|\x9c)?  # titles, links, images
    | \x1b [ -/]* [0-~]?                              # all shorter ones
    """,
    re.VERBOSE,
)
_BREAKS = re.compile(r"\r\n|[\r\x0b\x0c\x85\u2028\u2029]")
_JOINERS = "\u200c\u200d"  # needed inside words of some scripts and inside emoji
_STACKED = re.compile(r"([\u0300-\u036f]{8})[\u0300-\u036f]+")  # accents piled up until they cover other lines


def clean_text(text: str, *, keep_newlines: bool = False) -> str:
    """Return `text` in NFC without control characters, terminal escapes or bidi controls.

    Runs of white space become one space and the ends are trimmed; with `keep_newlines` this is done line
    by line and line breaks stay as "\\n". Markup is data and stays as it is. Cleaning twice changes nothing.
    """
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    broken = _BREAKS.sub("\n", _ESCAPES.sub("", text))
    lines = [_line(line) for line in broken.split("\n")]
    return "\n".join(lines).strip("\n") if keep_newlines else " ".join(line for line in lines if line)


def _line(text: str) -> str:
    kept = "".join(character for character in text if _is_shown(character))
    return " ".join(_STACKED.sub(r"\1", unicodedata.normalize("NFC", kept)).split())


def _is_shown(character: str) -> bool:
    if character == "\t" or character in _JOINERS:
        return True
    # Cc control, Cf invisible formatting (bidi, zero width, tags), Cs lone surrogates, Co private use, Cn none
    return unicodedata.category(character)[0] != "C"


def shortened(text: str, length: int = 40) -> str:
    """Return `text` cleaned and cut to `length` characters, for naming it inside a sentence."""
    clean = clean_text(text)
    return clean if len(clean) <= length else clean[: length - 1].rstrip() + "…"


def lower_first(text: str) -> str:
    """Return the text with a small first letter, unless it begins with an abbreviation."""
    return text if len(text) > 1 and text[1].isupper() else text[:1].lower() + text[1:]


def counted(n: int, noun: str) -> str:
    """Return "1 stop", "2 stops"."""
    return f"{n} {noun}" if n == 1 else f"{n} {noun}s"


def day_text(day: date) -> str:
    """Return a day as "8 July"."""
    return f"{day.day} {day:%B}"


def short_day(day: date) -> str:
    """Return a day in six cells, as "8 Jul"."""
    return f"{day.day} {day:%b}"


def days_text(days_n: int) -> str:
    """Return "1 day" or "n days"."""
    return counted(days_n, "day")
