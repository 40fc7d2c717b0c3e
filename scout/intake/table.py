"""A table of text from outside: its encoding, delimiter and heading found, its cells untouched."""

import csv
import io
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from scout.errors import BadInput
from scout.plain import shortened

MAX_BYTES = 200_000_000
_LOOK_AHEAD = 30
_DELIMITERS = (",", ";", "\t")
DELIMITER_WORDS = {",": "comma", ";": "semicolon", "\t": "tab"}


@dataclass(frozen=True, slots=True)
class Table:
    """A heading and the rows below it; `first_row` is the row number of rows[0] as a spreadsheet counts."""

    name: str
    header: tuple[str, ...]
    rows: list[list[str]]
    first_row: int
    delimiter: str
    encoding: str

    def named_columns(self) -> str:
        """Return the headings for a sentence."""
        shown = [f"“{shortened(heading, 24)}”" for heading in self.header[:12] if heading.strip()]
        return ", ".join(shown) or "no headings"


def read_file(path: Path) -> tuple[str, str]:
    """Return the text of a file and its encoding in words. Errors: BadInput naming the file."""
    name = shortened(path.name, 60)
    if path.is_dir():
        raise BadInput(f"“{name}” is a folder; name a file in it.")
    try:
        if path.stat().st_size > MAX_BYTES:
            raise BadInput(f"“{name}” is larger than {MAX_BYTES // 1_000_000} MB; split it and read the parts.")
        content = path.read_bytes()
    except FileNotFoundError:
        raise BadInput(f"There is no file “{name}”; check the name and the folder.") from None
    except (OSError, ValueError):
        raise BadInput(f"“{name}” cannot be read; check that the file may be opened.") from None
    if not content.strip():
        raise BadInput(f"“{name}” is empty; export it again.")
    return _decoded(content, name)


def _decoded(content: bytes, name: str) -> tuple[str, str]:
    for encoding, words in _guesses(content):
        try:
            text = content.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\x00" not in text:
            return text, words
    raise BadInput(f"“{name}” is not a text file; export it as CSV or save it as text.")


def _guesses(content: bytes) -> list[tuple[str, str]]:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return [("utf-16", "UTF-16")]
    head = content[:400]
    if head.count(0) > len(head) // 4:  # UTF-16 of Latin letters without a mark at the start
        return [("utf-16-le" if head[1::2].count(0) > head[::2].count(0) else "utf-16-be", "UTF-16")]
    return [("utf-8-sig", "UTF-8"), ("cp1252", "Latin-1"), ("latin-1", "Latin-1")]


def parse_table(text: str, name: str, *, recognises: Callable[[str], bool], encoding: str = "UTF-8") -> Table:
    """Return the table in `text`; its heading is the early row with the most cells that `recognises` accepts.

    Lines above the heading are skipped. With no cell recognised the first row is taken as the heading, so that
    the caller can name what was found. Errors: BadInput naming file and row.
    """
    if not text.strip():
        raise BadInput(f"“{name}” is empty; export it again.")
    delimiter, at = _heading(text, recognises)
    rows = _rows(text, delimiter, name)
    while at < len(rows) and not any(cell.strip() for cell in rows[at]):
        at += 1
    header = tuple(cell.strip() for cell in rows[at])
    return Table(name, header, rows[at + 1 :], at + 2, delimiter, encoding)


def _heading(text: str, recognises: Callable[[str], bool]) -> tuple[str, int]:
    """Return the delimiter and the place of the heading: most cells recognised, else most cells at all."""
    lines = [line for _, line in zip(range(_LOOK_AHEAD), io.StringIO(text, newline=""), strict=False)]
    best, found = (0, 0, 0), (",", 0)
    for delimiter in _DELIMITERS:
        for at, cells in enumerate(_cells(lines, delimiter)):
            score = (sum(recognises(cell) for cell in cells), len(cells) if at == 0 else 0, -at)
            if score > best:
                best, found = score, (delimiter, at)
    return found


def _cells(lines: list[str], delimiter: str) -> list[list[str]]:
    try:
        return list(csv.reader(lines, delimiter=delimiter))
    except csv.Error:
        return []


def _rows(text: str, delimiter: str, name: str) -> list[list[str]]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        return list(reader)
    except csv.Error:
        where = f"“{name}”, line {reader.line_num}"
        raise BadInput(f"{where}: a quotation mark is not closed or a cell is far too long; mend it.") from None
