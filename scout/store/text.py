"""Text from outside, made safe to keep and to show."""

import re
import unicodedata

_ESCAPES = re.compile(
    r"(?:\x1b\]|\x9d)[^\x07\x1b\x9c]*(?:\x07|\x1b\\|\x9c)"  # window titles and links
    r"|(?:\x1b[PX^_]|[\x90\x98\x9e\x9f])[^\x1b\x9c]*(?:\x1b\\|\x9c)"  # device strings
    r"|(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]"  # colours, cursor moves
    r"|\x1b[ -/]*[0-~]"
)
_LINE_ENDS = re.compile("\r\n?|[\x0b\x0c\x85\u2028\u2029]")
_BIDI = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u206f\ufff9-\ufffb\ufeff]")
_UNWANTED = frozenset({"Cc", "Cs"})


def clean_text(text: str, *, lines: bool = True) -> str:
    """Return `text` as NFC without terminal escapes, control, bidi-control or unpaired surrogate characters.

    Line ends become a newline, or a space when `lines` is false; a tab becomes a space; blanks at both ends
    go. Marks such as `[b]` or `<b>` are the grower's own text and stay. Cleaning twice changes nothing.
    """
    text = _LINE_ENDS.sub("\n", _BIDI.sub("", _ESCAPES.sub("", text))).replace("\t", " ")
    if not lines:
        text = text.replace("\n", " ")
    kept = "".join(c for c in text if c == "\n" or unicodedata.category(c) not in _UNWANTED)
    return unicodedata.normalize("NFC", kept).strip()
