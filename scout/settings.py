"""The grower's settings file, one model; plain, so that the first screen waits for no library."""

import tomllib
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any

from scout.errors import BadInput

THEMES = ("sun", "night")


@dataclass(frozen=True)
class Settings:
    """What the grower chose for this device; every key has a default."""

    author: str = "me"
    """Who writes the notes on this device."""
    theme: str = "sun"
    """sun (black on white) or night."""
    database: str | None = None
    """A PostgreSQL address for a shared garden; None: the file beside this one."""
    inbox: str | None = None
    """A folder watched for new pictures; None: the inbox folder beside the data."""
    stations: str | None = None
    """Whose weather speaks for the garden, best first: "here, airport"; None: all, the garden's own before others."""
    feed: str | None = None
    """An address that answers with weather, asked only by `bedwalk weather feed`; None: none is ever asked."""


def read_settings(file: Path) -> Settings:
    """Return the settings in `file`, or the defaults when there is none; BadInput names the key to mend."""
    try:
        given = tomllib.loads(file.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return Settings()
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise BadInput(f"{file.name}: cannot be read: {error}.") from None
    return _checked(file.name, given)


def _checked(name: str, given: dict[str, Any]) -> Settings:
    known = [field.name for field in fields(Settings)]
    for key, value in given.items():
        if key not in known:
            raise BadInput(f"{name}: unknown key {key!r}; the keys are {', '.join(known)}.")
        if not isinstance(value, str):
            raise BadInput(f"{name}: {key} must be text in quotes.")
    if given.get("theme", "sun") not in THEMES:
        raise BadInput(f"{name}: theme is {' or '.join(THEMES)}, not {given['theme']!r}.")
    return Settings(**given)
