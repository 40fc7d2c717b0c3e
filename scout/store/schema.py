"""Makes the tables, or brings an older garden up to date; alembic is loaded only then."""

import os
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Literal

from sqlalchemy import Connection, text

from scout import paths
from scout.errors import BedwalkError, StoreError
from scout.store.backups import free_name, restore
from scout.store.engines import refuse_newer, server_engine, sqlite_engine, stored_version
from scout.store.failures import spoken
from scout.store.version import SCHEMA_VERSION

Made = Literal["current", "created", "migrated"]
_ONE_AT_A_TIME = 7_261_101  # any number: the advisory lock two migrating clients contend for


def ensure_schema(target: Path | str) -> Made:
    """Create the garden, or migrate it, and return what was done; a garden of today's shape is left alone.

    An SQLite file is first copied into the backups folder beside it, migrated in one transaction, checked,
    and put back as it was should anything fail. Raises StoreError; then the garden is as before.
    """
    version = stored_version(target)
    refuse_newer(target, version)
    if version == SCHEMA_VERSION:
        return "current"
    if isinstance(target, str):
        _migrate_server(target)
    elif version is None:
        _create_file(target)
    else:
        _migrate_file(target, version)
    return "created" if version is None else "migrated"


def _create_file(path: Path) -> None:
    fresh = path.with_name(f".{path.name}.{os.getpid()}.new")
    with spoken(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        fresh.unlink(missing_ok=True)
        try:
            _upgrade_file(fresh)
            with closing(sqlite3.connect(fresh)) as connection:
                connection.execute("PRAGMA journal_mode = DELETE")
            if path.exists():
                raise StoreError(f"{path} was made by another program at the same moment; open it again.")
            os.rename(fresh, path)
        finally:
            for tail in ("", "-wal", "-shm", "-journal"):
                fresh.with_name(fresh.name + tail).unlink(missing_ok=True)


def _migrate_file(path: Path, version: str) -> None:
    folder = paths.backups(path.parent)
    with spoken(path):
        folder.mkdir(parents=True, exist_ok=True)
        kept = free_name(folder, f"{path.stem}-{version}-before-{SCHEMA_VERSION}")
        with closing(sqlite3.connect(path)) as connection:
            connection.execute("VACUUM INTO ?", (str(kept),))
    try:
        _upgrade_file(path)
    except Exception as failed:
        restore(kept, path)
        if isinstance(failed, BedwalkError):
            raise
        raise StoreError(
            f"{path} could not be brought up to date and is as it was before; a copy is in {kept}."
        ) from failed


def _upgrade_file(path: Path) -> None:
    engine = sqlite_engine(path, foreign_keys=False)
    try:
        with spoken(path), engine.begin() as connection:
            _upgrade(connection)
            if connection.execute(text("PRAGMA foreign_key_check")).first() is not None:
                raise StoreError(f"{path} holds rows that belong to nothing, so it was left as it was.")
        with spoken(path), engine.connect() as connection:
            if connection.execute(text("PRAGMA quick_check")).scalar() != "ok":
                raise StoreError(f"{path} is damaged; restore a backup.")
    finally:
        engine.dispose()


def _migrate_server(url: str) -> None:
    engine = server_engine(url)
    try:
        with spoken(url), engine.begin() as connection:
            connection.execute(text(f"SELECT pg_advisory_xact_lock({_ONE_AT_A_TIME})"))
            _upgrade(connection)
    finally:
        engine.dispose()


def _upgrade(connection: Connection) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    folder = Path(__file__).resolve().parent / "migrations"
    config.set_main_option("script_location", str(folder).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
