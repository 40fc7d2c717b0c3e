"""A walk written down as a TOML file: what the demo garden is replayed from."""

import re
import tomllib
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from scout.errors import BadInput
from scout.intake.table import read_file
from scout.intake.walk_model import WalkFile
from scout.intake.written import Place, first_fault
from scout.plain import shortened

_NAME = re.compile(r"(\d{4}-\d\d-\d\d)(-[a-z])?\.toml", re.ASCII)


def read_walk(path: Path) -> WalkFile:
    """Return the walk in a file named like 2026-07-22.toml, or 2026-07-22-a.toml for a second one that day.

    Errors: BadInput naming the file, the stop, the key and the mend. Whether beds, crops and ids exist is
    asked where the walk is replayed.
    """
    text, _ = read_file(path)
    name = shortened(path.name, 60)
    try:
        data = tomllib.loads(text.replace("\r\n", "\n"))
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise BadInput(f"“{name}”: {shortened(str(error), 120)}; mend it there.") from None
    try:
        found = WalkFile.model_validate(data)
    except ValidationError as error:
        place, fault = first_fault(error, WalkFile)
        if place and isinstance(place[-1], int):  # a rule of the whole table: the place names it already
            fault = fault.partition(": ")[2] or fault
        raise BadInput(f"“{name}”{_where(place, data)}: {fault}.") from None
    _require_name(path.name, found)
    return found


def _require_name(name: str, found: WalkFile) -> None:
    parts = _NAME.fullmatch(name)
    if parts is None or parts[1] != found.date.isoformat():
        right = f"{found.date.isoformat()}.toml"
        raise BadInput(f"“{shortened(name, 60)}” holds the walk of {found.date.isoformat()}; name it {right}.")


def _where(place: Place, data: dict[str, Any]) -> str:
    """Return the tables on the way to the key, counted from 1, with the name of the bed or plant."""
    words, here = "", data
    for at, part in enumerate(place):
        here = _inside(here, part)
        if isinstance(part, int):
            words += f", {place[at - 1]} {part + 1}{_called(here)}"
    return words


def _inside(here: Any, part: int | str) -> Any:
    try:
        return here[part]
    except (KeyError, IndexError, TypeError):
        return None


def _called(entry: Any) -> str:
    name = entry.get("bed") or entry.get("plant") or entry.get("symptom") if isinstance(entry, dict) else None
    return f" ({shortened(name, 30)})" if isinstance(name, str) else ""
