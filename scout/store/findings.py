"""Questions about what was seen."""

from dataclasses import dataclass

from scout.store.asking import Door, end_of, first, found, rows, select

BedFinding = tuple[str, str, str, int | None, int | None]
"""observed_at, symptom, state, looked_n, affected_n."""


@dataclass(frozen=True)
class FindingView:
    """One finding."""

    id: str
    stop_id: str | None
    planting_id: str
    bed_id: str | None
    symptom: str
    state: str
    looked_n: int | None
    affected_n: int | None
    severity_outer_pct: float | None
    severity_middle_pct: float | None
    severity_inner_pct: float | None
    place: str | None
    which_plants: str | None
    note: str
    manner: str
    observed_at: str
    observed_offset_min: int | None


_FINDING = select(FindingView, "finding")
LAST_OF_BED = """
    SELECT observed_at, symptom, state, looked_n, affected_n FROM finding
    WHERE bed_id = :bed ORDER BY observed_at DESC LIMIT :most
"""


def finding(*, session: Door, finding_id: str) -> FindingView | None:
    """Return one finding, or None."""
    return first(session, FindingView, f"{_FINDING} WHERE id = :finding", finding=finding_id)


def findings_since(*, session: Door, planting_id: str, since: str) -> tuple[FindingView, ...]:
    """Return the findings of a planting from the day `since` on, oldest first."""
    sql = f"{_FINDING} WHERE planting_id = :planting AND observed_at >= :since ORDER BY observed_at, id"
    return found(session, FindingView, sql, planting=planting_id, since=since)


def seen_elsewhere(*, session: Door, garden_id: str, planting_id: str, since: str) -> tuple[tuple[str, str, str], ...]:
    """Return crop, symptom and state of what was found on the other plantings that stand, from the day `since` on."""
    sql = """
        SELECT DISTINCT planting.crop, finding.symptom, finding.state FROM planting
        JOIN finding ON finding.planting_id = planting.id AND finding.observed_at >= :since
        WHERE planting.garden_id = :garden AND planting.removed_on IS NULL AND planting.id <> :planting
    """
    told = rows(session, sql, garden=garden_id, planting=planting_id, since=since)
    return tuple((str(crop), str(symptom), str(state)) for crop, symptom, state in told)


def findings_of_stop(*, session: Door, stop_id: str) -> tuple[FindingView, ...]:
    """Return the findings of one stop, oldest first."""
    return found(session, FindingView, f"{_FINDING} WHERE stop_id = :stop ORDER BY observed_at, id", stop=stop_id)


def last_findings(*, session: Door, garden_id: str, since: str) -> dict[str, FindingView]:
    """Return the newest finding seen on each planting from the day `since` on, by planting id."""
    sql = f"""
        {_FINDING} JOIN planting ON finding.id = (
            SELECT newest.id FROM finding newest
            WHERE newest.planting_id = planting.id AND newest.state = 'seen' AND newest.observed_at >= :since
            ORDER BY newest.observed_at DESC, newest.id DESC LIMIT 1
        ) WHERE planting.garden_id = :garden
    """
    return {one.planting_id: one for one in found(session, FindingView, sql, garden=garden_id, since=since)}


def last_of_bed(*, session: Door, bed_id: str, limit: int = 200) -> tuple[BedFinding, ...]:
    """Return the newest findings of a bed as plain tuples, newest first."""
    return tuple(tuple(row) for row in rows(session, LAST_OF_BED, bed=bed_id, most=limit))


def first_seen(*, session: Door, garden_id: str, symptom: str, since: str, until: str) -> str | None:
    """Return when a symptom was first seen in the garden from the day `since` to the day `until`, or None."""
    sql = """
        SELECT min(observed_at) FROM finding
        WHERE garden_id = :garden AND symptom = :symptom AND state = 'seen'
          AND observed_at >= :since AND observed_at < :until
    """
    ((at,),) = rows(session, sql, garden=garden_id, symptom=symptom, since=since, until=end_of(until))
    return None if at is None else str(at)
