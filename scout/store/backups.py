"""Copies of the grower's file that hold every committed row, and the way back."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from scout.errors import NotFound, Refused, StoreError
from scout.store.engines import refuse_newer, stored_version
from scout.store.failures import spoken


def back_up(source: Path, to: Path) -> None:
    """Write a checked copy of `source` to `to`; an existing copy is replaced only by a whole new one."""
    if not source.is_file():
        raise NotFound(f"There is no garden at {source}.")
    if to.exists() and to.samefile(source):
        raise Refused(f"{to} is the garden itself; choose another name for the backup.")
    stored_version(source)
    with spoken(to):
        to.parent.mkdir(parents=True, exist_ok=True)
    with _whole_or_nothing(to) as fresh:
        _copy(source, fresh)


def restore(source: Path, to: Path) -> None:
    """Put the backup `source` in the place of the garden `to`, through the database, so that readers see it.

    Raises StoreError for a backup that is damaged or newer than the program; `to` is unchanged then.
    """
    if not source.is_file():
        raise NotFound(f"There is no backup at {source}.")
    version = stored_version(source)
    refuse_newer(source, version)
    if version is None:
        raise StoreError(f"{source} is not a backup of a garden.")
    with spoken(source), closing(sqlite3.connect(source)) as connection:
        _refuse_damaged(connection, source)
    with spoken(to):
        to.parent.mkdir(parents=True, exist_ok=True)
    if to.exists() and _is_database(to):
        _copy(source, to)
        return
    for tail in ("-wal", "-shm"):
        to.with_name(to.name + tail).unlink(missing_ok=True)  # left by the file that is replaced
    with _whole_or_nothing(to) as fresh:
        _copy(source, fresh)


def free_name(folder: Path, stem: str) -> Path:
    """Return a name for a backup that nothing has yet: stem.db, stem-2.db, stem-3.db."""
    number = 1
    while True:
        path = folder / (f"{stem}.db" if number == 1 else f"{stem}-{number}.db")
        if not path.exists():
            return path
        number += 1


def _copy(source: Path, to: Path) -> None:
    with spoken(to), closing(sqlite3.connect(source)) as old, closing(sqlite3.connect(to)) as new:
        old.backup(new)
        _refuse_damaged(new, to)


def _refuse_damaged(connection: sqlite3.Connection, path: Path) -> None:
    answer = connection.execute("PRAGMA quick_check").fetchone()[0]
    if answer != "ok":
        raise StoreError(f"{path} is damaged ({str(answer)[:80]}); use another backup.")


def _is_database(path: Path) -> bool:
    try:
        with closing(sqlite3.connect(path)) as connection:
            connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
            return path.stat().st_size > 0
    except sqlite3.Error:
        return False


@contextmanager
def _whole_or_nothing(to: Path) -> Iterator[Path]:
    fresh = to.with_name(f".{to.name}.{os.getpid()}.new")
    fresh.unlink(missing_ok=True)
    try:
        yield fresh
        with closing(sqlite3.connect(fresh)) as connection:
            connection.execute("PRAGMA journal_mode = DELETE")  # one file, nothing beside it
        with spoken(to):
            os.replace(fresh, to)
    finally:
        for tail in ("", "-wal", "-shm", "-journal"):
            fresh.with_name(fresh.name + tail).unlink(missing_ok=True)
