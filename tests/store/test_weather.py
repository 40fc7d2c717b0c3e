"""Weather: typed days, whole files, corrections, forecasts, undo."""

import json
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scout.errors import BadInput, Refused
from scout.science.weather_day import LIMITS as SCIENCE_LIMITS
from scout.store import weather
from scout.store.checking import checked
from scout.store.database import reading
from scout.store.history import transaction
from scout.store.tables_weather import LIMITS, WeatherDay, WeatherHour
from scout.store.undo import undo_last
from scout.store.weather_columns import DayIn, HourIn, check_days, check_hours
from scout.store.weather_corrections import Correction
from scout.store.weather_import import Imported, Series, import_days, import_hours

from .conftest import Farm

HOME = Series("home", basis="station")
LINK = "0198b2f0-0000-7000-8000-0000000000bb"
SHARED = {"station": "home", "kind": "observed", "basis": "station", "issued_at": None}


def _days(farm: Farm, rows: list[DayIn], series: Series = HOME) -> Imported:
    with transaction(farm.engine, farm.stamp) as tx:
        return import_days(tx, rows, series=series)


def _hours(farm: Farm, rows: list[HourIn], series: Series = HOME) -> Imported:
    with transaction(farm.engine, farm.stamp) as tx:
        return import_hours(tx, rows, series=series)


def _ask_days(farm: Farm, **about: Any) -> Any:
    span = {"since": "2026-07-01", "until": "2026-07-31"} | about
    with reading(farm.engine) as session:
        return weather.days(session=session, garden_id=farm.stamp.garden_id, **span)


def _ask_hours(farm: Farm, **about: Any) -> Any:
    span = {"since": "2026-07-01", "until": "2026-10-31", "station": "home"} | about
    with reading(farm.engine) as session:
        return weather.hours(session=session, garden_id=farm.stamp.garden_id, **span)


WEEK = [DayIn(f"2026-07-{day:02d}", 30.0 + day, 18.0, 0.0, 4.5, day % 2 == 0, 71.0) for day in range(1, 8)]
NIGHT = [HourIn(f"2026-07-20T{hour:02d}:00", 120, 15.0 + hour, 90.0, 0.2, 1.1, True) for hour in range(6)]


def test_days_are_added_once_however_often_the_file_is_read(farm: Farm) -> None:
    """The second time all are unchanged, and nothing is written."""
    assert _days(farm, WEEK) == Imported(7, 0, 0)
    changes = len(farm.rows("change"))
    assert _days(farm, WEEK) == Imported(0, 7, 0)
    assert len(farm.rows("change")) == changes
    found = _ask_days(farm)
    assert [(d.on, d.tmax_c, d.wet_h, d.wet_morning) for d in found] == [
        (w.on, w.tmax_c, w.wet_h, w.wet_morning) for w in WEEK
    ]


def test_a_corrected_day_keeps_what_it_was_in_the_history(farm: Farm) -> None:
    """Only the figure that differs; a figure the new file does not have stays."""
    _days(farm, WEEK)
    moved = (Correction("2026-07-03", "tmax_c", 33.0, 35.5),)
    later = [DayIn("2026-07-03", tmax_c=35.5), WEEK[3], DayIn("2026-07-09", 28.0)]
    assert _days(farm, later) == Imported(1, 1, 1, moved)
    day = next(day for day in _ask_days(farm) if day.on == "2026-07-03")
    assert (day.tmax_c, day.tmin_c, day.rh_mean_pct) == (35.5, 18.0, 71.0)
    change = next(row for row in farm.rows("change") if row["row_id"] == day.id and row["before"])
    assert (json.loads(change["before"]), json.loads(change["after"])) == ({"tmax_c": 33.0}, {"tmax_c": 35.5})


def test_two_devices_that_read_one_file_make_the_same_rows(farm: Farm) -> None:
    """The second finds them there."""
    _days(farm, WEEK)
    _hours(farm, NIGHT)
    other = farm.other_device()
    assert _days(other, WEEK) == Imported(0, 7, 0)
    assert _hours(other, NIGHT) == Imported(0, 6, 0)


def test_a_day_twice_in_a_file_is_taken_once_or_refused(farm: Farm) -> None:
    """Equal lines are one; lines that contradict each other are for the grower to settle."""
    assert _days(farm, [WEEK[0], WEEK[0]]) == Imported(1, 1, 0)
    with pytest.raises(BadInput, match="2026-07-02 is in the file twice"):
        _days(farm, [WEEK[1], WEEK[1]._replace(tmax_c=20.0)])
    assert len(_ask_days(farm)) == 1


def test_an_empty_file_changes_nothing(farm: Farm) -> None:
    """Not an error."""
    assert _days(farm, []) == Imported(0, 0, 0) == _hours(farm, [])


