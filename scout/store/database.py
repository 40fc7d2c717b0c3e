"""The door to the grower's file or a group's server: make, open, read, write, copy."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import cast

from sqlalchemy import Engine
from sqlmodel import Session

from scout.errors import BedwalkError
from scout.store.asking import Door
from scout.store.backups import back_up, restore
from scout.store.engines import (
    WRITES,
    refuse_other_version,
    server_engine,
    sqlite_engine,
    stored_version,
    target_of,
)
from scout.store.failures import spoken
from scout.store.plain_file import BUSY_MS
from scout.store.schema import ensure_schema

__all__ = ["back_up", "ensure_schema", "open_engine", "reading", "restore", "stored_version", "writing"]


def open_engine(target: Path | str, *, busy_ms: int = BUSY_MS) -> Engine:
    """Return an engine on a garden of today's shape: a Path is an SQLite file, a text a PostgreSQL URL.

    `busy_ms`: how long to wait for another writer. Raises StoreError where the garden is missing, damaged,
    unreadable, or of another version; nothing is created.
    """
    refuse_other_version(target, stored_version(target))
    engine = sqlite_engine(target, busy_ms=busy_ms) if isinstance(target, Path) else server_engine(target)
    try:
        with spoken(target), engine.connect():
            return engine
    except BedwalkError:
        engine.dispose()
        raise


@contextmanager
def reading(engine: Engine) -> Iterator[Door]:
    """Give what questions are asked of; all of them see one state of the garden."""
    with spoken(target_of(engine)):
        if engine.dialect.name == "sqlite":
            with closing(engine.raw_connection()) as pooled:
                file = cast(sqlite3.Connection, pooled.driver_connection)
                file.execute("BEGIN")  # ended when the connection goes back to the pool
                yield file
        else:
            with Session(engine) as session:
                yield session


@contextmanager
def writing(engine: Engine) -> Iterator[Session]:
    """Give a session whose whole block is kept or undone; other writers wait from its first moment."""
    with spoken(target_of(engine)):
        held = engine.execution_options(**{WRITES: True})
        with Session(held, expire_on_commit=False) as session, session.begin():
            yield session
