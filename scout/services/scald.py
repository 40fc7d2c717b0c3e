"""Whether fruit in full sun is likely to be scalded today; told only where it is likely, or leaves were just taken."""

from datetime import timedelta

from scout.services.context import Context
from scout.services.garden import Planted, planted
from scout.services.site import site_of

BARED_D = 7
"""Fruit bared so lately is not used to the sun."""


def scald_line(context: Context) -> str | None:
    """Return one line for the weather page, or None where nothing is likely or no high is known."""
    from scout.science.sunscald import sunscald_risk
    from scout.services.weather import temperature_text

    known = _high(context)
    if known is None:
        return None
    high_c, how = known
    bearing = [plant for plant in planted(context) if plant.stage in ("fruiting", "finishing")]
    crops = {
        plant.crop.name.lower()
        for plant in bearing
        if sunscald_risk(plant.crop.id, high_c, newly_bared=_newly_bared(context, plant)) == "likely"
    }
    if not crops:
        return None
    high = temperature_text(high_c, site_of(context).units)
    return f"Bare fruit in full sun may scald ({', '.join(sorted(crops))}): {high} {how}. Leave its leaves on."


def _high(context: Context) -> tuple[float, str] | None:
    from scout.services.recent_weather import recent_weather

    known, today = recent_weather(context), context.today
    if known.forecast is not None and known.forecast.tmax_c is not None:
        return known.forecast.tmax_c, "by today's forecast"
    yesterday = known.days.get(today - timedelta(days=1))
    if yesterday is None or yesterday.tmax_c is None:
        return None
    return yesterday.tmax_c, "yesterday, if today is like it"


def _newly_bared(context: Context, plant: Planted) -> bool:
    """Return whether leaves of its marked plants were taken within the last week."""
    from scout.store import marked

    since = (context.today - timedelta(days=BARED_D)).isoformat()
    with context.read() as session:
        measured = marked.measurements(session=session, planting_id=plant.planting_id)
    return any(one.stripped_to is not None and one.observed_at >= since for one in measured)
