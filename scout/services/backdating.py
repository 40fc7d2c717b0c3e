"""Says on which days the fruit in the hand was made, what the weather did then, and when it is over."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Day
from scout.services.context import Context
from scout.services.garden import Planted, site_of

if TYPE_CHECKING:
    from scout.diagnosis.backdate import Strip
    from scout.knowledge.schema import Cause

BACK_D = 90
"""Days of weather looked back over: the longest way from bud to pick."""
MARKS = {"culprit": "#", "clear": ".", "missing": "?"}
_WHEN = {"buds": "in bud", "flowering": "in flower", "filling": "filling"}


def backdated_lines(context: Context, plant: Planted, cause: "Cause") -> tuple[str, ...]:
    """Return the strips of a cause whose weather was met, as lines of at most 44 cells; empty where there is none."""
    from scout.diagnosis.backdate import fruit_of_later_flowers, strips
    from scout.services.weather import days_between
    from scout.services.weather_features import with_features

    today = context.today
    days = with_features(context, plant, days_between(context, today - timedelta(days=BACK_D), today))
    met = [s for s in strips(context.knowledge, plant.crop, cause, today, days) if s.culprits]
    units = site_of(context).units
    lines = [line for strip in met for line in _said(strip, days, units)]
    flowering = [s.culprits[-1] for s in met if s.condition.window == "flowering"]
    later = fruit_of_later_flowers(plant.crop, max(flowering)) if flowering else None
    if later is not None:
        lines.append(f"Fruit of later flowers: from {_day(later.first)} on, all by {_day(later.last)}.")
    return tuple(lines)


def _said(strip: "Strip", days: Sequence[Day], units: str) -> Iterator[str]:
    first, last = strip.days[0], strip.days[-1]
    yield f"{_WHEN[strip.condition.window].capitalize()} {_day(first)} to {_day(last)}: {strip.condition.name}"
    yield "".join(MARKS[mark] for mark in strip.marks) + "  # such a day, ? no record"
    yield f"# {_runs(strip.culprits)}{_values(strip, days, units)}"


def _values(strip: "Strip", days: Sequence[Day], units: str) -> str:
    """Return the worst of the marked days, where it is a temperature."""
    from scout.services.weather import temperature_text

    feature = strip.condition.feature
    if feature not in ("tmax_c", "tmin_c"):
        return ""
    marked = set(strip.culprits)
    values = [(value, day.on) for day in days if day.on in marked and (value := getattr(day, feature)) is not None]
    worst, on = (min if strip.condition.test.endswith("at_most") else max)(values)
    return f", worst {temperature_text(worst, units)} on {_day(on)}"


def _runs(days: Sequence[date]) -> str:
    """Return days as runs: 11-14 July, 17 July."""
    runs: list[list[date]] = []
    for day in days:
        if runs and day - runs[-1][-1] == timedelta(days=1):
            runs[-1].append(day)
        else:
            runs.append([day])
    return ", ".join(_day(run[0]) if len(run) == 1 else f"{_day(run[0])} to {_day(run[-1])}" for run in runs)


def _day(day: date) -> str:
    return f"{day.day} {day:%b}"
