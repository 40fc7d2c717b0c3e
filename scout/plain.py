"""Text from outside made safe to keep, show and print: NFC, no control, escape or direction characters."""

import re
import unicodedata

_ESCAPES = re.compile(r"\x1b(?:\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(?:\x07|\x1b\\)?|[@-_])")
_UNSEEN = {"Cc", "Cf", "Cs", "Co", "Cn"}
_JOINERS = {"\u200d", "\ufe0f"}
_MAX_MARKS_RUN = 8


def clean_text(text: str, *, keep_newlines: bool = False) -> str:
    """Return `text` in NFC without terminal escapes, control or bidirectional characters.

    Line breaks become a space unless `keep_newlines`; emoji joiners stay, since they are part of what was typed.
    """
    text = _ESCAPES.sub("", unicodedata.normalize("NFC", text)).replace("\r\n", "\n").replace("\r", "\n")
    kept: list[str] = []
    marks = 0
    for char in text:
        if char in "\n\t":
            kept.append("\n" if char == "\n" and keep_newlines else " ")
            continue
        category = unicodedata.category(char)
        marks = marks + 1 if category == "Mn" else 0
        if (category in _UNSEEN and char not in _JOINERS) or marks > _MAX_MARKS_RUN:
            continue
        kept.append(char)
    return "".join(kept).strip()
