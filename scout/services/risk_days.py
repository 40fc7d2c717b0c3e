"""The last days and nights as the walk plan asks for them: wet, fit for leaf spots or downy mildew, hot."""

from datetime import date, timedelta

from scout.diagnosis.due_weather import RiskDay
from scout.services.context import Context
from scout.services.recent_weather import BACK_D, RecentWeather, recent_weather


def risk_days(context: Context) -> tuple[RiskDay, ...]:
    """Return the days of the last two weeks with what is known of each, and today's forecast where there is one."""
    known, today = recent_weather(context), context.today
    wet_from_h = context.knowledge.conditions["wet_nights_lately"].threshold or 0.0
    found = [_told(known, today - timedelta(days=back), wet_from_h) for back in range(BACK_D, -1, -1)]
    if known.forecast is not None:
        found.append(RiskDay(today, tmax_c=known.forecast.tmax_c, forecast=True))
    return tuple(found)


def _told(known: RecentWeather, on: date, wet_from_h: float) -> RiskDay:
    day = known.days.get(on)
    if day is None:
        return RiskDay(on)
    return RiskDay(
        on=on,
        wet_night=_wet_night(day.wet_night_h, day.wet_morning, day.wet_h, wet_from_h),
        leaf_spot_n=None if day.leaf_spot_n is None else round(day.leaf_spot_n),
        downy_night=day.downy_night,
        tmax_c=day.tmax_c,
    )


def _wet_night(night_h: float | None, morning: bool | None, day_h: float | None, wet_from_h: float) -> bool | None:
    """Return what the hours tell, else what the grower noted in the morning, else the day's wet hours."""
    if night_h is not None:
        return night_h >= wet_from_h
    if morning is not None:
        return morning
    return None if day_h is None else day_h >= wet_from_h
