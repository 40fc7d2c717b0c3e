"""Rows of the weather pages: one day, one bed, as words and letters that need no colour."""

from collections.abc import Sequence
from datetime import date

from scout.plain import short_day
from scout.services.bed_water import BedWater
from scout.services.weather import DayLineView
from scout.services.weather_marks import Fortnight, Mark, MarkedDay

LETTER: dict[Mark, str] = {"hot": "H", "wet": "W", "swing": "S"}
WORD: dict[Mark, str] = {"hot": "hot", "wet": "wet night", "swing": "soil swing"}
BASIS = {"measured": "measured", "station": "station", "typed": "typed", "estimated": "estimated", "hours": "its hours"}
_BAR_N = 10


def day_head(units: str, *, wide: bool, dated: bool = False) -> str:
    """Return the head over the rows of days."""
    degree = "°F" if units == "us" else "°C"
    rain = "inch" if units == "us" else "mm"
    by, marks = ("from", "") if wide else ("by", "")
    return f"day{'    ' if dated else ''}   {degree}: hi    lo {rain:>6}  leaves {by} {marks}".rstrip()


def day_row(marked: MarkedDay, units: str, today: date, *, wide: bool, dated: bool = False) -> str:
    """Return one day as a row of at most 42 cells, or wider with words for letters; `dated` with year and month."""
    day = marked.day
    name = day.on.isoformat() if dated else f"{day.on:%a} {day.on.day:>2}"
    if day.basis is None:
        return f"{name}  {'no record yet' if day.on == today else 'missing'}"
    figures = f"{_degrees(day.tmax_c, units):>7} {_degrees(day.tmin_c, units):>5} {_rain(day.rain_mm, units):>6}"
    if wide:
        words = ", ".join(WORD[mark] for mark in marked.marks)
        return f"{name}{figures}  {leaves(day):<7} {BASIS[day.basis]:<10}{words}".rstrip()
    letters = "".join(LETTER[mark] for mark in marked.marks)
    return f"{name}{figures}  {leaves(day):<7}{BASIS[day.basis][0]}  {letters}".rstrip()


def leaves(day: DayLineView) -> str:
    """Return how wet the leaves were: hours, `~` where they were worked out from the air, or how the morning was."""
    if day.wet_h is not None:
        return f"{'~' if day.wet_worked_out else ''}{day.wet_h:g} h"
    return {True: "wet", False: "dry", None: "–"}[day.wet_morning]


def legend(found: Fortnight, units: str, *, wide: bool) -> tuple[str, ...]:
    """Return what the letters mean."""
    from scout.services.weather import temperature_text

    limit = temperature_text(found.hot_from_c, units)
    hot, wet, swing = ("hot", "wet night", "soil swing") if wide else ("H", "W", "S")
    wet_text = f"leaves wet {found.wet_from_h:g} h or more (of the day, where its hours are not known)"
    said = [f"{hot}: {limit} or more · {wet}: {wet_text} · {swing}: a bed's soil swung by half in a week"]
    if not wide:
        said.append("by: m measured, s station, t typed, e estimated, i from its hours")
    return (*said, "~ wet hours worked out from the air, not felt. – not recorded.")


def water_lines(waters: Sequence[BedWater], *, wide: bool) -> tuple[str, ...]:
    """Return the soil of the beds in walking order, then the beds whose soil is not known, by the reason why."""
    known = [_water_row(one, wide=wide) for one in waters if one.share is not None]
    unknown: dict[str, list[str]] = {}
    for one in waters:
        if one.why_not is not None:
            unknown.setdefault(one.why_not, []).append(_bed(one))
    reasons = [f"Not known, as {why}: {', '.join(dict.fromkeys(beds))}." for why, beds in unknown.items()]
    return (WATER_HEAD, *known, *reasons) if waters else ("Nothing stands in the beds yet.",)


def _bed(water: BedWater) -> str:
    return f"{water.bed} (tub)" if water.kind == "tub" else water.bed


def _water_row(water: BedWater, *, wide: bool) -> str:
    share, left_mm = water.share or 0.0, water.left_mm or 0.0
    filled = round(share * _BAR_N)
    bar = f"[{'#' * filled}{'.' * (_BAR_N - filled)}]"
    figures = f"{bar} about {round(share * 20) * 5} %, {_STATE[water.state]}"
    room = f"{left_mm:.0f} of {water.holds_mm:.0f} mm"
    last = f", watered {short_day(water.watered_on)}" if water.watered_on else ""
    between = " · " if wide else "\n  "
    return f"{_bed(water)}: {water.label}\n  {figures}{between}{room}{last}"


_STATE = {"enough": "enough", "going": "going down", "short": "short: check", "unknown": ""}
WATER_HEAD = (
    "Reckoned from rain, heat and your watering notes: no sensor, no finger. Feel the soil at 5 cm, or lift the pot, "
    "before you water. Every noted watering counts as a filling."
)


def _degrees(value_c: float | None, units: str) -> str:
    from scout.science.units import f_from_c

    if value_c is None:
        return "–"
    return f"{f_from_c(value_c):.0f}" if units == "us" else f"{value_c:.1f}"


def _rain(value_mm: float | None, units: str) -> str:
    from scout.science.units import inch_from_mm

    if value_mm is None:
        return "–"
    return f"{inch_from_mm(value_mm):.2f}" if units == "us" else f"{value_mm:.1f}"
