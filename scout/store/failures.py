"""What the database complains of, as one sentence that names the file or the server and the mend."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, IntegrityError

from scout.errors import BadInput, StoreError
from scout.store.complaints import complaint, spoken_file


def spoken_name(target: Path | str) -> str:
    """Return how the file or server is named to the grower: a password is never shown."""
    if isinstance(target, Path):
        return str(target)
    try:
        url = make_url(target)
    except ArgumentError:
        return "the database"
    return f"the database {url.database or ''} on {url.host or 'this machine'}".replace("  ", " ")


@contextmanager
def spoken(target: Path | str) -> Iterator[None]:
    """Turn what sqlite3, SQLAlchemy or the file system raises inside the block into a BedwalkError."""
    try:
        with spoken_file(spoken_name(target)):
            yield
    except IntegrityError as refused:
        raise BadInput(_broken_rule(str(refused.orig))) from refused
    except DBAPIError as failed:
        raise StoreError(_sentence(failed.orig, target)) from failed


def _sentence(failed: BaseException | None, target: Path | str) -> str:
    name = spoken_name(target)
    if isinstance(failed, (sqlite3.Error, OSError)):
        return complaint(failed, name)
    first = " ".join(str(failed).split())[:160]
    return f"{name[0].upper()}{name[1:]} did not answer as it should: {first}; check that it runs and try again."


def _broken_rule(complaint_text: str) -> str:
    if "FOREIGN KEY" in complaint_text.upper():
        return "This belongs to something that is not in the garden, or something else still belongs to it."
    if "UNIQUE" in complaint_text.upper():
        return "This is already in the garden."
    return f"This cannot be kept: it breaks a rule of the garden file ({' '.join(complaint_text.split())[:120]})."
