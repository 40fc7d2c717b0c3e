"""Where the verdict on stripping takes its counts from: the garden's marked plants, or a CSV file."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from scout import paths
from scout.services.context import Context
from scout.services.garden import Planted, planted
from scout.services.keeping_followed import Followed, Fruit, Habit, diseases_named
from scout.services.marked import MeasuredRow, marked_plants, marked_table, marks_ever
from scout.services.named import full_name

if TYPE_CHECKING:
    from scout.intake.marked_csv import MarkedRow
    from scout.knowledge.base import Knowledge


def followed_in_garden(context: Context, plant: Planted, fruit: Fruit | None = None) -> Followed:
    """Return a planting's marked plants with its open problems; plants left unstripped are no part of the verdict."""
    from scout.services.troubles import open_causes

    marks = marked_plants(context, plant.planting_id)
    left = {mark.label for mark in marks_ever(context, plant.planting_id) if mark.control}
    measured = marked_table(context, plant.planting_id).rows
    rows = tuple(row for row in measured if row.label not in left)
    habits = [mark.habit for mark in marks if not mark.control] or [plant.habit or ""]
    stops = next((habit for habit in habits if habit in ("determinate", "topped")), None)
    habit: Habit = "indeterminate" if stops is None else "topped" if stops == "topped" else "determinate"
    found = Followed(full_name(plant), rows, open_causes(context, plant.planting_id), habit=habit, fruit=fruit)
    unstripped = tuple(row for row in measured if row.label in left)
    return replace(found, wet=_wet_nights(context, rows), unstripped=unstripped, warmth=_warmth(context, rows))


def _warmth(context: Context, rows: tuple[MeasuredRow, ...]) -> dict[date, float]:
    """Return the mean of high and low of each recorded day since the first measurement."""
    from scout.services.weather import days_between

    if not rows:
        return {}
    days = days_between(context, date.fromisoformat(min(row.on for row in rows)), context.today)
    return {
        day.on: (day.tmax_c + day.tmin_c) / 2.0 for day in days if day.tmax_c is not None and day.tmin_c is not None
    }


def _wet_nights(context: Context, rows: tuple[MeasuredRow, ...]) -> str:
    """Return how many mornings were wet between the last two visits, and on how many that was not recorded."""
    from scout.services.weather import days_between

    visits = sorted({row.on for row in rows})
    if len(visits) < 2:
        return ""
    first, last = date.fromisoformat(visits[-2]), date.fromisoformat(visits[-1])
    days = days_between(context, first + timedelta(days=1), last)
    known = [day.wet_morning for day in days if day.wet_morning is not None]
    unknown = (last - first).days - len(known)
    if not known:
        return "Wet mornings since the visit before: not recorded."
    return f"Wet mornings since the visit before: {sum(known)} of {len(known)}" + (
        f" ({unknown} not recorded)." if unknown else "."
    )


def marked_plantings(context: Context) -> tuple[Planted, ...]:
    """Return every planting with marked plants, in walking order."""
    plants = {one.planting_id: one for one in planted(context)}
    return tuple(one for one in plants.values() if marked_plants(context, one.planting_id))


def followed_in_file(file: Path) -> tuple[tuple[Followed, ...], bool]:
    """Return what a CSV file holds a planting at a time, and whether it has a planting column."""
    from scout.intake.marked_csv import read_marked
    from scout.knowledge.load import load_knowledge

    read = read_marked(file)
    knowledge = load_knowledge(paths.knowledge_folder(), paths.cache())
    grouped: dict[str | None, list[MarkedRow]] = {}
    for row in read.rows:
        grouped.setdefault(row.planting, []).append(row)
    return tuple(_followed(knowledge, name, rows) for name, rows in grouped.items()), read.by_planting


def _followed(knowledge: "Knowledge", name: str | None, rows: "list[MarkedRow]") -> Followed:
    causes, unknown = diseases_named(knowledge, [row.disease for row in rows if row.disease])
    ordered = sorted(rows, key=lambda row: row.on)
    measured = tuple(
        MeasuredRow(
            row.on.isoformat(),
            row.plant,
            row.top_leaf,
            row.highest_diseased,
            row.stripped_to,
            row.newly_diseased,
            row.leaves_standing,
            "not_felt",
        )
        for row in ordered
    )
    return Followed(name, measured, causes, unknown, wet=_wet_hours(ordered))


def _wet_hours(rows: "list[MarkedRow]") -> str:
    last = [row.wet_h for row in rows if row.on == rows[-1].on and row.wet_h is not None]
    return f"Wet hours since the visit before: {max(last):g}." if last else ""
