"""Questions about rankings shown, and about the history of changes."""

import json
from dataclasses import dataclass, fields
from typing import Any

from scout.store.asking import Door, first, found, rows, select


@dataclass(frozen=True)
class RankingView:
    """One ranking as it was shown; `evidence` and `answer` are JSON texts."""

    id: str
    planting_id: str
    stop_id: str | None
    knowledge_hash: str
    evidence: str
    answer: str
    asked: str | None
    chosen: str | None
    confirmed: str | None
    observed_at: str


@dataclass(frozen=True)
class ChangeView:
    """One change of one row."""

    seq: int
    entity: str
    row_id: str
    before: dict[str, Any] | None
    after: dict[str, Any] | None
    group_id: str
    undoes: str | None
    device_id: str
    author: str
    at: str


_RANKING, _CHANGE = select(RankingView, "ranking"), select(ChangeView, "change")


def last_ranking(*, session: Door, planting_id: str) -> RankingView | None:
    """Return the newest ranking shown for a planting, or None."""
    sql = f"{_RANKING} WHERE planting_id = :planting ORDER BY observed_at DESC, id DESC"
    return first(session, RankingView, sql, planting=planting_id)


def rankings(*, session: Door, garden_id: str, since: str = "") -> tuple[RankingView, ...]:
    """Return the rankings shown from the day `since` on, oldest first."""
    sql = f"{_RANKING} WHERE garden_id = :garden AND observed_at >= :since ORDER BY observed_at, id"
    return found(session, RankingView, sql, garden=garden_id, since=since)


def changes_of(*, session: Door, entity: str, row_id: str) -> tuple[ChangeView, ...]:
    """Return what happened to one row, first to last."""
    sql = f"{_CHANGE} WHERE entity = :entity AND row_id = :row ORDER BY seq"
    return _changes(session, sql, entity=entity, row=row_id)


def last_changes(*, session: Door, garden_id: str, limit: int = 100) -> tuple[ChangeView, ...]:
    """Return the newest changes of a garden, newest first."""
    sql = f"{_CHANGE} WHERE garden_id = :garden ORDER BY seq DESC LIMIT :most"
    return _changes(session, sql, garden=garden_id, most=limit)


def _changes(session: Door, sql: str, **given: Any) -> tuple[ChangeView, ...]:
    names = [field.name for field in fields(ChangeView)]
    found_rows = (dict(zip(names, row, strict=True)) for row in rows(session, sql, **given))
    return tuple(
        ChangeView(**row | {name: row[name] and json.loads(row[name]) for name in ("before", "after")})
        for row in found_rows
    )
