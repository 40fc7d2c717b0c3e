"""When this morning's leaves are likely dry: from the hours on record, else a rule said as one."""

from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING

from scout.services.context import Context
from scout.services.recent_weather import recent_weather

if TYPE_CHECKING:
    from scout.store.weather import HourView

USUALLY_DRY_MIN = 9 * 60 + 30
"""After a wet morning without hourly records leaves count as wet until half past nine. Our choice."""

BY_THEN_H = 14
"""A leaf that is wet later was wetted by rain, not by dew."""


@dataclass(frozen=True)
class DryLeaves:
    """From when leaves are dry today, minutes since midnight; None: dry already, or nothing is known."""

    dry_from: int | None
    basis: str


def dry_leaves(context: Context) -> DryLeaves:
    """Return when leaves are likely dry today. It says when to come, and never unlocks a knife: that is felt."""
    today, known = context.today, recent_weather(context)
    told = [(clock, wet) for clock, wet in wet_hours_of(known.hours) if clock < BY_THEN_H]
    if told:
        wet_hours = [clock for clock, wet in told if wet]
        dry = (max(wet_hours) + 1) * 60 if wet_hours else None
        return DryLeaves(dry, "by the hours on record")
    noted = {on: day.wet_morning for on, day in known.days.items()}
    if noted.get(today) is not None:
        return DryLeaves(USUALLY_DRY_MIN if noted[today] else None, "as after most wet mornings")
    if noted.get(today - timedelta(days=1)):
        return DryLeaves(USUALLY_DRY_MIN, "as yesterday was wet")
    return DryLeaves(None, "")


def wet_hours_of(hours: "list[HourView]") -> list[tuple[int, bool]]:
    """Return each clock hour of which it can be told, and whether leaves were wet in it."""
    return [(int(hour.at[11:13]), wet) for hour in hours if (wet := _is_wet(hour)) is not None]


def _is_wet(hour: "HourView") -> bool | None:
    """Return what the sensor said, else what the air tells; None where neither does."""
    from scout.science.leaf_wetness import wet_hour

    if hour.wet is not None:
        return hour.wet
    if hour.temp_c is None or hour.rh_pct is None:
        return True if hour.rain_mm else None
    return wet_hour(hour.temp_c, hour.rh_pct, hour.rain_mm)
