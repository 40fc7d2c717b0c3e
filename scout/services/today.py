"""What the first screen says: the day, the heat, what is due."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from scout.plain import counted, day_text
from scout.services.context import Context
from scout.services.site import Site, open_garden

if TYPE_CHECKING:
    from scout.services.alerts import Alert


@dataclass(frozen=True)
class TodayView:
    """The first screen; `site` None: no garden yet."""

    site: Site | None
    head: str
    lines: tuple[str, ...]
    alerts: tuple["Alert", ...]
    """At most three things that want to be known today."""
    walk_row: str
    walking: bool
    """A walk is open and goes on where it stopped."""
    jobs_row: str
    tomorrow_row: str


def today_view(context: Context) -> TodayView:
    """Return what is due today."""
    site = open_garden(context)
    if site is None:
        return TodayView(None, "Bedwalk", (), (), "", False, "", "")
    from scout.services.gaps import gap_line
    from scout.services.holds import standing
    from scout.services.plan import planned_day, tomorrow
    from scout.services.troubles import job_lines
    from scout.services.walk import progress

    day = context.today
    with context.read():
        today = planned_day(context)
        going = progress(context)
        jobs = job_lines(context, day)
        gap = gap_line(context)
    plan = today.plan
    walk_row = (
        f"Go on with the walk: {going[0]} of {going[1]} stops done"
        if going
        else _walk_row(len(plan.stops), plan.minutes, len(plan.deferred))
    )
    return TodayView(
        site=site,
        head=f"{site.name} · {day:%A} {day_text(day)}",
        lines=(
            today.heat.short,
            *today.heat.advice[-1:],
            *(f"! {hold.short}" for hold in standing(context)),
            *([gap] if gap else []),
        ),
        alerts=today.alerts,
        walk_row=walk_row,
        walking=going is not None,
        jobs_row=f"Jobs and re-looks due: {len(jobs)}",
        tomorrow_row=_tomorrow_row(tomorrow(context, today.coming)),
    )


def _tomorrow_row(stops: int) -> str:
    return f"Due tomorrow: {counted(stops, 'stop')}" if stops else "Nothing due tomorrow; what comes later"


def _walk_row(stops: int, minutes: float, waiting: int) -> str:
    if not stops:
        return (
            f"Waiting for a cooler hour: {counted(waiting, 'stop')}" if waiting else "Nothing is due today; walk anyway"
        )
    later = f", {waiting} wait" if waiting else ""
    return f"Walk: {counted(stops, 'stop')}, about {minutes:.0f} minutes{later}"
