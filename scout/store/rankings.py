"""Questions about rankings shown."""

from dataclasses import dataclass

from scout.store.asking import Door, found, select


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


_RANKING = select(RankingView, "ranking")


def rankings(*, session: Door, garden_id: str, since: str = "") -> tuple[RankingView, ...]:
    """Return the rankings shown from the day `since` on, oldest first."""
    sql = f"{_RANKING} WHERE garden_id = :garden AND observed_at >= :since ORDER BY observed_at, id"
    return found(session, RankingView, sql, garden=garden_id, since=since)
