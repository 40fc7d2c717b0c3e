"""Two weeks of weather: what stands out, by letters and words, and what missing days hide."""

from datetime import date, timedelta

import pytest

from scout.services import site, weather_marks, weather_words
from scout.store.weather import set_day

from .test_bed_water import water

TODAY = date(2026, 7, 22)


@pytest.fixture
def typed(context):
    """Keep one day of July."""

    def kept(day: int, **values: float | bool) -> None:
        with context.write() as tx:
            on = date(2026, 7, day).isoformat()
            set_day(tx, station="here", on=on, kind="observed", basis="typed", **values)

    return kept


def rows(context, *, wide: bool) -> list[str]:
    found = weather_marks.fortnight(context)
    return [weather_words.day_row(one, "metric", TODAY, wide=wide) for one in found.days]


def test_a_day_without_a_record_is_missing_and_today_is_only_not_there_yet(context) -> None:
    found = rows(context, wide=False)
    assert found[0] == "Wed 22  no record yet" and found[1] == "Tue 21  missing"


def test_hot_days_and_wet_nights_carry_letters_on_a_phone_and_words_on_a_desk(context, typed) -> None:
    typed(21, tmax_c=33.0, tmin_c=22.0, rain_mm=3.5, wet_h=6.0)
    typed(20, tmax_c=32.9, tmin_c=22.0, rain_mm=0.0, wet_h=5.9)
    narrow, wide = rows(context, wide=False), rows(context, wide=True)
    assert narrow[1].split() == ["Tue", "21", "33.0", "22.0", "3.5", "6", "h", "t", "HW"]
    assert wide[1].split()[-4:] == ["typed", "hot,", "wet", "night"]
    assert narrow[2].split()[-1] == "t" and wide[2].split()[-1] == "typed"


def test_the_widest_row_fits_45_cells(context, typed) -> None:
    typed(21, tmax_c=-33.0, tmin_c=-42.0, rain_mm=1200.5, wet_h=23.5)
    found = weather_marks.fortnight(context)
    worst = weather_marks.MarkedDay(found.days[1].day, ("hot", "wet", "swing"))
    assert len(weather_words.day_row(worst, "metric", TODAY, wide=False)) <= 42  # margins and the scroll bar take three
    assert len(weather_words.day_row(worst, "metric", TODAY, wide=True)) <= 78
    assert len(weather_words.day_head("us", wide=False)) <= 42


def test_wet_hours_worked_out_from_the_air_are_marked(context, tmp_path) -> None:
    from scout.services.weather_files import Said, look_into, take_in

    file = tmp_path / "hours.csv"
    lines = [f"2026-07-21T{h:02d}:00,{18 if h < 9 else 27},{95 if h < 9 else 55},0,2" for h in range(24)]
    file.write_text("\n".join(["time,temp_c,rh_pct,rain_mm,wind_ms", *lines]) + "\n", encoding="utf-8")
    take_in(context, look_into(context, file, Said(hourly=True)))
    assert rows(context, wide=False)[1].split() == ["Tue", "21", "27.0", "18.0", "0.0", "~9", "h", "i", "W"]
    assert rows(context, wide=True)[1].endswith("its hours wet night")


def test_missing_days_say_what_they_hide(context, typed) -> None:
    for day in range(9, 22):
        if day not in (12, 13):
            typed(day, tmax_c=30.0, tmin_c=20.0, rain_mm=0.0, wet_h=2.0)
    found = weather_marks.fortnight(context)
    assert found.lowered[0].startswith("2 of 13 days are missing: hot days, wet nights")
    assert not any("No rain figure" in text for text in found.lowered)
    typed(12, tmax_c=30.0)
    assert any("No rain figure on 1 day" in text for text in weather_marks.fortnight(context).lowered)


def test_a_swing_of_a_bed_s_soil_is_marked_on_the_day_that_made_it(context, typed, clock) -> None:
    site.set_latitude(context, 40.0)
    for back in range(1, 30):
        day = TODAY - timedelta(days=back)
        with context.write() as tx:
            set_day(
                tx,
                station="here",
                on=day.isoformat(),
                kind="observed",
                basis="typed",
                tmax_c=34.0,
                tmin_c=18.0,
                rain_mm=40.0 if back == 2 else 0.0,
            )
    water(context, clock, date(2026, 7, 10), "sweet_pepper")
    found = weather_marks.fortnight(context)
    marked = {one.day.on.day for one in found.days if "swing" in one.marks}
    # the tub of 25 mm is empty within the week and full again after 40 mm on the 20th
    assert 20 in marked and 11 not in marked
    assert not any("Swings of the soil" in text for text in found.lowered)


def test_where_no_soil_is_known_swings_are_said_to_be_unknown(context) -> None:
    assert any("Swings of the soil are not known" in text for text in weather_marks.fortnight(context).lowered)
