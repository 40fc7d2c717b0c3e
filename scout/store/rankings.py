"""Questions about rankings shown, and about the history of changes."""

import json
from dataclasses import dataclass
from typing import Any

from sqlalchemy import select
from sqlmodel import Session, col

from scout.store.tables_follow import RankingRow
from scout.store.tables_history import ChangeRow
from scout.store.views import first_view, select_view, views


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


def last_ranking(*, session: Session, planting_id: str) -> RankingView | None:
    """Return the newest ranking shown for a planting, or None."""
    query = select_view(RankingView, RankingRow).where(col(RankingRow.planting_id) == planting_id)
    return first_view(
        session, RankingView, query.order_by(col(RankingRow.observed_at).desc(), col(RankingRow.id).desc())
    )


def rankings(*, session: Session, garden_id: str, since: str = "") -> tuple[RankingView, ...]:
    """Return the rankings shown from the day `since` on, oldest first."""
    query = select_view(RankingView, RankingRow).where(
        col(RankingRow.garden_id) == garden_id, col(RankingRow.observed_at) >= since
    )
    return views(session, RankingView, query.order_by(col(RankingRow.observed_at), col(RankingRow.id)))


def changes_of(*, session: Session, entity: str, row_id: str) -> tuple[ChangeView, ...]:
    """Return what happened to one row, first to last."""
    query = _changes().where(col(ChangeRow.entity) == entity, col(ChangeRow.row_id) == row_id)
    return _read(session, query.order_by(col(ChangeRow.seq)))


def last_changes(*, session: Session, garden_id: str, limit: int = 100) -> tuple[ChangeView, ...]:
    """Return the newest changes of a garden, newest first."""
    query = _changes().where(col(ChangeRow.garden_id) == garden_id)
    return _read(session, query.order_by(col(ChangeRow.seq).desc()).limit(limit))


def _changes() -> Any:
    return select(*(getattr(ChangeRow, name) for name in ChangeView.__dataclass_fields__))


def _read(session: Session, query: Any) -> tuple[ChangeView, ...]:
    found = []
    for row in session.connection().execute(query).mappings():
        held = {name: None if row[name] is None else json.loads(row[name]) for name in ("before", "after")}
        found.append(ChangeView(**dict(row) | held))
    return tuple(found)
