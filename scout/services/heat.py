"""The heat for the person who walks: by the hour, what to do, and when to call for help."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.heat_day import FIRST_H, LAST_H, AirAt, HeatAt, dangerous_from_until, heat_by_hour, worst
from scout.services.context import Context
from scout.services.recent_weather import recent_weather
from scout.services.site import site_of
from scout.services.weather import temperature_text

if TYPE_CHECKING:
    from scout.store.weather import HourView

SUN_H = (8, 18)
"""Clock hours in which the sun stands high enough to add to the heat. Our choice."""
FULL_DAY_MIN = 480
"""A day's work, of which NIOSH gives shares to those who are new to the heat."""
NIGHT_KNOWN_H = 5
"""So many measured hours of a day hold its low."""
WARM_C = 26.7
"""A heat index of 80 °F, where the caution of the US weather service begins."""


@dataclass(frozen=True)
class HeatView:
    """The person's heat caution for today."""

    level: str
    """none, caution, extreme_caution, danger, extreme_danger, unknown: of the day's worst hour, in the shade."""
    line: str
    advice: tuple[str, ...]
    hours: tuple[HeatAt, ...] = ()
    danger_h: tuple[int, int] | None = None
    """Clock hours from which to which it is dangerous; None: at no hour that is known."""
    basis: str = ""
    short: str = ""
    """The same for the first screen, in two lines of a phone."""


_ADVICE = {
    "none": (),
    "caution": ("Water and shade at hand; drink before you are thirsty.",),
    "extreme_caution": ("Drink every 15-20 minutes, rest in the shade, be done before noon.",),
    "danger": (
        "Only what must be done, in the cool hours; not alone.",
        "Confused, collapsed or very hot skin: call emergency and cool at once.",
    ),
    "extreme_danger": ("Do not work outside in this heat.", "Confused or collapsed: call emergency and cool at once."),
}
FIRST_AID = (
    "Confused, slurring, fainting, a fit, or very hot skin, dry or damp: heat stroke. Call the emergency number at"
    " once. Into the shade, clothes loose, cool with water, wet cloths, ice and fanning until help is there. Nothing to"
    " drink while confused or unconscious. Never leave them alone.",
    "Headache, dizzy, sick, weak, heavy sweat, clammy skin: stop. Shade, lie down, loosen clothes, wet cloths, small"
    " sips of water. Vomiting, getting worse, or not better within an hour: call for medical help.",
    "Cramps: stop, shade, drink. With heart trouble or a low-salt diet, or over an hour: ask for medical help.",
    "This is no medical advice; the emergency service and your doctor come first. (After CDC, Heat-Related Illnesses,"
    " 2017.)",
)
DRINKING = "Drink a cup (250 ml) every 15-20 minutes, not above 1.4 litres an hour (OSHA), also when not thirsty."


def heat_today(context: Context) -> HeatView:
    """Return today's heat caution from the best that is known: measured hours, a forecast, else an estimate told so."""
    return context.once(f"heat {context.today}", lambda: _worked_out(context))


def _worked_out(context: Context) -> HeatView:
    known = _known_hours(context)
    low_c, high_c, said = _low_and_high(context, known)
    hours = heat_by_hour(known, low_c, high_c)
    top = worst(hours)
    if top is None:
        unknown = "Heat today: no weather is known. Feel it yourself; hot and humid is dangerous."
        return HeatView("unknown", unknown, (), short=unknown)
    basis = _basis(hours, said)
    danger = dangerous_from_until(hours)
    line, short = _line(context, hours, top, danger, basis), _short(context, top, danger)
    return HeatView(top.level, line, _ADVICE[top.level], hours, danger, basis, short)


def _known_hours(context: Context) -> dict[int, AirAt]:
    """Return today's hours by the clock, measured where there are any, else forecast."""
    known = recent_weather(context)
    found: dict[int, AirAt] = {}
    for hours, basis in ((known.coming, "forecast"), (known.hours, "measured")):
        found |= {int(h.at[11:13]): air for h in reversed(hours) if (air := _air(h, basis)) is not None}
    return found


def _air(hour: "HourView", basis: str) -> AirAt | None:
    if hour.temp_c is None or hour.rh_pct is None:
        return None
    return AirAt(hour.temp_c, hour.rh_pct, basis)  # type: ignore[arg-type]


def _low_and_high(context: Context, known: dict[int, AirAt]) -> tuple[float | None, float | None, str]:
    """Return the low and the high of today for the hours nobody knows, and where they are from."""
    weather, today = recent_weather(context), context.today
    observed, before = weather.days.get(today), weather.days.get(today - timedelta(days=1))
    measured = [air.temp_c for air in known.values()]
    lows = [day.tmin_c for day in (observed, weather.forecast, before) if day is not None and day.tmin_c is not None]
    low = min(measured) if len(measured) > NIGHT_KNOWN_H else next(iter(lows), None)
    sources = ((weather.forecast, "the forecast"), (observed, "today's high and low"), (before, "yesterday"))
    for day, said in sources:
        if day is not None and day.tmax_c is not None:
            high = max([day.tmax_c, *measured])
            return (None if low is None else min(low, high)), high, said
    return None, None, ""


