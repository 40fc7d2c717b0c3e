"""What the database complains of, as one sentence that names the file and the mend."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, IntegrityError

from scout.errors import BadInput, BedwalkError, StoreError

_BY_CODE = {
    sqlite3.SQLITE_READONLY: "{file} cannot be written: the file or its folder is read-only; "
    "change that, or point BEDWALK_HOME at a folder of your own.",
    sqlite3.SQLITE_PERM: "{file} may not be opened by you; ask the owner of the folder.",
    sqlite3.SQLITE_FULL: "The disk is full, so nothing was written to {file}; free some space and try again.",
    sqlite3.SQLITE_NOTADB: "{file} is not a Bedwalk garden; move it away, or restore a backup over it.",
    sqlite3.SQLITE_CORRUPT: "{file} is damaged; restore the newest backup with: bedwalk restore.",
    sqlite3.SQLITE_BUSY: "{file} is in use by another program; close it and try again.",
    sqlite3.SQLITE_LOCKED: "{file} is in use by another program; close it and try again.",
    sqlite3.SQLITE_CANTOPEN: "{file} cannot be opened: check that its folder is there and may be written.",
    sqlite3.SQLITE_IOERR: "{file} could not be read or written: the disk reports an error; make a copy now.",
}
_BY_WORD = {
    "readonly": sqlite3.SQLITE_READONLY,
    "is full": sqlite3.SQLITE_FULL,
    "not a database": sqlite3.SQLITE_NOTADB,
    "malformed": sqlite3.SQLITE_CORRUPT,
    "locked": sqlite3.SQLITE_BUSY,
    "unable to open": sqlite3.SQLITE_CANTOPEN,
    "disk i/o": sqlite3.SQLITE_IOERR,
}


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
        yield
    except BedwalkError:
        raise
    except IntegrityError as refused:
        raise BadInput(_broken_rule(str(refused.orig))) from refused
    except DBAPIError as failed:
        raise StoreError(_sentence(failed.orig, target)) from failed
    except (sqlite3.Error, OSError) as failed:
        raise StoreError(_sentence(failed, target)) from failed


def _sentence(failed: BaseException | None, target: Path | str) -> str:
    name = spoken_name(target)
    if isinstance(failed, sqlite3.Error):
        return _sqlite(failed, name)
    if isinstance(failed, OSError):
        reason = (failed.strerror or "the system gave no reason").lower()
        return f"{failed.filename or name} cannot be used: {reason}."
    first = " ".join(str(failed).split())[:160]
    return f"{name[0].upper()}{name[1:]} did not answer as it should: {first}; check that it runs and try again."


def _sqlite(failed: sqlite3.Error, name: str) -> str:
    code = getattr(failed, "sqlite_errorcode", None)
    words = str(failed).lower()
    if code is None:
        code = next((number for word, number in _BY_WORD.items() if word in words), 0)
    sentence = _BY_CODE.get(code & 0xFF)
    return sentence.format(file=name) if sentence else f"{name} could not be used ({words}); try again."


def _broken_rule(complaint: str) -> str:
    if "FOREIGN KEY" in complaint.upper():
        return "This belongs to something that is not in the garden, or something else still belongs to it."
    if "UNIQUE" in complaint.upper():
        return "This is already in the garden."
    return f"This cannot be kept: it breaks a rule of the garden file ({' '.join(complaint.split())[:120]})."
