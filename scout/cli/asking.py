"""Questions at a prompt, one line each, for a terminal or a screen reader; nothing is asked where nobody answers."""

import sys
from collections.abc import Callable, Sequence
from typing import TypeVar

import typer

from scout.cli.printing import say
from scout.errors import BadInput, BedwalkError

T = TypeVar("T")


def interactive() -> bool:
    """Return True when a person types: standard input is a terminal."""
    return sys.stdin is not None and sys.stdin.isatty()


def given_or_asked(given: str | None, flag: str, question: str, default: str | None = None) -> str:
    """Return what the flag gave, or ask; BadInput names the flag where nobody can be asked."""
    if given is not None:
        return given
    if interactive():
        return line(question) if default is None else line(f"{question} [{default}]", empty=True) or default
    if default is not None:
        return default
    raise BadInput(f"{flag} is missing: {question[0].lower()}{question[1:]}.")


def line(question: str, *, empty: bool = False) -> str:
    """Ask for a line of text; without `empty` an empty line asks again."""
    while True:
        answer = str(typer.prompt(question, default="", show_default=False)).strip()
        if answer or empty:
            return answer


def read(question: str, reader: Callable[[str], T]) -> T | None:
    """Ask until the reader takes the line; an empty line is None."""
    while True:
        answer = line(question, empty=True)
        if not answer:
            return None
        try:
            return reader(answer)
        except BedwalkError as problem:
            say(str(problem))


def choose(question: str, rows: Sequence[str]) -> int | None:
    """Print numbered rows and ask for one; return its place from 0, None for an empty line."""
    say(*(f"{number}. {row}" for number, row in enumerate(rows, 1)))
    return read(f"{question} (1-{len(rows)}, Enter: none)", lambda text: _place(text, len(rows)))


def _place(text: str, most: int) -> int:
    from scout.intake.decimals import read_count

    number = read_count(text)
    if not 1 <= number <= most:
        raise BadInput(f"Give a number from 1 to {most}.")
    return number - 1


def agree(question: str) -> bool | None:
    """Ask yes or no; None for an empty line."""
    return read(f"{question} (y/n)", _yes_or_no)


def _yes_or_no(text: str) -> bool:
    words = {"y": True, "yes": True, "n": False, "no": False}
    if text.lower() not in words:
        raise BadInput("Answer y or n.")
    return words[text.lower()]
