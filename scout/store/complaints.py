"""What sqlite3 and the file system complain of, as one sentence that names the file and the mend."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from scout.errors import StoreError

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


@contextmanager
def spoken_file(name: str) -> Iterator[None]:
    """Turn what sqlite3 or the file system raises inside the block into a StoreError about `name`."""
    try:
        yield
    except (sqlite3.Error, OSError) as failed:
        raise StoreError(complaint(failed, name)) from failed


def complaint(failed: sqlite3.Error | OSError, name: str) -> str:
    """Return the sentence for one error."""
    if isinstance(failed, OSError):
        reason = (failed.strerror or "the system gave no reason").lower()
        return f"{failed.filename or name} cannot be used: {reason}."
    code = getattr(failed, "sqlite_errorcode", None)
    words = str(failed).lower()
    if code is None:
        code = next((number for word, number in _BY_WORD.items() if word in words), 0)
    sentence = _BY_CODE.get(code & 0xFF)
    return sentence.format(file=name) if sentence else f"{name} could not be used ({words}); try again."
