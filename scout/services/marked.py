"""Marked plants: measured at a stop, shown as a table and as plain numbers; the verdict is not given here."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.errors import BadInput
from scout.plain import day_text
from scout.services.context import Context
from scout.services.garden import planted_as

if TYPE_CHECKING:
    from scout.store.marked import MarkedPlantView, MeasurementView

HOW_MANY = (
    "Mark two or three plants with a tape, the worst one too, and tie a thread at leaf 10. Measured at every visit, "
    "they tell whether the spots climb faster than the plants grow."
)
COUNTED_FROM = "Leaves are counted in nodes from the soil; a leaf counts as diseased from its first spot over 2 mm."
UNSTRIPPED_ASKED = (
    "Strip this one too? A plant left unstripped shows what stripping does, but it feeds its neighbours: at most one, "
    "come to last, and no proof by itself."
)
_WINDOW_D = 120


@dataclass(frozen=True)
class MarkedView:
    """One marked plant with its last values."""

    id: str
    label: str
    habit: str
    control: bool
    last: str
    """The last measurement as a short line; empty before the first."""
    last_on: str = ""
    """Its day as a grower says it."""
    before: Mapping[str, int | None] = field(default_factory=dict)
    """Its counts by name; empty before the first."""


@dataclass(frozen=True)
class MeasuredRow:
    """One measurement as a row of the table; None was not measured."""

    on: str
    label: str
    top_leaf: int | None
    highest_diseased: int | None
    stripped_to: int | None
    newly_diseased: int | None
    leaves_standing: int | None
    wet: str


@dataclass(frozen=True)
class MarkedTable:
    """The measurements of one planting, and what they add up to in plain numbers."""

    rows: tuple[MeasuredRow, ...]
    lines: tuple[str, ...]
    top_leaf: tuple[tuple[date, float], ...]
    """Mean top leaf of the marked plants by day: one line of the chart."""
    front: tuple[tuple[date, float], ...]
    """Mean highest spotted leaf by day: the other line."""


def mark_plant(context: Context, planting_id: str, label: str, habit: str, *, control: bool = False) -> str:
    """Mark a plant that will be measured again at every visit; return its id. Errors: BadInput for a name taken."""
    from scout.services.named import full_name, said
    from scout.store.tables_follow import MarkedPlant

    if any(one.label.casefold() == label.strip().casefold() for one in marks_ever(context, planting_id)):
        name = full_name(planted_as(context, planting_id))
        raise BadInput(f"{name} has a marked plant {said(label)} already; give this one another name.")
    with context.write() as tx:
        return tx.add(MarkedPlant, planting_id=planting_id, label=label, habit=habit, control=control)


def marks_ever(context: Context, planting_id: str) -> "tuple[MarkedPlantView, ...]":
    """Return every plant that was ever marked in a planting, those measured no more too."""
    from scout.store import marked

    with context.read() as session:
        return marked.marked_plants(session=session, planting_id=planting_id, ever=True)


def leave_plant(context: Context, marked_plant_id: str) -> None:
    """Measure a marked plant no more: it died, was pulled, or lost its tape; what was counted on it stays."""
    from scout.store.tables_follow import MarkedPlant

    with context.write() as tx:
        tx.update(MarkedPlant, marked_plant_id, left_on=context.today.isoformat())


def may_stay_unstripped(context: Context, planting_id: str) -> bool:
    """Return whether a plant may be left unstripped to compare: none is yet, and every open problem allows it."""
    from scout.services.troubles import open_causes

    causes = open_causes(context, planting_id)
    left = any(mark.control for mark in marked_plants(context, planting_id))
    return not left and bool(causes) and all(cause.may_stay_unstripped for cause in causes)


def marked_plants(context: Context, planting_id: str) -> tuple[MarkedView, ...]:
    """Return the marked plants of a planting with their last values, those left unstripped last."""
    from scout.store import marked

    with context.read() as session:
        plants = marked.marked_plants(session=session, planting_id=planting_id)
        measured = marked.measurements(session=session, planting_id=planting_id)
    last = {m.marked_plant_id: m for m in measured}
    return tuple(
        MarkedView(p.id, p.label, p.habit, p.control, *_last(last.get(p.id)))
        for p in sorted(plants, key=lambda plant: plant.control)
    )


_COUNTS = ("top_leaf", "highest_diseased", "newly_diseased", "stripped_to", "leaves_standing")


def _last(m: "MeasurementView | None") -> tuple[str, str, Mapping[str, int | None]]:
    """Return the last measurement as a line, its day, and its counts."""
    if m is None:
        return "", "", {}
    day = day_text(date.fromisoformat(m.observed_at[:10]))
    return _short(m), day, {name: getattr(m, name) for name in _COUNTS}


def _short(m: object) -> str:
    values = (getattr(m, name) for name in ("top_leaf", "highest_diseased", "stripped_to", "newly_diseased"))
    top, front, strip, new = ("–" if value is None else str(value) for value in values)
    return f"{getattr(m, 'observed_at', '')[:10]}: top {top}, highest spotted {front}, stripped to {strip}, new {new}"


def measure(
    context: Context,
    marked_plant_id: str,
    *,
    stop_id: str | None = None,
    top_leaf: int | None = None,
    highest_diseased: int | None = None,
    stripped_to: int | None = None,
    newly_diseased: int | None = None,
    leaves_standing: int | None = None,
    severity_pct: float | None = None,
    wet: str = "not_felt",
) -> str:
    """Keep one measurement as typed; return its id. What can hardly be is asked about before: see `marked_doubts`."""
    from scout.store.tables_follow import Measurement

    at, offset = context.moment()
    with context.write() as tx:
        return tx.add(
            Measurement,
            marked_plant_id=marked_plant_id,
            stop_id=stop_id,
            top_leaf=top_leaf,
            highest_diseased=highest_diseased,
            stripped_to=stripped_to,
            newly_diseased=newly_diseased,
            leaves_standing=leaves_standing,
            severity_pct=severity_pct,
            wet=wet,
            observed_at=at,
            observed_offset_min=offset,
        )


def marked_table(context: Context, planting_id: str) -> MarkedTable:
    """Return the table of a planting's marked plants with the plain numbers below it."""
    from scout.store import marked

    since = (context.today - timedelta(days=_WINDOW_D)).isoformat()
    with context.read() as session:
        found = marked.measurements(session=session, planting_id=planting_id)
    rows = tuple(
        MeasuredRow(
            m.observed_at[:10],
            m.label,
            m.top_leaf,
            m.highest_diseased,
            m.stripped_to,
            m.newly_diseased,
            m.leaves_standing,
            m.wet,
        )
        for m in found
        if m.observed_at >= since
    )
    return table_of(rows)


