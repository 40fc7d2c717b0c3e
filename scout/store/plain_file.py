"""A garden's file through sqlite3 itself: its version, and questions before the library that writes is loaded."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from scout.errors import StoreError
from scout.store.complaints import spoken_file

BUSY_MS = 5000


def version_in_file(path: Path) -> str | None:
    """Return the revision of the tables in a file; None where there is none yet. StoreError for what is no garden."""
    with spoken_file(str(path)):
        if path.is_dir():
            raise StoreError(f"{path} is a folder, not a garden file; name the file in it.")
        if not path.exists():
            return None
        if path.stat().st_size == 0:
            raise StoreError(f"{path} is empty (0 bytes); restore a backup, or move it away to start anew.")
        with closing(sqlite3.connect(path, timeout=BUSY_MS / 1000)) as connection:
            found = connection.execute("SELECT name FROM sqlite_master WHERE name = 'alembic_version'")
            if found.fetchone() is None:
                raise StoreError(f"{path} belongs to another program; choose another file.")
            row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
            return str(row[0]) if row else None


@contextmanager
def reading_file(path: Path) -> Iterator[sqlite3.Connection]:
    """Give a connection for questions alone; all of them see one state of the file."""
    with (
        spoken_file(str(path)),
        closing(sqlite3.connect(path, timeout=BUSY_MS / 1000, isolation_level=None)) as connection,
    ):
        connection.execute("PRAGMA query_only = ON")
        connection.execute("BEGIN")
        yield connection
