"""How far pests and crops have come by sums of warmth and cold, from the garden's own records."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING, Literal

from scout.plain import day_text
from scout.services.context import Context
from scout.services.garden import planted
from scout.services.site import latitude_of, site_of

if TYPE_CHECKING:
    from scout.knowledge.cause_file import Cause
    from scout.knowledge.warmth import DegreeDays, PestEvent

PlaceFits = Literal["yes", "no", "unknown"]
LowHigh = dict[date, tuple[float, float]]
PACE_D = 7
"""The pace of the last so many days is taken for the days to come. Our choice."""
_NO_ZONE = ("UTC", "Etc/")


@dataclass(frozen=True)
class Event:
    """Something a pest does at a sum; `on` None: not reached by what is known."""

    name: str
    at_cd: float
    look: str | None
    on: date | None
    """The day on which the known days reach it; where days before it are missing it may have come earlier."""


@dataclass(frozen=True)
class PestCount:
    """One count of degree days for one pest. Everything in it is an estimate from highs and lows, never a sighting."""

    cause: str
    name: str
    crops: tuple[str, ...]
    place: PlaceFits
    """Whether the garden lies where the figures were made; no sum is told where it does not."""
    since: date | None
    """None: it begins with a sighting that has not come, or later in the year."""
    starts: str
    """What begins the count, in words."""
    sure_cd: float | None
    estimate_cd: float | None
    missing_n: int
    days_n: int
    events: tuple[Event, ...]
    to_go_n: int | None
    """Days from today to the next event at the pace of the last week; None where that cannot be told."""
    source: str
    note: str | None


@dataclass(frozen=True)
class ChillCount:
    """Cold days of one planting."""

    planting: str
    since: date
    cold_n: int
    missing_n: int
    need_n: int
    below_c: float
    why: str


def pest_counts(context: Context) -> tuple[PestCount, ...]:
    """Return every count for the crops that stand in the garden, by name."""
    grown = {plant.crop.id: plant.crop.name for plant in planted(context)}
    counts = [
        (cause, count)
        for cause in context.knowledge.causes.values()
        if cause.status != "retired" and grown.keys() & cause.common.keys()
        for count in cause.degree_days
    ]
    begun = [_since(context, count) for _, count in counts]
    days = _low_high(context, min((since for since in begun if since is not None), default=context.today))
    zone, latitude = site_of(context).zone, latitude_of(context)
    told = [
        _told(
            context,
            _Counted(cause, count, sorted(grown[crop] for crop in grown.keys() & cause.common.keys()), since),
            place_fits(zone, latitude, count.zones, count.latitude_deg),
            days,
        )
        for (cause, count), since in zip(counts, begun, strict=True)
    ]
    return tuple(sorted(told, key=lambda one: one.name))


@dataclass(frozen=True)
class _Counted:
    cause: "Cause"
    count: "DegreeDays"
    crops: list[str]
    since: date | None


def place_fits(zone: str, latitude: float | None, zones: Sequence[str], latitude_deg: tuple[float, float]) -> PlaceFits:
    """Return whether a garden lies where a model was made, by its time zone and, where known, its latitude."""
    if not zone.startswith((*zones, *_NO_ZONE)):
        return "no"
    if latitude is None:
        return "unknown"
    if not latitude_deg[0] <= latitude <= latitude_deg[1]:
        return "no"
    return "unknown" if zone.startswith(_NO_ZONE) else "yes"


def chill_counts(context: Context) -> tuple[ChillCount, ...]:
    """Return the cold days of every planting whose crop needs them and whose first day is known."""
    from scout.science.warmth_sum import cold_days_n

    found = []
    for plant in planted(context):
        chill, begun = plant.crop.chill, plant.set_out_on or plant.sown_on
        if chill is None or begun is None:
            continue
        since = date.fromisoformat(begun)
        both = _each(_low_high(context, since), since, context.today)
        means = [None if one is None else (one[0] + one[1]) / 2.0 for one in both]
        cold, missing = cold_days_n(means, chill.below_c)
        label = f"{plant.bed}: {plant.label}"
        found.append(ChillCount(label, since, cold, missing, chill.need_d, chill.below_c, chill.why))
    return tuple(found)


def _since(context: Context, count: "DegreeDays") -> date | None:
    """Return the first day of a count this year; None where it has not begun."""
    from scout.store import findings

    today = context.today
    if count.since is not None:
        begins = date.fromisoformat(f"{today.year}-{count.since}")
        return begins if begins <= today else None
    with context.read() as session:
        seen = findings.first_seen(
            session=session,
            garden_id=str(context.garden_id),
            symptom=str(count.since_seen),
            since=f"{today.year}-01-01",
            until=today.isoformat(),
        )
    return date.fromisoformat(seen[:10]) if seen else None


def _low_high(context: Context, first: date) -> LowHigh:
    from scout.services.weather import highs_and_lows

    return highs_and_lows(context, first, context.today)


def _each(days: LowHigh, first: date, last: date) -> list[tuple[float, float] | None]:
    """Return low and high of each day; the last day is left out where it is not known yet."""
    found = [days.get(first + timedelta(days=step)) for step in range((last - first).days + 1)]
    return found[:-1] if found and found[-1] is None else found


def _daily(context: Context, count: "DegreeDays", since: date, days: LowHigh) -> list[float | None]:
    """Return the degree days of each day up to yesterday, and today where it is typed in already."""
    from scout.science.warmth_sum import Limits, day_cd

    limits = Limits(count.base_c, count.upper_c, count.method)
    both = _each(days, since, context.today)
    return [None if one is None else day_cd(one[0], one[1], limits) for one in both]


def _told(context: Context, one: _Counted, place: PlaceFits, days: LowHigh) -> PestCount:
    from scout.science.warmth_sum import warmth_sum

    count, since = one.count, one.since
    daily = _daily(context, count, since, days) if since is not None and place != "no" else []
    total = warmth_sum(daily) if since is not None and place != "no" else None
    estimate = None if total is None else total.estimate_cd
    events = tuple(_event(event, since, daily) for event in count.events)
    return PestCount(
        cause=one.cause.id,
        name=one.cause.name,
        crops=tuple(one.crops),
        place=place,
        since=since,
        starts=_starts(context, count),
        sure_cd=None if total is None else round(total.sure_cd, 1),
        estimate_cd=None if estimate is None else round(estimate, 1),
        missing_n=0 if total is None else total.missing_n,
        days_n=0 if total is None else total.days_n,
        events=events,
        to_go_n=_to_go(events, estimate, daily, context.today in days),
        source=context.knowledge.sources[count.source].by,
        note=count.note,
    )


def _event(event: "PestEvent", since: date | None, daily: list[float | None]) -> Event:
    from scout.science.warmth_sum import reached_after_n

    after = reached_after_n(daily, event.at_cd)
    on = None if since is None or after is None else since + timedelta(days=after - 1)
    return Event(event.name, event.at_cd, event.look, on)


def _to_go(
    events: Sequence[Event], estimate_cd: float | None, daily: list[float | None], today_counted: bool
) -> int | None:
    """Return the days from today to the next event; the first day to come is today, where it is not counted yet."""
    from scout.science.warmth_sum import days_to_go_n

    coming = next((event for event in events if event.on is None), None)
    if coming is None or estimate_cd is None:
        return None
    days = days_to_go_n(max(0.0, coming.at_cd - estimate_cd), daily[-PACE_D:])
    return None if days is None else max(0, days if today_counted else days - 1)


def _starts(context: Context, count: "DegreeDays") -> str:
    if count.since is not None:
        month, day = (int(part) for part in count.since.split("-"))
        return day_text(date(2000, month, day))
    return f"your first note of: {context.knowledge.symptoms[str(count.since_seen)].name}"
