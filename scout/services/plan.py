"""The walk plan: which beds today, in which order, at what time, and what waits until when."""

from dataclasses import dataclass, replace
from datetime import timedelta

from scout.diagnosis.due import Due
from scout.diagnosis.heat_day import FIRST_H
from scout.diagnosis.hour_lists import When, hour_looks
from scout.diagnosis.route import Visit, wash_before
from scout.diagnosis.timetable import DUSK_MIN, DayHours, Walked, clock_text, end_of, laid_out
from scout.plain import counted, day_text, shortened
from scout.services.alerts import Alert, alerts_of
from scout.services.context import Context
from scout.services.dry_leaves import DryLeaves, dry_leaves
from scout.services.dues import PlantDue, dues
from scout.services.garden import Planted
from scout.services.heat import HeatView, heat_today
from scout.services.holds import moment_text, standing
from scout.services.stop_minutes import measured_by_kind, minutes_of
from scout.services.views import HourLine, PlannedStop, WalkPlan

WASH = "Between the clean and the sick beds: wash hands, wipe the blade, empty the bag."
LINE_MAX = 200
"""What a stop keeps of why, in characters."""
EVENING_MIN = 16 * 60
"""A walk planned before four in the afternoon still has an evening before it."""


@dataclass(frozen=True)
class Today:
    """Everything the first screen and the plan say of the day, from one pass over the garden."""

    plan: WalkPlan
    coming: tuple[PlantDue, ...]
    """Every planting with its next look, soonest first."""
    heat: HeatView
    alerts: tuple[Alert, ...]


def walk_plan(
    context: Context,
    minutes: float | None = None,
    *,
    everything: bool = False,
    start: int | None = None,
    dry_from: int | None = None,
) -> WalkPlan:
    """Return the stops due today, clean beds before sick; with `minutes`, those worth most and the rest with reasons.

    everything: also the plantings that are not due yet.
    start, dry_from: minutes since midnight when the walk begins and leaves are dry; None: now, and as the air tells.
    """
    with context.read():
        plan = planned_day(context, minutes, everything=everything, start=start, dry_from=dry_from).plan
        lists = hour_lists(context)
    return replace(plan, dawn=lists["dawn"], dark=lists["dark"])


def next_due(context: Context) -> tuple[tuple[Planted, Due], ...]:
    """Return every planting with the date of its next look, soonest first."""
    return tuple((one.plant, one.due) for one in _soonest_first(dues(context)))


def coming_lines(context: Context, most: int = 30) -> tuple[str, ...]:
    """Return what falls due after today, soonest first, under the number of stops that are due already."""
    today = context.today
    found = next_due(context)
    due = sum(one.on <= today for _, one in found)
    later = [(plant, one) for plant, one in found if one.on > today][:most]
    head = f"Due by today: {counted(due, 'stop')}; the walk (w) has them."
    return (head, *(f"{one.on:%a} {day_text(one.on)}  {plant.bed}: {plant.label}, {one.why}" for plant, one in later))


def planned_day(
    context: Context,
    minutes: float | None = None,
    *,
    everything: bool = False,
    start: int | None = None,
    dry_from: int | None = None,
) -> Today:
    """Return the plan with what it was made from; see walk_plan."""
    with context.read():
        found = dues(context)
        heat = heat_today(context)
        leaves = dry_leaves(context) if dry_from is None else DryLeaves(dry_from, "as you say")
        day = _hours(heat, leaves, _now(context) if start is None else start)
        due = {_key(one): one for one in found if everything or one.due.on <= context.today}
        measured = measured_by_kind(context)
        closed = _closed_beds(context)
        visits = [_visit(key, one, measured) for key, one in due.items()]
        laid = laid_out([visit for visit in visits if due[visit.key].plant.bed_id not in closed], day, minutes)
        plan = _plan(laid, day, minutes, due, _lines(context, heat, leaves, day, laid))
        kept_out = tuple(
            _stop(one, visit, "", f"Keep out until {until}, by the label. Due: {one.due.told}")
            for visit in visits
            if (until := closed.get((one := due[visit.key]).plant.bed_id))
        )
        plan = replace(plan, deferred=(*plan.deferred, *kept_out))
        return Today(plan, _soonest_first(found), heat, alerts_of(context, found))


def _closed_beds(context: Context) -> dict[str, str]:
    """Return the beds that nobody may enter yet after a labelled product, and until when."""
    shut = [hold for hold in standing(context) if hold.phase == "keep_out"]
    return {bed: moment_text(hold.enter_from or "") for hold in shut for bed in hold.bed_ids}


def _now(context: Context) -> int:
    """Return the minute of the day, or five in the morning before that: nobody walks a garden by night."""
    now = context.here_and_now
    return max(FIRST_H * 60, now.hour * 60 + now.minute)


def _soonest_first(found: tuple[PlantDue, ...]) -> tuple[PlantDue, ...]:
    return tuple(sorted(found, key=lambda one: (one.due.on, one.plant.position)))


def _key(one: PlantDue) -> str:
    """Return what tells stops apart and orders them within a bed: by crop, as a grower reads it."""
    return f"{one.plant.crop.name} {one.plant.planting_id} {one.plant.bed_id}"


