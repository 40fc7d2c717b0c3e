"""Sums of warmth and cold in words: what is sure, what is an estimate, and where a model does not hold."""

from collections.abc import Sequence
from datetime import date, timedelta

from scout.plain import day_text
from scout.services.context import Context
from scout.services.site import site_of
from scout.services.warmth import ChillCount, Event, PestCount

LATELY_D = 21
"""An event is told with its look for so long after its day. Our choice."""
HEAD = (
    "Reckoned from highs and lows, by published sums: an estimate, never a sighting. Your own looks go first, and no "
    "sum says that something must be done."
)
UNPLACED = "Whether the sums hold where you are is not known: the garden's latitude or time zone is not set."
NOTHING = "No pest of the crops here has a published sum of warmth in the knowledge base."


def pest_lines(context: Context, count: PestCount) -> tuple[str, ...]:
    """Return one count as lines: a head, then what is known of it."""
    units = site_of(context).units
    return (f"{count.name} ({', '.join(count.crops)})", *_told(context.today, count, units))


def chill_lines(context: Context, count: ChillCount) -> tuple[str, ...]:
    """Return the cold days of one planting as lines."""
    from scout.services.weather import temperature_text

    limit = temperature_text(count.below_c, site_of(context).units)
    missing = f"; {count.missing_n} days missing, so it may be more" if count.missing_n else ""
    counted = f"{count.cold_n} days with a mean of {limit} or less since {day_text(count.since)}{missing}"
    return (f"{count.planting}: cold days", f"{counted}. About {count.need_n} are needed.", count.why)


def sum_text(value_cd: float, units: str) -> str:
    """Return degree days in the grower's unit."""
    return f"{value_cd * 1.8:.0f} °F-days" if units == "us" else f"{value_cd:.0f} °C-days"


def _told(today: date, count: PestCount, units: str) -> list[str]:
    if count.place == "no":
        return [f"Not valid here: the sums are from {count.source}, and your garden lies elsewhere."]
    lines = []
    if count.since is None:
        return [f"The count begins with {count.starts}."]
    reached = [event for event in count.events if event.on is not None]
    coming = next((event for event in count.events if event.on is None), None)
    if reached:
        lines += _reached(reached[-1], count, today)
    if coming is not None:
        lines.append(_coming(coming, count, units, today))
    return [*lines, _sum(count, units), f"Sums by {count.source}.", *([count.note] if count.note else [])]


def head_lines(counts: Sequence[PestCount]) -> tuple[str, ...]:
    """Return what is said once over all counts."""
    if not counts:
        return (NOTHING,)
    unknown = any(count.place == "unknown" for count in counts)
    return (HEAD, *([UNPLACED] if unknown else []))


def _sum(count: PestCount, units: str) -> str:
    assert count.since is not None and count.sure_cd is not None
    since = f"since {day_text(count.since)}"
    if not count.missing_n:
        return f"{sum_text(count.sure_cd, units)} {since}, every day known."
    missing = f"{count.missing_n} of {count.days_n} days are missing"
    if count.estimate_cd is None:
        return f"At least {sum_text(count.sure_cd, units)} {since}; {missing}, too many to say how much more."
    return f"About {sum_text(count.estimate_cd, units)} {since} ({missing} and bridged)."


def _reached(event: Event, count: PestCount, today: date) -> list[str]:
    assert event.on is not None
    when = f"by {day_text(event.on)}, perhaps earlier" if count.missing_n else f"on {day_text(event.on)}"
    lines = [f"Reached {when}: {event.name}."]
    if event.look and today - event.on <= timedelta(days=LATELY_D):
        lines.append(f"Look: {event.look}")
    return lines


def _coming(event: Event, count: PestCount, units: str, today: date) -> str:
    target = sum_text(event.at_cd, units)
    if count.estimate_cd is None:
        return f"Next: {event.name}, at {target}: when cannot be told."
    if count.estimate_cd >= event.at_cd:
        return f"Next: {event.name}, at {target}: about now."
    if count.to_go_n is None:
        return f"Next: {event.name}, at {target}."
    on = today + timedelta(days=count.to_go_n)
    return f"Next: {event.name}, at {target}: about {day_text(on)} if it stays as warm as last week."
