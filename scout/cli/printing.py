"""Lines on standard output that cannot steer the terminal, whatever the data holds."""

_JOINERS = "\u200c\u200d"  # needed inside words of some scripts and inside emoji


def say(*lines: str) -> None:
    """Print each line without control characters, escapes or bidi marks; line breaks inside become new lines."""
    for text in lines:
        for part in text.split("\n"):
            print(part if part.isprintable() else "".join(map(_shown, part)))


def _shown(character: str) -> str:
    return character if character.isprintable() or character in _JOINERS else " "
