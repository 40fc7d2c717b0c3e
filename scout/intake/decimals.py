"""Numbers as people type them, with a decimal comma or point, and never guessed."""

import re
from typing import Literal

from scout.errors import BadInput
from scout.plain import shortened

Sign = Literal[".", ","]
"""Which character a file or person is known to use before the decimals."""

_MAX_LENGTH = 24
_PLAIN = re.compile(r"[+-]?(?:[0-9]+[.,]?[0-9]*|[.,][0-9]+)")
_COULD_BE_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}")
_GROUPED = re.compile(
    r"[+-]?[0-9]{1,3}(?:(?P<group>[.,'’\u00a0\u202f\u2009])[0-9]{3})(?:(?P=group)[0-9]{3})*(?P<rest>[.,][0-9]+)?"
)


def read_decimal(text: str, *, sign: Sign | None = None) -> float:
    """Return the number in `text`: 1.5 for "1,5" and "1.5", 1234.5 for "1.234,5" and "1,234.5".

    Without a known decimal `sign` a comma before three digits ("1,234") is refused, since it may mean
    thousands; a point there is read as decimals, as instruments write them. Errors: BadInput.
    """
    token = text.strip().replace("\u2212", "-")
    if len(token) <= _MAX_LENGTH:
        if _PLAIN.fullmatch(token):
            return _plain(token, sign)
        grouped = _GROUPED.fullmatch(token)
        if grouped:
            return _grouped(token, grouped, sign)
    raise BadInput(f"{_named(text)} is not a number; write it like 3.5 or 3,5.")


def read_count(text: str) -> int:
    """Return the whole number from 0 in `text`. Errors: BadInput."""
    token = text.strip()
    if re.fullmatch(r"[0-9]{1,9}", token):
        return int(token)
    raise BadInput(f"{_named(text)} is not a whole number from 0; write digits only.")


def _plain(token: str, sign: Sign | None) -> float:
    if sign is None and _COULD_BE_THOUSANDS.fullmatch(token):
        digits = token.replace(",", "")
        raise BadInput(f"{_named(token)} could be {token.replace(',', '.')} or {digits}; write one of these.")
    if (sign == "." and "," in token) or (sign == "," and "." in token):
        raise BadInput(f"{_named(token)} has another decimal sign than the rest; write it with {sign!r}.")
    return float(token.replace(",", "."))


def _grouped(token: str, found: re.Match[str], sign: Sign | None) -> float:
    """Read thousands in groups of three; what groups cannot also stand before the decimals."""
    group, rest = found["group"], found["rest"] or ""
    several = token.count(group) > 1
    if (rest and rest[0] == group) or group == sign or (not rest and not several and group in ".,"):
        raise BadInput(f"{_named(token)} can be read in two ways; write it without marks for thousands.")
    whole = token[: len(token) - len(rest)].replace(group, "")
    return float(whole + rest.replace(",", "."))


def _named(text: str) -> str:
    return f"“{shortened(text, 24)}”"
