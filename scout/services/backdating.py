"""Says on which days the fruit in the hand was made, what the weather did then, and when it is over."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Day, Evidence
from scout.plain import day_text, short_day
from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.site import site_of

if TYPE_CHECKING:
    from scout.diagnosis.backdate import Strip
    from scout.knowledge.base import Knowledge
    from scout.knowledge.cause_file import Cause

MARKS = {"culprit": "#", "clear": ".", "missing": "?"}
LEGEND = "  (# such a day, . not so, ? no record)"
MOST_RUNS = 2
"""More stretches of days than this are told as a number of days. Our choice."""
_WHEN = {"buds": "in bud", "flowering": "in flower", "young": "young", "filling": "filling"}
_WIDTH = 44


def backdated_lines(context: Context, plant: Planted, cause: "Cause", evidence: Evidence) -> tuple[str, ...]:
    """Return the strips of a cause whose weather was met, as lines of at most 44 cells; empty where there is none."""
    from scout.diagnosis.backdate import fruit_of_later_flowers

    met = met_strips(context.knowledge, cause, evidence)
    units = site_of(context).units
    lines = [line for strip in met for line in _said(strip, evidence.days, units)]
    lines += [LEGEND] if met else []
    flowering = [s.culprits[-1] for s in met if s.condition.window == "flowering"]
    if not flowering:
        return tuple(lines)
    later = fruit_of_later_flowers(plant.crop, max(flowering), context.today, evidence.days)
    if later is not None:
        lines.append(f"Fruit of later flowers: from {short_day(later.first)} on, all by {short_day(later.last)}.")
    return tuple(lines)


def met_strips(knowledge: "Knowledge", cause: "Cause", evidence: Evidence) -> "tuple[Strip, ...]":
    """Return the strips of a cause's weather clues that held and have days to show."""
    from scout.diagnosis.backdate import strips

    if evidence.on is None or not evidence.days:
        return ()
    crop = knowledge.crops[evidence.crop]
    found = strips(knowledge, crop, cause, evidence.on, evidence.days, evidence.size)
    return tuple(s for s in found if s.culprits and evidence.conditions.get(s.condition.id))


def days_of(knowledge: "Knowledge", cause: "Cause", evidence: Evidence) -> list[str]:
    """Return the days whose weather made the fruit, as a case's answer gives them; empty where the cause has none."""
    return [day.isoformat() for day in made_on(met_strips(knowledge, cause, evidence))]


def made_on(met: "Sequence[Strip]") -> tuple[date, ...]:
    """Return the days that made the fruit, of the window that the cause names first: its bud, its flower, its fill."""
    if not met:
        return ()
    days = {day for strip in met if strip.condition.window == met[0].condition.window for day in strip.culprits}
    return tuple(sorted(days))


def dates_text(days: Sequence[date]) -> str:
    """Return days as a grower says them: 8-12 July, or how many there were between the first and the last."""
    runs = _runs(days)
    if len(runs) <= MOST_RUNS:
        return " and ".join(run_text(*run) for run in runs)
    return f"{len(days)} days in {run_text(days[0], days[-1])}"


def run_text(first: date, last: date) -> str:
    """Return a stretch of days: 12 July, 8-12 July, 29 June-3 July."""
    if first == last:
        return day_text(first)
    return f"{first.day}{'' if first.month == last.month else f' {first:%B}'}-{day_text(last)}"


def _said(strip: "Strip", days: Sequence[Day], units: str) -> Iterator[str]:
    first, last = strip.days[0], strip.days[-1]
    when = f"{_WHEN[strip.condition.window].capitalize()} {short_day(first)} to {short_day(last)}"
    yield f"{when}: {strip.condition.name}"
    drawn = "".join(MARKS[mark] for mark in strip.marks)
    yield from (drawn[at : at + _WIDTH] for at in range(0, len(drawn), _WIDTH))
    yield f"# {dates_text(strip.culprits)}{_values(strip, days, units)}"


def _values(strip: "Strip", days: Sequence[Day], units: str) -> str:
    """Return the worst of the marked days, where it is a temperature."""
    from scout.services.weather import temperature_text

    feature = strip.condition.feature
    if feature not in ("tmax_c", "tmin_c"):
        return ""
    marked = set(strip.culprits)
    values = [(value, day.on) for day in days if day.on in marked and (value := getattr(day, feature)) is not None]
    worst, on = (min if strip.condition.test.endswith("at_most") else max)(values)
    return f"; worst {temperature_text(worst, units)}, {short_day(on)}"


def _runs(days: Sequence[date]) -> list[tuple[date, date]]:
    """Return days as stretches without a gap."""
    runs: list[tuple[date, date]] = []
    for day in days:
        if runs and day - runs[-1][1] == timedelta(days=1):
            runs[-1] = (runs[-1][0], day)
        else:
            runs.append((day, day))
    return runs