def test_a_correction_that_cannot_be_is_refused_whole(farm: Farm) -> None:
    """A minimum above the maximum that is already there."""
    _days(farm, WEEK)
    with pytest.raises(BadInput, match="minimum above its maximum"):
        _days(farm, [DayIn("2026-07-10", 25.0), DayIn("2026-07-01", tmin_c=40.0)])
    assert len(_ask_days(farm)) == 7


def test_undoing_an_import_of_days_takes_out_its_days_and_its_corrections(farm: Farm) -> None:
    """The days that were there before are as before."""
    _days(farm, WEEK)
    before = _ask_days(farm)
    _days(farm, [DayIn("2026-07-03", tmax_c=35.5), DayIn("2026-07-09", 28.0)])
    undo_last(farm.engine, farm.stamp)
    assert _ask_days(farm) == before
    undo_last(farm.engine, farm.stamp)
    assert _ask_days(farm) == ()


def test_a_typed_day_is_corrected_in_place_and_undone(farm: Farm) -> None:
    """One line typed twice is one day."""
    day = {"station": "home", "on": "2026-07-19", "kind": "observed", "basis": "typed"}
    with transaction(farm.engine, farm.stamp) as tx:
        first = weather.set_day(tx, **day, tmax_c=33.0, rain_mm=4.0)
    with transaction(farm.engine, farm.stamp) as tx:
        assert weather.set_day(tx, **day, tmax_c=34.0) == first
    assert [(d.tmax_c, d.rain_mm) for d in _ask_days(farm)] == [(34.0, 4.0)]
    undo_last(farm.engine, farm.stamp)
    assert [(d.tmax_c, d.rain_mm) for d in _ask_days(farm)] == [(33.0, 4.0)]


def test_a_forecast_is_never_among_what_was_observed(farm: Farm) -> None:
    """It has its own kind and time of issue; the newest issue comes first."""
    _days(farm, WEEK[:1])
    for issued in ("2026-06-29T06:00", "2026-06-30T06:00"):
        _days(farm, [DayIn("2026-07-01", 36.0)], Series("home", "forecast", "estimated", issued))
    assert [day.kind for day in _ask_days(farm)] == ["observed"]
    assert [day.issued_at for day in _ask_days(farm, kind="forecast")] == ["2026-06-30T06:00", "2026-06-29T06:00"]
    with pytest.raises(BadInput, match="needs the time of issue"):
        _days(farm, WEEK, Series("home", "forecast"))


def test_of_several_records_of_a_day_the_best_basis_comes_first(farm: Farm) -> None:
    """Measured, then station, typed, estimated."""
    for basis in ("estimated", "typed", "measured", "station"):
        _days(farm, WEEK[:1], Series("home", basis=basis))
    assert [day.basis for day in _ask_days(farm)] == ["measured", "station", "typed", "estimated"]
    assert len(_ask_days(farm, station="elsewhere")) == 0


def test_hours_are_added_once_and_corrected_with_history(farm: Farm) -> None:
    """One change row for the import, with every figure that was corrected."""
    assert _hours(farm, NIGHT) == Imported(6, 0, 0)
    later = [NIGHT[0], HourIn("2026-07-20T01:00", 120, 16.9), HourIn("2026-07-20T07:00", 120, 20.0)]
    assert _hours(farm, later) == Imported(1, 1, 1, (Correction("2026-07-20T01:00", "temp_c", 16.0, 16.9),))
    found = _ask_hours(farm)
    assert [(h.at, h.temp_c, h.rh_pct, h.wet) for h in found[:2]] == [
        ("2026-07-20T00:00", 15.0, 90.0, True),
        ("2026-07-20T01:00", 16.9, 90.0, True),
    ]
    assert len(found) == 7
    change = [row for row in farm.rows("change") if row["entity"] == "weather_hour"][-1]
    assert json.loads(change["before"])["hours"] == [["2026-07-20T01:00", 120, 16.0, 90.0, 0.2, 1.1, True]]
    with reading(farm.engine) as session:
        assert weather.stations(session=session, garden_id=farm.stamp.garden_id) == ("home",)


def test_the_hour_that_the_clock_shows_twice_is_two_hours(farm: Farm) -> None:
    """When summer time ends 02:30 comes at +120 and again at +60; in true order."""
    twice = [HourIn("2026-10-25T02:30", 60, 8.0), HourIn("2026-10-25T02:30", 120, 9.0)]
    assert _hours(farm, twice) == Imported(2, 0, 0)
    assert [(h.offset_min, h.temp_c) for h in _ask_hours(farm)] == [(120, 9.0), (60, 8.0)]