def _hours(heat: HeatView, leaves: DryLeaves, start: int) -> DayHours:
    hot = heat.danger_h
    return DayHours(start, leaves.dry_from, hot[0] * 60 if hot else None, hot[1] * 60 if hot else None)


def _visit(key: str, one: PlantDue, measured: dict[bool, float]) -> Visit:
    minutes = minutes_of(one.group, measured, picked=one.picked, plants_n=one.plant.plants_n)
    return Visit(key, one.plant.position, one.group, minutes, one.due.worth, one.due.must)


def _plan(
    laid: Walked,
    day: DayHours,
    minutes: float | None,
    due: dict[str, PlantDue],
    lines: tuple[str, ...],
) -> WalkPlan:
    stops = tuple(_stop(due[timed.visit.key], timed.visit, clock_text(timed.at), None) for timed in laid.stops)
    left = tuple(_stop(due[v.key], v, "", _left_why(v, day, minutes, laid, due[v.key])) for v in laid.left)
    return WalkPlan(
        stops=stops,
        deferred=left,
        minutes=sum(stop.minutes for stop in stops),
        lines=lines,
        wash_before=wash_before(tuple(timed.visit for timed in laid.stops)),
        wait_min=laid.wait_min,
    )


def _stop(one: PlantDue, visit: Visit, at: str, deferred_why: str | None) -> PlannedStop:
    return PlannedStop(
        planting_id=one.plant.planting_id,
        bed_id=one.plant.bed_id,
        bed=one.plant.bed,
        crop=one.plant.label,
        group=one.group,
        why=shortened(one.due.told, LINE_MAX),
        minutes=visit.minutes,
        deferred_why=None if deferred_why is None else shortened(deferred_why, LINE_MAX),
        at=at,
        must=visit.must,
    )


def _left_why(visit: Visit, day: DayHours, minutes: float | None, laid: Walked, one: PlantDue) -> str:
    """Return why a stop is left out, when it will do, and why it was due."""
    end = end_of(day, minutes)
    if laid.only_musts:
        why = "too hot now"
    elif visit.sick and end is not None and day.dry_from is not None and end - day.dry_from < visit.minutes:
        why = f"leaves are wet until about {clock_text(day.dry_from)}"
    elif day.hot_from is not None and end == day.hot_from:
        why = f"no time before the heat at {clock_text(day.hot_from)}"
    else:
        why = f"not in these {minutes or 0:g} minutes"
    return f"{why.capitalize()}; {_later(visit, day, why)}. Due: {one.due.told}"


def _later(visit: Visit, day: DayHours, why: str) -> str:
    """Return when a stop that was left out will do."""
    dry = day.dry_from if visit.sick and day.dry_from is not None else None
    if dry is not None and why.startswith("leaves") and (day.hot_from is None or dry + visit.minutes <= day.hot_from):
        return f"from {clock_text(dry)}"
    if day.hot_from is not None and day.start < day.hot_from and why.startswith("not in"):
        return f"before {clock_text(day.hot_from)} or {_later(visit, day, '')}"
    if day.hot_until is not None and day.start < day.hot_until:
        return f"from {clock_text(day.hot_until)}" if day.hot_until < DUSK_MIN else "tomorrow at dawn"
    return "this evening" if day.start < EVENING_MIN else "tomorrow morning"


def hour_lists(context: Context) -> dict[When, tuple[HourLine, ...]]:
    """Return the dawn list and the after-dark list of the whole garden, due or not."""
    with context.read():
        found: dict[When, list[HourLine]] = {"dawn": [], "dark": []}
        for one in dues(context):
            plant = one.plant
            for look in hour_looks(context.knowledge, plant.crop, plant.stage, one.open_causes, one.seen_symptom):
                found[look.when].append(HourLine(plant.bed, plant.label, look.ask, look.why))
    return {when: tuple(lines) for when, lines in found.items()}


def _lines(context: Context, heat: HeatView, leaves: DryLeaves, day: DayHours, laid: Walked) -> tuple[str, ...]:
    lines = [heat.line, *heat.advice]
    if laid.only_musts:
        begin = clock_text(laid.stops[0].at) if laid.stops else "tomorrow at dawn"
        lines.append(f"Too hot now: only what cannot wait, from {begin}; the rest is listed with its time.")
    first = next((timed for timed in laid.stops if timed.visit.sick), None)
    if wash_before(tuple(timed.visit for timed in laid.stops)) is not None:
        lines.append(WASH)
    if leaves.dry_from is not None and leaves.dry_from > day.start:
        wait = f", {laid.wait_min} minutes to wait" if laid.wait_min else ""
        begin = f"; sick beds from {clock_text(first.at)}{wait}" if first is not None else ""
        lines.append(
            f"Leaves likely wet until {clock_text(leaves.dry_from)} ({leaves.basis}): clean beds now, touch no spotted"
            f" leaf before{begin}. Feel a leaf first."
        )
    return tuple(lines)


def tomorrow(context: Context, coming: tuple[PlantDue, ...]) -> int:
    """Return how many stops fall due tomorrow."""
    day = context.today + timedelta(days=1)
    return sum(one.due.on == day for one in coming)
