"""A day told by its hours: only as far as the hours go. All series are made up."""

from scout.science.day_of_hours import AirHour, WetSpan, day_of_hours, night_of_hours


def day(**values) -> list[AirHour]:
    """Damp until nine, dry after it."""
    return [AirHour(h, 18.0 if h < 9 else 27.0, 95.0 if h < 9 else 55.0, 0.0, 2.0, **values) for h in range(24)]


def test_a_whole_day() -> None:
    found = day_of_hours(day())
    assert (found.tmax_c, found.tmin_c, found.rain_mm, found.rh_mean_pct) == (27.0, 18.0, 0.0, 70.0)
    assert (found.wet, found.humid_h, found.humid_mean_c, found.bee_hours_h) == (WetSpan(9, 18.0), 9, 18.0, 6)


def test_a_gap_of_five_hours_leaves_the_day_unknown() -> None:
    found = day_of_hours(day()[:19])
    assert (found.tmax_c, found.wet, found.humid_h, found.rain_mm) == (None, None, None, None)
    assert found.bee_hours_h == 6


def test_rain_is_added_up_only_without_a_gap() -> None:
    hours = [hour._replace(rain_mm=0.5) for hour in day()]
    assert day_of_hours(hours).rain_mm == 12.0
    hours[3] = hours[3]._replace(rain_mm=None)
    assert day_of_hours(hours).rain_mm is None
    assert day_of_hours(hours[:22]).rain_mm is None


def test_what_a_sensor_felt_goes_before_the_estimate() -> None:
    assert day_of_hours(day(wet=False)).wet == WetSpan(0, None)
    assert day_of_hours([AirHour(h, wet=h < 5) for h in range(24)]).wet == WetSpan(5, None)


def test_hours_without_rain_readings_tell_of_bees_only_on_a_day_known_dry() -> None:
    hours = [hour._replace(rain_mm=None) for hour in day()]
    assert day_of_hours(hours).bee_hours_h is None
    assert day_of_hours(hours, dry_day=True).bee_hours_h == 6
    assert day_of_hours(hours, dry_day=False).bee_hours_h is None


def test_a_morning_with_a_gap_tells_nothing_of_bees() -> None:
    assert day_of_hours([hour for hour in day() if hour.clock_h != 8]).bee_hours_h is None


def test_an_autumn_day_of_25_hours_is_wet_for_at_most_24() -> None:
    hours = [AirHour(h, 10.0, 99.0, 0.0) for h in (*range(3), 2, *range(3, 24))]
    found = day_of_hours(hours)
    assert found.wet == WetSpan(24, 10.0) and found.humid_h == 24


def test_a_night_runs_over_midnight() -> None:
    damp = [hour._replace(rh_pct=95.0) if hour.clock_h >= 20 else hour for hour in day()]
    assert night_of_hours(damp, day()) == WetSpan(13, (4 * 27.0 + 9 * 18.0) / 13)
    assert night_of_hours([], day()) is None


def test_temperatures_beyond_a_dew_point_are_unknown_and_never_a_crash() -> None:
    assert day_of_hours([AirHour(h, -55.0, 95.0, 0.0) for h in range(24)]).wet is None
