"""The soil of each bed and tub: a reckoning that says so, and says why where it cannot."""

from datetime import date, timedelta

import pytest

from scout.services import answers, bed_water, site, walk, weather_words
from scout.store.weather import set_day

from ..small_garden import stop_at


@pytest.fixture
def hot_dry(context) -> None:
    with context.write() as tx:
        for back in range(1, 20):
            on = (date(2026, 7, 22) - timedelta(days=back)).isoformat()
            set_day(tx, station="here", on=on, kind="observed", basis="typed", tmax_c=32.0, tmin_c=18.0, rain_mm=0.0)


def water(context, clock, day: date, crop: str = "cucumber") -> None:
    clock.on(day.month, day.day)
    answers.log_watering(context, stop_at(context, crop).id, "watered")
    walk.finish(context)
    clock.on(7, 22)


def of(context, crop: str) -> bed_water.BedWater:
    return next(one for one in bed_water.bed_waters(context) if one.label.lower().startswith(crop))


def test_without_a_latitude_the_reason_is_said(context, clock, hot_dry) -> None:
    water(context, clock, date(2026, 7, 15))
    assert "latitude" in str(of(context, "cucumber").why_not)


def test_a_bed_nobody_notes_stays_unknown_beside_one_that_is_noted(context, clock, hot_dry) -> None:
    water(context, clock, date(2026, 7, 15), "sweet_pepper")
    site.set_latitude(context, 40.0)
    assert of(context, "sweet pepper").share is not None
    assert (of(context, "cucumber").state, of(context, "cucumber").share) == ("unknown", None)
    assert "nobody noted water" in str(of(context, "cucumber").why_not)


def test_a_bed_goes_down_after_a_watering_and_a_tub_is_short_sooner(context, clock, hot_dry) -> None:
    site.set_latitude(context, 40.0)
    water(context, clock, date(2026, 7, 17))
    water(context, clock, date(2026, 7, 17), "sweet_pepper")
    bed, tub = of(context, "cucumber"), of(context, "sweet pepper")
    assert bed.watered_on == date(2026, 7, 17) and bed.on == date(2026, 7, 21)
    # FAO-56: about 6 mm a day (eq. 52 at 40° N) over five days, off 105 mm in the bed (0.7 m of loam) and 25 in the tub
    assert bed.share == pytest.approx(1.0 - 30.2 / 105.0, abs=0.02)
    assert (bed.state, tub.state) == ("going", "short")
    assert tub.share is not None and tub.share < 0.2


def test_a_missing_yesterday_is_the_reason(context, clock) -> None:
    site.set_latitude(context, 40.0)
    water(context, clock, date(2026, 7, 17))
    assert "yesterday" in str(of(context, "cucumber").why_not)


def test_near_freezing_the_account_is_lost(context, clock, hot_dry) -> None:
    site.set_latitude(context, 40.0)
    water(context, clock, date(2026, 7, 17))
    with context.write() as tx:
        set_day(
            tx, station="here", on="2026-07-21", kind="observed", basis="measured", tmax_c=1.0, tmin_c=-3.0, rain_mm=0.0
        )
    assert of(context, "cucumber").why_not == "near freezing the account does not hold"


def test_rows_fit_a_phone_and_say_that_they_are_reckoned(context, clock, hot_dry) -> None:
    site.set_latitude(context, 40.0)
    water(context, clock, date(2026, 7, 17), "sweet_pepper")
    head, *rows = weather_words.water_lines(bed_water.bed_waters(context), wide=False)
    assert "no sensor" in head
    assert any(row.startswith("Black tub (tub): ") for row in rows)
    assert all(len(line) <= 42 for row in rows[:-1] for line in row.split("\n")[1:])
    assert (
        rows[-1].startswith("Not known, as nobody noted water there in the last weeks (note it at a stop): ")
        and rows[-1].count("Mixed bed") == 1
    )


@pytest.mark.parametrize("typed", ["40", "-34", "40,7"])
def test_a_latitude_is_kept_as_typed(context, typed) -> None:
    from scout.services.site import latitude_of

    site.type_latitude(context, typed)
    assert latitude_of(context) == float(typed.replace(",", "."))


def test_a_latitude_beyond_the_poles_is_refused(context) -> None:
    from scout.errors import BadInput

    with pytest.raises(BadInput, match="between -90 and 90"):
        site.set_latitude(context, 91.0)
