"""The two engines, and which version of the tables a garden has."""

from pathlib import Path
from typing import Any

from sqlalchemy import URL, Engine, create_engine, event, inspect, text
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError

from scout.errors import MissingExtra, StoreError
from scout.store.failures import spoken, spoken_name
from scout.store.plain_file import BUSY_MS, version_in_file
from scout.store.version import KNOWN_VERSIONS, SCHEMA_VERSION

WRITES = "bedwalk_writes"
"""Execution option of a connection that will write: SQLite then takes its lock at once."""


def stored_version(target: Path | str) -> str | None:
    """Return the revision of the tables; None where there is no garden yet. Asks plain sqlite3 of a file."""
    return version_in_file(target) if isinstance(target, Path) else _version_on_server(target)


def refuse_other_version(target: Path | str, version: str | None) -> None:
    """Raise StoreError unless `version` is the one this program reads."""
    name = spoken_name(target)
    if version is None:
        raise StoreError(f"There is no garden in {name}; start one with: bedwalk garden new.")
    refuse_newer(target, version)
    if version != SCHEMA_VERSION:
        raise StoreError(f"{name} was written by an older Bedwalk and has not been brought up to date yet.")


def refuse_newer(target: Path | str, version: str | None) -> None:
    """Raise StoreError for a garden this program does not know how to read."""
    if version is not None and version not in KNOWN_VERSIONS:
        raise StoreError(
            f"{spoken_name(target)} was written by a newer Bedwalk (its tables are version {version}, this "
            f"program reads up to {SCHEMA_VERSION}); install the newer Bedwalk, nothing was changed."
        )


def target_of(engine: Engine) -> Path | str:
    """Return the file or URL behind an engine."""
    if engine.dialect.name == "sqlite":
        return Path(engine.url.database or "")
    return engine.url.render_as_string(hide_password=False)


def sqlite_engine(path: Path, *, busy_ms: int = BUSY_MS, foreign_keys: bool = True) -> Engine:
    """Return an engine on an SQLite file, looking at nothing in it yet."""
    url = URL.create("sqlite", database=str(path))
    engine = create_engine(
        url, hide_parameters=True, connect_args={"timeout": busy_ms / 1000, "check_same_thread": False}
    )

    @event.listens_for(engine, "connect")
    def _prepare(connection: Any, _record: Any) -> None:
        connection.isolation_level = None  # begin is said below, so that DDL and locks obey it too
        connection.execute(f"PRAGMA busy_timeout = {int(busy_ms)}")
        connection.execute(f"PRAGMA foreign_keys = {'ON' if foreign_keys else 'OFF'}")
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = FULL")

    @event.listens_for(engine, "begin")
    def _begin(connection: Any) -> None:
        immediate = connection.get_execution_options().get(WRITES)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if immediate else "BEGIN")

    return engine


def server_engine(url: str) -> Engine:
    """Return an engine on a PostgreSQL server; raises StoreError for any other URL, MissingExtra for no driver."""
    try:
        parsed = make_url(url)
    except ArgumentError:
        parsed = URL.create("unreadable")
    if parsed.drivername not in ("postgresql", "postgres", "postgresql+psycopg"):
        raise StoreError("The database must be a file, or a URL such as postgresql://user@host/garden.")
    try:
        return create_engine(
            parsed.set(drivername="postgresql+psycopg"),
            hide_parameters=True,
            pool_pre_ping=True,
            connect_args={"connect_timeout": 10},
        )
    except ModuleNotFoundError:
        line = "pip install 'bedwalk[postgres]'"
        raise MissingExtra(f"A garden on a server needs one more library: {line}") from None


def _version_on_server(url: str) -> str | None:
    engine = server_engine(url)
    try:
        with spoken(url), engine.connect() as connection:
            if not inspect(connection).has_table("alembic_version"):
                return None
            found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
            return None if found is None else str(found)
    finally:
        engine.dispose()
