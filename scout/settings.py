"""The grower's settings file, one model."""

import tomllib
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict, ValidationError

from scout.errors import BadInput


class Settings(BaseModel):
    """What the grower chose for this device; every key has a default."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    author: str = "me"
    """Who writes the notes on this device."""
    theme: Literal["sun", "night"] = "sun"
    database: str | None = None
    """A PostgreSQL address for a shared garden; None: the file beside this one."""
    inbox: str | None = None
    """A folder watched for new pictures; None: the inbox folder beside the data."""


def read_settings(file: Path) -> Settings:
    """Return the settings in `file`, or the defaults when there is none; BadInput names the key to mend."""
    try:
        return Settings.model_validate(tomllib.loads(file.read_text(encoding="utf-8")))
    except FileNotFoundError:
        return Settings()
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise BadInput(f"{file.name}: cannot be read: {error}.") from None
    except ValidationError as error:
        first = error.errors()[0]
        raise BadInput(f"{file.name}: {'.'.join(str(p) for p in first['loc'])}: {first['msg']}.") from None
