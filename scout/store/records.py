"""Questions about what is logged along the way: picks, water, arrivals, reports, natural enemies."""

from dataclasses import dataclass

from scout.store.asking import Door, end_of, found, select


@dataclass(frozen=True)
class PickView:
    """One pick of one planting."""

    id: str
    planting_id: str
    sound_n: int
    odd_n: int
    weight_g: float | None
    observed_at: str


@dataclass(frozen=True)
class WateringView:
    """What happened to the water."""

    id: str
    water_zone: str | None
    bed_id: str | None
    outcome: str
    observed_at: str


@dataclass(frozen=True)
class ArrivalView:
    """What came in from outside."""

    id: str
    what: str
    bed_id: str | None
    on: str


@dataclass(frozen=True)
class NearReportView:
    """A disease reported near here."""

    id: str
    disease: str
    distance_km: float | None
    reported_on: str


@dataclass(frozen=True)
class EnemyView:
    """A natural enemy seen."""

    id: str
    planting_id: str
    enemy: str
    count_n: int | None
    observed_at: str


def picks(
    *, session: Door, garden_id: str, since: str, until: str, planting_id: str | None = None
) -> tuple[PickView, ...]:
    """Return the picks from the day `since` to the day `until`, oldest first; of one planting where it is named."""
    of_one = "" if planting_id is None else "AND planting_id = :planting"
    sql = f"""
        {select(PickView, "pick")} WHERE garden_id = :garden {of_one}
        AND observed_at >= :since AND observed_at < :until ORDER BY observed_at, id
    """
    return found(session, PickView, sql, garden=garden_id, planting=planting_id, since=since, until=end_of(until))


def waterings(*, session: Door, garden_id: str, since: str, until: str) -> tuple[WateringView, ...]:
    """Return what was noted of the water from the day `since` to the day `until`, oldest first."""
    sql = f"""
        {select(WateringView, "watering")} WHERE garden_id = :garden
        AND observed_at >= :since AND observed_at < :until ORDER BY observed_at, id
    """
    return found(session, WateringView, sql, garden=garden_id, since=since, until=end_of(until))


def arrivals(*, session: Door, garden_id: str, since: str) -> tuple[ArrivalView, ...]:
    """Return what came in from the day `since` on, oldest first."""
    sql = f"""
        {select(ArrivalView, "brought_in")} WHERE garden_id = :garden AND "on" >= :since ORDER BY "on", id
    """
    return found(session, ArrivalView, sql, garden=garden_id, since=since)


def near_reports(*, session: Door, garden_id: str, since: str) -> tuple[NearReportView, ...]:
    """Return the diseases reported near here from the day `since` on, oldest first."""
    sql = f"""
        {select(NearReportView, "near_report")} WHERE garden_id = :garden AND reported_on >= :since
        ORDER BY reported_on, id
    """
    return found(session, NearReportView, sql, garden=garden_id, since=since)


def enemies_seen(*, session: Door, planting_id: str, since: str) -> tuple[EnemyView, ...]:
    """Return the natural enemies seen on a planting from the day `since` on, oldest first."""
    sql = f"""
        {select(EnemyView, "enemy_seen")} WHERE planting_id = :planting AND observed_at >= :since
        ORDER BY observed_at, id
    """
    return found(session, EnemyView, sql, planting=planting_id, since=since)
