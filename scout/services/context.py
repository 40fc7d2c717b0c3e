"""The seams: clock, ids, data folder and knowledge, opened once and handed to every service."""

import os
import threading
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar
from zoneinfo import ZoneInfo

from scout import paths
from scout.errors import StoreError
from scout.settings import Settings, read_settings

if TYPE_CHECKING:
    from sqlalchemy import Engine

    from scout.knowledge.base import Knowledge
    from scout.store.asking import Door
    from scout.store.history import Stamp, Transaction

T = TypeVar("T")


def system_now() -> datetime:
    """Return the present instant; the only place where the clock is read."""
    return datetime.now(UTC)


class _Open(threading.local):
    """What one thread has open: the screen and its worker never share a session."""

    def __init__(self) -> None:
        self.tx: Transaction | None = None
        self.door: Door | None = None
        self.held: dict[str, Any] | None = None


@dataclass
class Context:
    """One opened garden: where its data lies, what time it is, what is known."""

    root: Path
    clock: Callable[[], datetime] = system_now
    on: date | None = None
    """The day to pretend, from --on; None: the clock's day in the garden's own zone."""
    zone: ZoneInfo | None = None
    """The garden's time zone once it is known; None: this machine's."""
    garden_id: str | None = None
    device_id: str = ""
    _lock: threading.Lock = field(default_factory=threading.Lock, repr=False)
    _last_id: str | None = field(default=None, repr=False)
    _mine: "_Open" = field(default_factory=lambda: _Open(), repr=False)

    @cached_property
    def settings(self) -> Settings:
        """Return the settings of this device."""
        return read_settings(paths.settings_file(self.root))

    @cached_property
    def knowledge(self) -> "Knowledge":
        """Return the knowledge base, from its compiled copy where that fits."""
        from scout.knowledge.load import load_knowledge

        return load_knowledge(paths.knowledge_folder(), paths.cache())

    @property
    def _target(self) -> Path | str:
        """Return the file or the server that holds the garden."""
        return self.settings.database or paths.database(self.root)

    @cached_property
    def engine(self) -> "Engine":
        """Return the open store, made or migrated first where needed."""
        from scout.store.database import ensure_schema, open_engine

        target = self._target
        if isinstance(target, Path):
            try:
                target.parent.mkdir(parents=True, exist_ok=True)
            except OSError as error:
                raise StoreError(f"{target.parent}: the folder cannot be made ({error.strerror}).") from None
        ensure_schema(target)
        return open_engine(target)

    @property
    def here_and_now(self) -> datetime:
        """Return the local wall time with its offset; on a pretended day, the clock's time of that day."""
        now = self.clock().astimezone(self.zone)
        if self.on is None:
            return now
        return now.replace(year=self.on.year, month=self.on.month, day=self.on.day)

    @property
    def today(self) -> date:
        """Return the garden's day."""
        return self.here_and_now.date()

    def moment(self) -> tuple[str, int]:
        """Return the local wall time as text to the minute, and its offset from UTC in minutes."""
        now = self.here_and_now
        offset = now.utcoffset()
        return now.strftime("%Y-%m-%dT%H:%M"), int(offset.total_seconds() // 60) if offset else 0

    def new_id(self) -> str:
        """Return a new id that sorts after every id made before it by this program."""
        from scout.store.ids import id_after

        with self._lock:
            self._last_id = id_after(self._last_id, int(self.clock().timestamp() * 1000), os.urandom(10))
            return self._last_id

    @property
    def stamp(self) -> "Stamp":
        """Return who writes, on which device, when: what every stored row carries."""
        from scout.store.history import Stamp

        if self.garden_id is None:
            raise StoreError("There is no garden yet; set one up first.")
        return Stamp(
            garden_id=self.garden_id,
            device_id=self.device_id,
            author=self.settings.author,
            now_utc=self.clock().astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
            new_id=self.new_id,
        )

    @contextmanager
    def write(self) -> "Iterator[Transaction]":
        """Give the transaction of one act: all of it is kept or none; a write inside a write joins it."""
        mine = self._mine
        if mine.tx is not None:
            yield mine.tx
            return
        from scout.store.history import transaction

        outer = (mine.door, mine.held)
        with transaction(self.engine, self.stamp) as tx:
            mine.tx, mine.door, mine.held = tx, tx.session, {}
            try:
                yield tx
            finally:
                mine.tx = None
                mine.door, mine.held = outer

    @contextmanager
    def read(self) -> "Iterator[Door]":
        """Give what questions are asked of; a read inside another, or inside a write, asks the same state of the store.

        A file is asked by itself until something is written: the first screen waits for no library.
        """
        mine = self._mine
        if mine.door is not None:
            yield mine.door
            return
        with self._door() as door:
            mine.door, mine.held = door, {}
            try:
                yield door
            finally:
                mine.door = mine.held = None

    def _door(self) -> "AbstractContextManager[Door]":
        if "engine" not in self.__dict__ and self._plain_file is not None:
            from scout.store.plain_file import reading_file

            return reading_file(self._plain_file)
        from scout.store.database import reading

        return reading(self.engine)

    @cached_property
    def _plain_file(self) -> Path | None:
        """Return the file of a garden whose tables are of today's shape; None where it must be made first."""
        from scout.store.plain_file import version_in_file
        from scout.store.version import SCHEMA_VERSION

        target = self._target
        return target if isinstance(target, Path) and version_in_file(target) == SCHEMA_VERSION else None

    def once(self, question: str, ask: Callable[[], T]) -> T:
        """Return the answer to a question: asked once inside one read or write, anew each time outside."""
        held = self._mine.held
        if held is None:
            return ask()
        if question not in held:
            held[question] = ask()
        answer: T = held[question]
        return answer

    def ask_anew(self) -> None:
        """Forget what was asked inside this write, since it changes what the answers rest on."""
        if self._mine.held is not None:
            self._mine.held.clear()
