"""Questions about marked plants and what was measured on them."""

from dataclasses import dataclass

from sqlmodel import Session, col

from scout.store.tables_follow import MarkedPlantRow, MeasurementRow
from scout.store.views import select_view, views


@dataclass(frozen=True)
class MarkedPlantView:
    """One marked plant."""

    id: str
    planting_id: str
    label: str
    habit: str
    control: bool


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


def marked_plants(*, session: Session, planting_id: str) -> tuple[MarkedPlantView, ...]:
    """Return the marked plants of a planting in the order they were marked."""
    query = select_view(MarkedPlantView, MarkedPlantRow).where(col(MarkedPlantRow.planting_id) == planting_id)
    return views(session, MarkedPlantView, query.order_by(col(MarkedPlantRow.id)))


def measurements(*, session: Session, planting_id: str) -> tuple[MeasurementView, ...]:
    """Return every measurement of a planting's marked plants, oldest first."""
    query = (
        select_view(MeasurementView, MeasurementRow, label=col(MarkedPlantRow.label))
        .join(MarkedPlantRow, col(MarkedPlantRow.id) == col(MeasurementRow.marked_plant_id))
        .where(col(MarkedPlantRow.planting_id) == planting_id)
        .order_by(col(MeasurementRow.observed_at), col(MarkedPlantRow.id), col(MeasurementRow.id))
    )
    return views(session, MeasurementView, query)


def last_measured(*, session: Session, garden_id: str) -> dict[str, str]:
    """Return when each planting with marked plants was last measured, by planting id; "" for never."""
    marked = select_view(MarkedPlantView, MarkedPlantRow).where(col(MarkedPlantRow.garden_id) == garden_id)
    last = {plant.planting_id: "" for plant in views(session, MarkedPlantView, marked)}
    query = (
        marked.with_only_columns(col(MarkedPlantRow.planting_id), col(MeasurementRow.observed_at))
        .join(MeasurementRow, col(MeasurementRow.marked_plant_id) == col(MarkedPlantRow.id))
        .order_by(col(MeasurementRow.observed_at))
    )
    return last | {str(planting): str(at) for planting, at in session.connection().execute(query)}
