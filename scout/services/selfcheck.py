"""Whether all is in order: versions, data folder, garden file, knowledge; one line each, and nothing is changed."""

import os
import platform
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from scout import paths
from scout.errors import BedwalkError, StoreError
from scout.services.context import Context

_LIBRARIES = ("textual", "typer", "sqlmodel", "alembic", "pydantic", "numpy", "pillow", "rapidfuzz")
_COUNTED = ("bed", "planting", "walk", "finding", "job", "weather_day", "photo")


@dataclass(frozen=True)
class Check:
    """One thing that was looked at."""

    what: str
    ok: bool
    text: str


def selfcheck(context: Context) -> tuple[Check, ...]:
    """Return every check; one that failed says why in a sentence."""
    checks: tuple[tuple[str, Callable[[Context], str]], ...] = (
        ("program", _program),
        ("libraries", _libraries),
        ("HEIC pictures", _heic),
        ("data folder", _folder),
        ("garden file", _file),
        ("backups", _backups),
        ("knowledge", _knowledge),
        ("counts", _counts),
    )
    return tuple(_checked(what, ask, context) for what, ask in checks)


def _checked(what: str, ask: Callable[[Context], str], context: Context) -> Check:
    try:
        return Check(what, True, ask(context))
    except BedwalkError as error:
        return Check(what, False, str(error))


def _version(name: str) -> str:
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version(name)
    except PackageNotFoundError:
        return "missing"


def _program(_: Context) -> str:
    python = f"Python {platform.python_version()} on {platform.system()}"
    return f"bedwalk {_version('bedwalk')}, {python}, SQLite {sqlite3.sqlite_version}"


def _libraries(_: Context) -> str:
    versions = {name: _version(name) for name in _LIBRARIES}
    missing = [name for name, version in versions.items() if version == "missing"]
    if missing:
        raise StoreError(f"{', '.join(missing)} is missing; install Bedwalk again.")
    return ", ".join(f"{name} {version}" for name, version in versions.items())


def _heic(_: Context) -> str:
    version = _version("pi-heif")
    return "cannot be read here (pi-heif is not installed)" if version == "missing" else f"pi-heif {version}"


def _folder(context: Context) -> str:
    root = context.root
    if root.exists() and not os.access(root, os.W_OK):
        raise StoreError(f"{root} cannot be written to; change its rights, or point BEDWALK_HOME elsewhere.")
    return f"{root}" if root.exists() else f"{root} (not made yet)"


def _on_server(context: Context) -> bool:
    return context.settings.database is not None


def _file(context: Context) -> str:
    from scout.store.engines import refuse_newer, stored_version
    from scout.store.failures import spoken

    file = paths.database(context.root)
    if _on_server(context):
        return "on a server; its keeper checks it"
    if not file.exists():
        return f"{file} (no garden yet)"
    version = stored_version(file)
    refuse_newer(file, version)
    with spoken(file), closing(sqlite3.connect(file)) as connection:
        answer = str(connection.execute("PRAGMA quick_check").fetchone()[0])
    if answer != "ok":
        raise StoreError(f"{file} is damaged ({answer[:80]}); restore the newest backup with: bedwalk restore.")
    return f"{file}, whole, tables version {version}, {_size(file)}"


def _size(file: Path) -> str:
    return f"{file.stat().st_size / 1_000_000:.1f} MB"


def _backups(context: Context) -> str:
    folder = paths.backups(context.root)
    names = sorted(file.name for file in folder.glob("*.db")) if folder.is_dir() else []
    return f"{folder}, {len(names)} files, newest {names[-1]}" if names else f"{folder}, none yet"


def _knowledge(context: Context) -> str:
    from scout.errors import KnowledgeError
    from scout.knowledge.check import check_knowledge

    known = context.knowledge
    problems = check_knowledge(known, context.today)
    if problems:
        raise KnowledgeError(f"{len(problems)} problems; 'bedwalk knowledge check' lists them.")
    return f"{len(known.crops)} crops, {len(known.causes)} causes, in order ({known.hash[:12]})"


def _counts(context: Context) -> str:
    from scout.services.site import open_garden

    if not _on_server(context) and not paths.database(context.root).exists():
        return "nothing yet"
    from scout.store.whole import row_counts

    site = open_garden(context)
    if site is None:
        return "no garden yet"
    with context.read() as session:
        counts = row_counts(session=session, garden_id=str(context.garden_id))
    return ", ".join(f"{counts[name]} {name.replace('_', ' ')}s" for name in _COUNTED)