def test_undoing_an_import_of_hours_takes_out_only_its_own(farm: Farm) -> None:
    """Corrected hours are as before; the first import goes with its series."""
    _hours(farm, NIGHT)
    before = _ask_hours(farm)
    _hours(farm, [HourIn("2026-07-20T01:00", 120, 16.9), HourIn("2026-07-20T07:00", 120, 20.0)])
    undo_last(farm.engine, farm.stamp)
    assert _ask_hours(farm) == before
    undo_last(farm.engine, farm.stamp)
    assert _ask_hours(farm) == () and farm.rows("weather_series") == []


def test_an_import_of_hours_is_not_undone_after_another_device_added_to_it(farm: Farm) -> None:
    """Its series and figures are in use."""
    _hours(farm, NIGHT)
    _hours(farm.other_device(), [HourIn("2026-07-20T01:00", 120, 11.0)])
    with pytest.raises(Refused, match="changed again later"):
        undo_last(farm.engine, farm.stamp)
    assert len(_ask_hours(farm)) == 6


def test_the_limits_are_those_of_the_science() -> None:
    """One table: what can be computed with can be kept, and nothing else."""
    assert {name: LIMITS[name] for name in SCIENCE_LIMITS} == dict(SCIENCE_LIMITS)


_ODD = [float("nan"), float("inf"), -60, 60, 60.5, 0, 24, 24.1, 100, 101, True, "3", 2000, 2000.1, -1e9]
_ODD_TIMES = ["2026-07-20T24:00", "2026-02-30T07:00", "2026-07-20", "", 7, None, "2026-07-20T07:0x"]
_ODD_DAYS = ["2026-02-30", "2026-7-2", "20260720", "", None, 3, "2026-07-20T07:00", "1626-07-20"]


def _mostly(usual: st.SearchStrategy[Any], odd: list[Any]) -> st.SearchStrategy[Any]:
    """Most draws are such as a file has, so that whole rows are often good."""
    return st.integers(0, 14).flatmap(lambda draw: st.sampled_from(odd) if draw == 0 else usual)


_NUMBER = _mostly(st.one_of(st.none(), st.floats(0, 24)), _ODD)
_TIME = _mostly(st.just("2026-07-20T07:00"), _ODD_TIMES)
_DAY = _mostly(st.just("2026-07-20"), _ODD_DAYS)
_FLAG = _mostly(st.sampled_from([True, False, None]), [1, "yes", 0.0])
_OFFSET = _mostly(st.just(120), [-840, 840, 841, -841, None, 1.0, True])


def _class_takes(noun: Any, rows: list[Any], shared: dict[str, Any]) -> bool:
    try:
        for row in rows:
            checked(noun, shared | row._asdict())
    except BadInput:
        return False
    return True


def _columns_take(check: Any, *about: Any) -> bool:
    try:
        check(*about)
    except BadInput:
        return False
    return True


@settings(suppress_health_check=[HealthCheck.too_slow], max_examples=300)
@given(st.lists(st.builds(DayIn, _DAY, _NUMBER, _NUMBER, _NUMBER, _NUMBER, _FLAG, _NUMBER), max_size=3))
def test_days_checked_by_column_are_taken_exactly_when_the_class_takes_each(rows: list[DayIn]) -> None:
    """Bulk import is faster, never laxer or stricter."""
    assert _columns_take(check_days, rows, SHARED) == _class_takes(WeatherDay, rows, SHARED)


@settings(suppress_health_check=[HealthCheck.too_slow], max_examples=300)
@given(st.lists(st.builds(HourIn, _TIME, _OFFSET, _NUMBER, _NUMBER, _NUMBER, _NUMBER, _FLAG), max_size=3))
def test_hours_checked_by_column_are_taken_exactly_when_the_class_takes_each(rows: list[HourIn]) -> None:
    """As for days."""
    links = {"series_id": LINK, "import_id": LINK}
    assert _columns_take(check_hours, rows, LINK) == _class_takes(WeatherHour, rows, links)


@pytest.mark.parametrize("name", [*DayIn._fields[1:5], "rh_mean_pct"])
@pytest.mark.parametrize("end", [0, 1])
def test_the_ends_of_a_range_are_inside_and_the_next_number_is_not(name: str, end: int) -> None:
    """For every figure of a day, by column and by class alike."""
    edge = LIMITS[name][end]
    beyond = edge + (0.001 if end else -0.001)
    inside, outside = DayIn("2026-07-20", **{name: edge}), DayIn("2026-07-20", **{name: beyond})
    check_days([inside], SHARED)
    with pytest.raises(BadInput, match=f"2026-07-20: Weather day: {name} must lie between"):
        check_days([inside, outside], SHARED)