def table_of(rows: Sequence[MeasuredRow]) -> MarkedTable:
    """Return the table of measurements from anywhere: the store, or a CSV file."""
    ordered = tuple(sorted(rows, key=lambda row: (row.on, row.label)))
    top = _daily(ordered, "top_leaf")
    front = _daily(ordered, "highest_diseased")
    return MarkedTable(ordered, tuple(_numbers(ordered, top, front)), top, front)


def _daily(rows: Sequence[MeasuredRow], name: str) -> tuple[tuple[date, float], ...]:
    by_day: dict[str, list[int]] = {}
    for row in rows:
        value = getattr(row, name)
        if value is not None:
            by_day.setdefault(row.on, []).append(value)
    return tuple((date.fromisoformat(day), sum(values) / len(values)) for day, values in sorted(by_day.items()))


def _numbers(
    rows: Sequence[MeasuredRow], top: Sequence[tuple[date, float]], front: Sequence[tuple[date, float]]
) -> list[str]:
    if len(front) < 2 or len(top) < 2:
        return ["Measured fewer than twice: nothing can be compared yet."]
    lines = [_movement("Top leaf", top), _movement("Highest spotted leaf", front)]
    lines.append(f"Clean leaves above it: {top[-1][1] - front[-1][1]:.0f} (first visit {top[0][1] - front[0][1]:.0f}).")
    lines += _new_leaves(rows)
    lines.append("Less spotted leaf area after stripping proves nothing: the spotted leaves are gone.")
    return lines


def _movement(name: str, series: Sequence[tuple[date, float]]) -> str:
    (first, low), (last, high) = series[0], series[-1]
    days = (last - first).days
    speed = (high - low) / days if days else 0.0
    return f"{name}: {low:.0f} to {high:.0f} in {days} days ({speed:+.2f} leaves a day)."


def _new_leaves(rows: Sequence[MeasuredRow]) -> list[str]:
    """Return newly spotted leaves before and after the first stripping, or of two halves, compared exactly."""
    from scout.science.counts import compare_poisson_counts

    spans = _spans(rows)
    if len(spans) < 2:
        return []
    stripped = min((row.on for row in rows if row.stripped_to), default=None)
    middle = len(spans) // 2 if stripped is None else sum(day <= stripped for day, _, _ in spans)
    (x1, t1), (x2, t2) = _total(spans[:middle]), _total(spans[middle:])
    compared = compare_poisson_counts(x1, t1, x2, t2) if t1 and t2 else None
    if compared is None:
        return []
    weeks = f"{x1} in {t1 / 7:.1f} plant-weeks, then {x2} in {t2 / 7:.1f}"
    return [f"Newly spotted leaves: {weeks} (chance alone: p {compared.p_least_likely:.2g})."]


def _spans(rows: Sequence[MeasuredRow]) -> list[tuple[str, int, int]]:
    """Return (day, newly spotted leaves, plant-days since the plant's visit before) for every counted visit."""
    before: dict[str, str] = {}
    spans = []
    for row in rows:
        if row.newly_diseased is not None and row.label in before:
            days = (date.fromisoformat(row.on) - date.fromisoformat(before[row.label])).days
            if days > 0:
                spans.append((row.on, row.newly_diseased, days))
        before[row.label] = row.on
    return spans


def _total(spans: Sequence[tuple[str, int, int]]) -> tuple[int, int]:
    return sum(new for _, new, _ in spans), sum(days for _, _, days in spans)
