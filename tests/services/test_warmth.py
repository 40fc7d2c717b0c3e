"""Sums of warmth from the garden's own days: sure, estimated, unknown, or not valid where the garden lies."""

from datetime import date, timedelta

import pytest

from scout.services import answers, garden, site, walk, warmth, warmth_words
from scout.store.weather import set_day

from ..small_garden import stop_at

TODAY = date(2026, 7, 22)


@pytest.fixture
def days(context):
    """Write days of one high and low; every other field stays missing."""

    def written(
        first: date, last: date, high: float = 30.0, low: float = 20.0, *, without: tuple[date, ...] = ()
    ) -> None:
        with context.write() as tx:
            for step in range((last - first).days + 1):
                on = first + timedelta(days=step)
                if on not in without:
                    set_day(
                        tx, station="here", on=on.isoformat(), kind="observed", basis="typed", tmax_c=high, tmin_c=low
                    )

    return written


def borer(context):
    """The count of the squash vine borer from the first of January."""
    found = warmth.pest_counts(context)
    return next(one for one in found if one.cause == "squash_vine_borer" and one.starts == "1 January")


def said(context, count) -> str:
    return "\n".join(warmth_words.pest_lines(context, count))


def test_only_pests_of_the_crops_that_stand_here_are_told(context) -> None:
    causes = {one.cause for one in warmth.pest_counts(context)}
    assert {"squash_vine_borer", "seedcorn_maggot", "european_corn_borer_pepper"} <= causes
    assert causes.isdisjoint({"cabbage_maggot", "onion_maggot", "corn_rootworm"})


def test_a_sum_over_every_day_is_the_sum_and_says_when_the_next_thing_comes(context, days) -> None:
    days(date(2026, 1, 1), date(2026, 5, 31), 10.0, 0.0)
    days(date(2026, 6, 1), date(2026, 7, 21), 20.0, 18.0)
    found = borer(context)
    # (20 + 18) / 2 - 10 = 9 a day, 51 days; the moths come at 1000 °F-days = 555.6 °C-days (South Dakota State 2021)
    assert (found.sure_cd, found.estimate_cd, found.missing_n) == (459.0, 459.0, 0)
    assert found.to_go_n == 10  # 96.6 at 9 a day are 11 days, today the first
    text = said(context, found)
    assert "Next: moths come out of the soil, at 556 °C-days: about 1 August if it stays as warm as last week." in text
    assert "every day known" in text


def test_a_reached_sum_is_dated_and_says_what_is_worth_a_look(context, days) -> None:
    days(date(2026, 1, 1), date(2026, 5, 31), 10.0, 0.0)
    days(date(2026, 6, 1), date(2026, 7, 21), 30.0, 20.0)
    found = borer(context)
    # 15 a day from 1 June: 555.6 on the 38th day
    assert found.events[0].on == date(2026, 7, 8)
    assert "Reached on 8 July" in said(context, found) and "Look: A red-orange moth" in said(context, found)


def test_a_short_gap_makes_an_estimate_and_a_long_one_leaves_only_what_is_sure(context, days) -> None:
    gap = tuple(date(2026, 6, 10) + timedelta(days=n) for n in range(3))
    days(date(2026, 1, 1), date(2026, 5, 31), 10.0, 0.0)
    days(date(2026, 6, 1), date(2026, 7, 21), 20.0, 18.0, without=gap)
    found = borer(context)
    assert (found.sure_cd, found.estimate_cd, found.missing_n) == (432.0, 459.0, 3)
    assert "3 of 202 days are missing and bridged" in said(context, found)


def test_records_that_begin_in_june_tell_at_least(context, days) -> None:
    days(date(2026, 6, 1), date(2026, 7, 21), 20.0, 18.0)
    found = borer(context)
    assert (found.sure_cd, found.estimate_cd, found.to_go_n) == (459.0, None, None)
    assert "At least 459 °C-days" in said(context, found) and "when cannot be told" in said(context, found)


def test_what_is_sure_reaches_an_event_whatever_is_missing(context, days) -> None:
    days(date(2026, 6, 1), date(2026, 7, 21), 30.0, 20.0)
    assert "Reached by 8 July, perhaps earlier" in said(context, borer(context))


def test_without_weather_nothing_is_told_of_warmth(context) -> None:
    found = borer(context)
    assert (found.sure_cd, found.estimate_cd, found.events[0].on) == (0.0, None, None)


@pytest.mark.parametrize(
    ("zone", "latitude", "fits"),
    [
        ("America/Chicago", 44.0, "yes"),
        ("America/Chicago", None, "unknown"),
        ("America/Chicago", 30.0, "no"),
        ("America/Sao_Paulo", -44.0, "no"),
        ("Europe/Berlin", 44.0, "no"),
        ("Europe/Berlin", None, "no"),
        ("UTC", 44.0, "unknown"),
        ("UTC", -44.0, "no"),
    ],
)
def test_a_model_says_where_it_does_not_hold(zone, latitude, fits) -> None:
    assert warmth.place_fits(zone, latitude, ("America/",), (38.0, 50.0)) == fits


def test_where_a_model_does_not_hold_no_number_is_told(context, days) -> None:
    days(date(2026, 1, 1), date(2026, 7, 21))
    site.set_latitude(context, -34.0)
    found = borer(context)
    assert (found.place, found.sure_cd, found.estimate_cd, found.to_go_n) == ("no", None, None, None)
    text = said(context, found)
    assert "Not valid here" in text and not any(letter.isdigit() for letter in text)
    site.set_latitude(context, 44.0)
    assert borer(context).sure_cd is not None


def test_a_count_from_a_sighting_begins_with_it(context, days, clock) -> None:
    days(date(2026, 6, 1), date(2026, 7, 21), 20.0, 18.0)
    eggs = [
        one for one in warmth.pest_counts(context) if one.cause == "squash_vine_borer" and one.starts != "1 January"
    ]
    assert [one.since for one in eggs] == [None]
    clock.on(7, 10)
    answers.add_finding(context, stop_at(context, "summer_squash").id, "insect.borer_moth", "look")
    walk.finish(context)
    clock.on(7, 22)
    (found,) = [
        one
        for one in warmth.pest_counts(context)
        if one.cause == "squash_vine_borer" and one.since == date(2026, 7, 10)
    ]
    # twelve days of 9; the first eggs hatch at 245 °F-days = 136.1 °C-days: four more days, today the first
    assert (found.sure_cd, found.to_go_n) == (108.0, 3)


def test_days_whose_low_is_above_the_high_count_as_missing(context, days) -> None:
    days(date(2026, 1, 1), date(2026, 7, 21), 20.0, 18.0)
    with context.write() as tx:
        set_day(tx, station="far", on="2026-07-20", kind="observed", basis="measured", tmin_c=25.0)
    assert borer(context).missing_n == 1


def test_chill_counts_cold_days_since_planting(context, days) -> None:
    bed = garden.add_bed(context, "Garlic bed")
    garden.add_planting(context, (bed,), "garlic", plants_n=20, set_out_on="2026-03-01")
    days(date(2026, 3, 1), date(2026, 3, 20), 10.0, 4.0)  # mean 7.0, at or below 45 °F
    days(date(2026, 3, 21), date(2026, 7, 21), 20.0, 10.0)
    (found,) = warmth.chill_counts(context)
    assert (found.cold_n, found.missing_n, found.need_n) == (20, 0, 42)
    assert warmth_words.chill_lines(context, found)[1] == (
        "20 days with a mean of 7.2 °C or less since 1 March. About 42 are needed."
    )
