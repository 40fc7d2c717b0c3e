"""Cases that the knowledge is held against: findings from a published description, and what they should lead to.

A case's id is `<crop>/<file>`. By a hash of it every case belongs to one of two halves, fixed before any of them was
run: the tuning half is tested and may be looked at, the other is only scored. Cases from before the split count as
looked at.
"""

import hashlib
import tomllib
from pathlib import Path

from pydantic import Field, ValidationError

from scout.errors import BadInput, NotFound
from scout.intake.written import Written
from scout.knowledge.schema import StageId
from scout.knowledge.strict import Id


class KnowledgeCase(Written):
    """One case; every key but crop may be left out, but one of the expectations must be there."""

    id: str
    crop: Id
    stage: StageId | None = None
    season: str | None = None
    seen: tuple[Id, ...] = ()
    not_seen: tuple[Id, ...] = ()
    circumstances: dict[Id, bool] = Field(default_factory=dict)
    conditions: dict[Id, bool] = Field(default_factory=dict)
    looked: int | None = None
    affected: int | None = None
    words: str | None = None
    """A grower's sentences in place of the findings."""
    first: tuple[Id, ...] = ()
    """One of these must lead."""
    top3: tuple[Id, ...] = ()
    """One of these must be among the first three."""
    not_first: tuple[Id, ...] = ()
    """None of these may lead."""
    rule_out: tuple[Id, ...] = ()
    healthy: bool = False
    """Nothing living may be named."""
    cannot_tell: bool | None = None
    stop: Id | None = None
    """The warning that comes before any ranking."""
    before_split: bool = False
    source: Id | None = None
    note: str | None = None

    @property
    def expected(self) -> tuple[str, ...]:
        """Return the causes any of which is the right answer; empty where none is named."""
        return self.first or self.top3

    @property
    def tuning(self) -> bool:
        """Return whether the case may be looked at while clues are written."""
        return self.before_split or hashlib.sha256(self.id.encode()).digest()[0] < 128


def read_cases(folder: Path) -> tuple[KnowledgeCase, ...]:
    """Return every case of a folder, in order; raises NotFound for none, BadInput naming file and key."""
    files = sorted(folder.rglob("*.toml"))
    if not files:
        raise NotFound(f"There are no cases in {folder}; name another folder with --cases.")
    return tuple(_read(file, file.relative_to(folder).with_suffix("").as_posix()) for file in files)


def _read(file: Path, key: str) -> KnowledgeCase:
    try:
        tables = tomllib.loads(file.read_text(encoding="utf-8"))
        for name in ("seen", "not_seen", "first", "top3", "not_first", "rule_out"):
            if name in tables:
                tables[name] = tuple(tables[name])
        case = KnowledgeCase.model_validate({**tables, "id": key})
    except (OSError, ValueError, ValidationError) as error:
        raise BadInput(f"{key}.toml: {str(error).splitlines()[0]} ({_place(error)}).") from None
    if not (case.expected or case.not_first or case.healthy or case.stop or case.cannot_tell is not None):
        raise BadInput(f"{key}.toml: nothing is expected; add first, top3, not_first, healthy, cannot_tell or stop.")
    return case


def _place(error: Exception) -> str:
    if isinstance(error, ValidationError):
        first = error.errors()[0]
        return f"{'.'.join(str(part) for part in first['loc'])}: {first['msg']}"
    return "mend the file"
