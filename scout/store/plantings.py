"""Questions about plantings: what stands where, how many plants, how it is grown."""

from collections.abc import Sequence
from dataclasses import dataclass

from scout.store.asking import Door, end_of, found, rows, select


@dataclass(frozen=True)
class PlantingView:
    """One planting."""

    id: str
    crop: str
    variety_label: str | None
    variety_found: str | None
    identity: str
    origin: str
    habit: str | None
    sown_on: str | None
    set_out_on: str | None
    removed_on: str | None
    removed_why: str | None
    stage_override: str | None
    note: str


@dataclass(frozen=True)
class PlaceView:
    """A planting in a bed, for a time."""

    id: str
    planting_id: str
    bed_id: str
    from_on: str
    until_on: str | None


@dataclass(frozen=True)
class CountView:
    """How many plants stood on a day."""

    planting_id: str
    counted_on: str
    plants_n: int


_PLANTING, _PLACE = select(PlantingView, "planting"), select(PlaceView, "planting_bed")
STANDS = """
    (planting.removed_on IS NULL OR planting.removed_on > :day)
    AND (coalesce(planting.sown_on, planting.set_out_on) IS NULL
         OR coalesce(planting.sown_on, planting.set_out_on) <= :day)
"""
"""Condition that a planting is in the ground or in a tray on `:day`."""


def plantings(*, session: Door, garden_id: str, on: str | None = None) -> tuple[PlantingView, ...]:
    """Return plantings, oldest first; with a day `on`, those in the ground or in a tray on that day."""
    standing = "" if on is None else f"AND {STANDS}"
    sql = f"{_PLANTING} WHERE garden_id = :garden {standing} ORDER BY sown_on, id"
    return found(session, PlantingView, sql, garden=garden_id, day=on)


def places(*, session: Door, garden_id: str, on: str) -> tuple[PlaceView, ...]:
    """Return which planting stands in which bed on a day, in walking order."""
    sql = f"""
        {_PLACE}
        JOIN bed ON bed.id = planting_bed.bed_id
        JOIN planting ON planting.id = planting_bed.planting_id
        WHERE planting_bed.garden_id = :garden AND planting_bed.from_on <= :day AND {STANDS}
        AND (planting_bed.until_on IS NULL OR planting_bed.until_on >= :day)
        AND (bed.retired_on IS NULL OR bed.retired_on > :day)
        ORDER BY bed.position, bed.name, planting_bed.from_on, planting_bed.id
    """
    return found(session, PlaceView, sql, garden=garden_id, day=on)


def plant_counts(*, session: Door, garden_id: str, on: str) -> dict[str, CountView]:
    """Return the newest count up to a day of each planting that stands on it, by planting id."""
    sql = f"""
        {select(CountView, "plant_count")} JOIN planting ON planting.id = plant_count.planting_id
        WHERE planting.garden_id = :garden AND plant_count.counted_on <= :day AND {STANDS}
        ORDER BY plant_count.counted_on, plant_count.entered_at, plant_count.id
    """
    return {count.planting_id: count for count in found(session, CountView, sql, garden=garden_id, day=on)}


def circumstances_said(*, session: Door, planting_id: str) -> dict[str, tuple[bool, str]]:
    """Return the newest answer to each question of how a planting is grown, and when it was given."""
    sql = """
        SELECT circumstance, value, observed_at FROM circumstance WHERE planting_id = :planting
        ORDER BY observed_at, entered_at, id
    """
    told = rows(session, sql, planting=planting_id)
    return {str(name): (bool(value), str(at)) for name, value, at in told}


def newest_circumstance(*, session: Door, planting_id: str, names: Sequence[str], since: str, until: str) -> str | None:
    """Return which of these was answered yes last, in the days from `since` to `until`; None where none was."""
    sql = """
        SELECT circumstance, value FROM circumstance
        WHERE planting_id = :planting AND observed_at >= :since AND observed_at < :until
        ORDER BY observed_at, entered_at, id
    """
    told = [
        (str(name), bool(value))
        for name, value in rows(session, sql, planting=planting_id, since=since, until=end_of(until))
        if name in names
    ]
    newest = dict(told)
    return next((name for name, _ in reversed(told) if newest[name]), None)