def _basis(hours: Sequence[HeatAt], said: str) -> str:
    estimated = [one.clock_h for one in hours if one.basis == "estimated"]
    if not estimated:
        known = "from a forecast" if any(one.basis == "forecast" for one in hours) else "measured"
        return known if len(hours) > LAST_H - FIRST_H else f"{known}, for {len(hours)} hours only"
    if len(estimated) == len(hours):
        return f"estimated from {said}"
    return f"measured until {min(estimated) - 1}:00, then estimated from {said}"


def _line(context: Context, hours: Sequence[HeatAt], top: HeatAt, danger: tuple[int, int] | None, basis: str) -> str:
    units = site_of(context).units
    felt, sun = temperature_text(round(top.index_c), units), "15 °F" if units == "us" else "8 °C"
    if danger is None:
        at = f"{felt} in the shade at {top.clock_h}:00"
        return f"Heat: {_word(top.level)}, at most {at}; full sun adds up to {sun}; {basis}."
    first = next(one for one in hours if one.clock_h == danger[0])
    then = temperature_text(round(first.index_c), units)
    more = f", up to {felt} at {top.clock_h}:00" if top.clock_h != first.clock_h else ""
    worse = " (extreme danger)" if top.level == "extreme_danger" else ""
    return (
        f"Heat: danger from {danger[0]}:00 to {danger[1]}:00{worse}; feels like {then} in the shade at"
        f" {danger[0]}:00{more}; full sun adds up to {sun}; {basis}."
    )


def _short(context: Context, top: HeatAt, danger: tuple[int, int] | None) -> str:
    """Return the worst hour and the hours of danger, and whether the worst is known or guessed."""
    units = site_of(context).units
    felt, sun = temperature_text(round(top.index_c), units), temperature_text(round(top.sun_c), units)
    when = f"danger {danger[0]}:00-{danger[1]}:00" if danger else _word(top.level)
    return f"Heat: {when}; at {top.clock_h}:00 like {felt}, in full sun up to {sun} ({top.basis})."


def hour_lines(context: Context, heat: HeatView) -> tuple[str, ...]:
    """Return the caution of each hour as a row, in the shade and in full sun, marked where it is estimated."""
    units = site_of(context).units
    marks = {"measured": "", "forecast": " (forecast)", "estimated": " (est.)"}
    return tuple(
        f"{one.clock_h:2d}:00  {temperature_text(round(one.index_c), units)} {_word(one.level)}"
        f"{_in_sun(one, units)}{marks[one.basis]}"
        for one in heat.hours
    )


def _in_sun(one: HeatAt, units: str) -> str:
    """Return what full sun may make of an hour; nothing where the sun stands too low to add much."""
    if not SUN_H[0] <= one.clock_h < SUN_H[1]:
        return ""
    return f", sun {temperature_text(round(one.sun_c), units)} {_word(one.sun_level)}"


def _word(level: str) -> str:
    return "no caution" if level == "none" else level.replace("_", " ")


def person_lines(context: Context, heat: HeatView) -> tuple[str, ...]:
    """Return everything for the person: the hours, being used to the heat, drinking, first aid."""
    return (*hour_lines(context, heat), used_to_heat(context), DRINKING, *FIRST_AID)


def used_to_heat(context: Context) -> str:
    """Return what the garden's own walks say of being used to the heat, and what to do when new to it."""
    from scout.science.heat_caution import AT_LEAST_D, share_of_full_day_frac
    from scout.store import walks

    today, days = context.today, recent_weather(context).days
    first = today - timedelta(days=14)
    hot = {on.isoformat() for on, day in days.items() if on >= first and _warm(day.tmax_c, day.tmin_c)}
    with context.read() as session:
        garden = str(context.garden_id)
        done = walks.walks(session=session, garden_id=garden, since=first.isoformat(), until=today.isoformat())
    days_n = len({walk.started_at[:10] for walk in done if walk.started_at[:10] < today.isoformat()} & hot)
    told = f"You walked on {days_n} hot days of the last 14, by what is on record."
    if days_n >= AT_LEAST_D:
        return f"{told} After a week away begin with half a day."
    share = share_of_full_day_frac(days_n + 1, "new")
    most = f", and work at most {share * FULL_DAY_MIN:.0f} minutes in it today (NIOSH)" if share < 1.0 else ""
    return f"{told} Getting used to heat takes 7 to 14 days: until then read each hour as one class worse{most}."


def _warm(tmax_c: float | None, tmin_c: float | None) -> bool:
    """Return whether a day's worst hour was hot enough for caution, by its high and low."""
    from scout.science.day_curve import humidity_at_pct
    from scout.science.heat_index import heat_index_c

    if tmax_c is None or tmin_c is None or tmin_c > tmax_c:
        return False
    return heat_index_c(tmax_c, humidity_at_pct(tmax_c, tmin_c)) >= WARM_C
