"""What the first screen says: the day, the heat, what is due."""

from dataclasses import dataclass
from datetime import timedelta

from scout.services.context import Context
from scout.services.garden import Site, open_garden

ALERTS = 3


@dataclass(frozen=True)
class TodayView:
    """The first screen; `site` None: no garden yet."""

    site: Site | None
    head: str
    lines: tuple[str, ...]
    walk_row: str
    walking: bool
    """A walk is open and goes on where it stopped."""
    jobs_row: str
    tomorrow_row: str


def today_view(context: Context) -> TodayView:
    """Return what is due today."""
    site = open_garden(context)
    if site is None:
        return TodayView(None, "Bedwalk", (), "", False, "", "")
    from scout.services.holds import standing
    from scout.services.plan import next_due, walk_plan
    from scout.services.troubles import job_lines
    from scout.services.walk import progress

    day = context.today
    plan = walk_plan(context)
    going = progress(context)
    jobs = job_lines(context, day)
    walk_row = (
        f"Go on with the walk: {going[0]} of {going[1]} stops done"
        if going
        else _walk_row(len(plan.stops), plan.minutes)
    )
    coming = [due for _, due in next_due(context) if due.on == day + timedelta(days=1)]
    return TodayView(
        site=site,
        head=f"{site.name} · {day:%A} {day.day} {day:%B}",
        lines=(*plan.lines[: ALERTS + 1], *(f"! {hold.short}" for hold in standing(context))),
        walk_row=walk_row,
        walking=going is not None,
        jobs_row=f"Jobs and re-looks due: {len(jobs)}",
        tomorrow_row=f"Due tomorrow: {len(coming)} stops",
    )


def _walk_row(stops: int, minutes: float) -> str:
    if not stops:
        return "Nothing is due today; walk anyway"
    return f"Walk: {stops} stops, about {minutes:.0f} minutes"
