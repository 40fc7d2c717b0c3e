"""Questions about marked plants and what was measured on them."""

from dataclasses import dataclass

from scout.store.asking import Door, found, select


@dataclass(frozen=True)
class MarkedPlantView:
    """One marked plant."""

    id: str
    planting_id: str
    label: str
    habit: str
    control: bool
    left_on: str | None


@dataclass(frozen=True)
class MeasurementView:
    """One marked plant on one day."""

    id: str
    marked_plant_id: str
    label: str
    observed_at: str
    observed_offset_min: int | None
    top_leaf: int | None
    highest_diseased: int | None
    stripped_to: int | None
    newly_diseased: int | None
    leaves_standing: int | None
    wet: str
    severity_pct: float | None
    stop_id: str | None


def marked_plants(*, session: Door, planting_id: str, ever: bool = False) -> tuple[MarkedPlantView, ...]:
    """Return the marked plants of a planting in the order they were marked; `ever`: those measured no more too."""
    still = "" if ever else "AND left_on IS NULL"
    sql = f"{select(MarkedPlantView, 'marked_plant')} WHERE planting_id = :planting {still} ORDER BY id"
    return found(session, MarkedPlantView, sql, planting=planting_id)


def measurements(*, session: Door, planting_id: str) -> tuple[MeasurementView, ...]:
    """Return every measurement of a planting's marked plants, oldest first."""
    sql = f"""
        {select(MeasurementView, "measurement", label="marked_plant.label")}
        JOIN marked_plant ON marked_plant.id = measurement.marked_plant_id
        WHERE marked_plant.planting_id = :planting
        ORDER BY measurement.observed_at, marked_plant.id, measurement.id
    """
    return found(session, MeasurementView, sql, planting=planting_id)
