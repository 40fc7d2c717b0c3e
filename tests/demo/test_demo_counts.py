"""The figures of the five situations are in the demo garden's files, and the comparisons come out as said."""

from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest
from scipy import stats

from scout.intake.walk_model import WalkFile
from scout.science.counts import compare_poisson_counts, fisher_exact_two_sided
from scout.science.sowing import TENDER_D, last_sowing_date

# tapered cucumbers


def test_the_counts_of_the_tapered_cucumbers(demo: Any) -> None:
    day = date(2026, 7, 22)
    assert demo.counted(day, "Trellis", "cucumber", "fruit.pinched_blossom_end") == (7, 19)
    assert demo.counted(day, "Trellis", "cucumber", "fruit.seeds_missing_where_thin") == (3, 3)
    assert demo.counted(day, "Trellis", "cucumber", "leaf.clean_newest") == (8, 8)
    trellis, tub = demo.stop_at(day, "Trellis", "cucumber"), demo.stop_at(day, "Green tub", "cucumber")
    assert (trellis.sound, trellis.odd, tub.sound, tub.odd) == (12, 7, 8, 1)
    assert demo.planting_of(tub).sets_without_bees is True
    assert demo.counted(day, "Green tub", "cucumber", "fruit.pinched_blossom_end") == (1, 9)
    assert demo.finding(demo.stop_at(day, "Bean rows", "snap_bean"), "fruit.short_lumpy_pod").state == "seen"
    assert [job.control for job in trellis.jobs] == ["pick_off_misshapen"]


def test_the_next_pick_is_a_fall_that_chance_seldom_makes(demo: Any) -> None:
    later = next(walk.date for walk in demo.walks if walk.date > date(2026, 7, 22) and _trellis_picked(walk))
    odd, of = demo.counted(later, "Trellis", "cucumber", "fruit.pinched_blossom_end")
    assert (odd, of) == (1, 17)
    # Reference: scipy.stats.fisher_exact, two-sided.
    p = fisher_exact_two_sided(7, 12, 1, 16)
    assert p == pytest.approx(stats.fisher_exact([[7, 12], [1, 16]]).pvalue) and round(p, 2) == 0.04


def test_the_tub_has_too_few_to_tell_it_from_the_trellis() -> None:
    # 1 of 9 against 7 of 19. Reference: scipy.stats.fisher_exact, two-sided.
    p = fisher_exact_two_sided(1, 8, 7, 12)
    assert p == pytest.approx(stats.fisher_exact([[1, 8], [7, 12]]).pvalue) and p > 0.2


def _trellis_picked(walk: WalkFile) -> bool:
    return any(stop.bed == "Trellis" and stop.sound is not None for stop in walk.stops)


# four tomato beds


def test_the_bed_that_keeps_up(demo: Any) -> None:
    assert len(demo.series("Kiln bed")) == 3 and demo.visit_days("Kiln bed") == 28
    assert [demo.mean_at("Kiln bed", visit, "highest") for visit in (0, -1)] == [5, 8]
    assert [demo.mean_at("Kiln bed", visit, "top") for visit in (0, -1)] == [16, 26]
    before = demo.newly_between("Kiln bed", date(2026, 7, 21), date(2026, 7, 28))
    after = demo.newly_between("Kiln bed", date(2026, 8, 4), date(2026, 8, 18))
    assert before == (12, 3 * 7) and after == (7, 6 * 7)
    compared = compare_poisson_counts(*before, *after)
    # Reference: scipy.stats.binomtest of 12 in 19 with a third of the exposure, two-sided.
    assert compared is not None and round(compared.p_least_likely, 3) == 0.012
    assert compared.p_least_likely == pytest.approx(stats.binomtest(12, 19, 1 / 3).pvalue)


def test_the_bed_that_is_losing(demo: Any) -> None:
    assert demo.visit_days("Orchard wall") == 21
    assert [demo.mean_at("Orchard wall", visit, "highest") for visit in (0, -1)] == [4, 13]
    assert [demo.mean_at("Orchard wall", visit, "top") for visit in (0, -1)] == [15, 20]
    for visits in demo.series("Orchard wall").values():
        last = visits[-1][1]
        assert last.top is not None and last.highest is not None and last.top - last.highest == 7
        severities = [measured.severity for _, measured in visits]
        assert max(one for one in severities if one is not None) == 12 and severities[-1] == 4


def test_beans_in_place_of_the_losing_bed_would_be_too_late(demo: Any) -> None:
    first_frost = date(2026, *(int(part) for part in str(demo.garden.garden.first_frost).split("-")))
    # 55 days to the first pods, 21 of picking, 14 for autumn, 14 for a tender crop: 104 days before 28 October.
    last = last_sowing_date(first_frost, 55, 21, tender_d=TENDER_D)
    assert last == date(2026, 7, 16)
    assert max(day for visits in demo.series("Orchard wall").values() for day, _ in visits) > last


def test_the_bed_that_cannot_be_told(demo: Any) -> None:
    days = sorted({day for visits in demo.series("Well bed").values() for day, _ in visits})
    first, second = (demo.newly_between("Well bed", *pair) for pair in pairwise(days))
    assert (first[0], second[0]) == (2, 5) and first[1] == second[1]
    compared = compare_poisson_counts(*first, *second)
    # Reference: scipy.stats.binomtest of 2 in 7 with equal exposure, two-sided.
    assert compared is not None and compared.p_least_likely == pytest.approx(stats.binomtest(2, 7, 0.5).pvalue)
    assert round(compared.p_least_likely, 2) == 0.45


def test_the_bushy_kind_has_stopped_growing(demo: Any) -> None:
    for visits in demo.series("Lean-to").values():
        assert {measured.top for _, measured in visits} == {visits[0][1].top}
        assert {measured.habit for _, measured in visits} == {"determinate"}


@pytest.mark.parametrize("bed", ["Kiln bed", "Orchard wall", "Well bed", "Lean-to"])
def test_marked_plants_grow_as_plants_do(demo: Any, bed: str) -> None:
    for visits in demo.series(bed).values():
        for (before, old), (day, new) in pairwise(visits):
            assert 3 <= (day - before).days <= 14, bed
            for field in ("top", "highest", "stripped_to"):
                was, now = getattr(old, field), getattr(new, field)
                assert was is None or now is None or was <= now <= was + 4, (bed, day, field)
            assert new.stripped_to is None or new.highest is None or new.stripped_to <= new.highest
            if new.stripped_to is not None:
                assert new.top is not None and new.standing == new.top - new.stripped_to, (bed, day)


@pytest.mark.parametrize("bed", ["Kiln bed", "Orchard wall"])
def test_leaves_were_stripped_as_the_app_allows(demo: Any, bed: str) -> None:
    """At most three leaves a stem a week, dry, no rain for three hours, no day over 35 °C in the next two."""
    stripped = 0
    for visits in demo.series(bed).values():
        line = 0
        for day, measured in visits:
            taken = (measured.stripped_to or line) - line
            if taken:
                stripped, line = stripped + 1, line + taken
                assert taken <= 3 and measured.wet == "dry", (bed, day)
                started = demo.on_day[day].started.hour
                ahead = demo.hours[day.isoformat()][started : started + 4]
                assert all(hour["wet"] == "no" for hour in ahead), (bed, day)
                for n in (1, 2):
                    assert float(demo.days[(day + timedelta(days=n)).isoformat()]["tmax_c"]) <= 35, (bed, day)
    assert stripped >= 4


def test_a_plant_felt_dry_stands_in_an_hour_without_wet_leaves(demo: Any) -> None:
    for walk in demo.walks:
        hour = demo.hours[walk.date.isoformat()][walk.started.hour]
        if any(measured.wet == "dry" for stop in walk.stops for measured in stop.measurements):
            assert hour["wet"] == "no", walk.date


# limp at half past two


def test_the_limp_squash_of_the_afternoon_and_of_the_dawn_after(demo: Any) -> None:
    day = date(2026, 7, 16)
    afternoon = demo.on_day[day].started, demo.stop_at(day, "Squash corner", "summer_squash")
    assert (afternoon[0].hour, afternoon[0].minute) == (14, 30)
    assert demo.counted(day, "Squash corner", "summer_squash", "whole_plant.limp_midday") == (4, 4)
    assert afternoon[1].circumstances["soil_moist_5cm"] is True and not afternoon[1].jobs
    assert float(demo.hours[day.isoformat()][14]["temp_c"]) >= 35
    dawn = day + timedelta(days=1)
    assert (demo.on_day[dawn].started.hour, demo.on_day[dawn].started.minute) == (6, 10)
    squash = ("Squash corner", "summer_squash")
    assert demo.counted(dawn, *squash, "whole_plant.limp_noon_firm_dawn") == (3, 4)
    assert demo.counted(dawn, *squash, "whole_plant.limp_at_dawn") == (1, 4)
    assert demo.counted(dawn, *squash, "stem.frass_at_base") == (1, 4)
    assert "6 cm" in demo.stop_at(dawn, *squash).note
    assert [job.cause for job in demo.stop_at(dawn, *squash).jobs] == ["squash_vine_borer"]
    assert not demo.on_day[day].waterings and not demo.on_day[dawn].waterings


def test_the_dry_tub_was_watered_and_the_bitter_volunteer_pulled(demo: Any) -> None:
    day = date(2026, 7, 16)
    tub = demo.stop_at(day, "Black tub", "sweet_pepper")
    assert tub.circumstances["soil_dry_5cm"] is True
    assert [(job.control, job.done) for job in tub.jobs] == [("water_now_at_soil", True)]
    volunteer = demo.stop_at(day, "Compost edge", "summer_squash")
    assert demo.planting_of(volunteer).origin == "volunteer"
    assert demo.finding(volunteer, "fruit.bitter_taste").state == "seen" and volunteer.pulled


# wet, hot picking day, and false alarms


def test_one_planting_is_not_to_be_eaten_before_the_24th(demo: Any) -> None:
    holds = [(walk.date, hold) for walk in demo.walks for hold in walk.holds]
    assert [hold.until for _, hold in holds] == [date(2026, 8, 24)]
    assert holds[0][0] < date(2026, 8, 21)


def test_thirty_four_plantings_are_left_of_thirty_five(demo: Any) -> None:
    pulled = sum(stop.pulled is not None for walk in demo.walks for stop in walk.stops)
    assert len(demo.garden.plantings) - pulled == 34


def test_the_counts_of_the_false_alarms(demo: Any) -> None:
    first, later = date(2026, 8, 5), date(2026, 8, 9)
    assert demo.counted(first, "Long row", "tomato", "leaf.pencil_tip_spots") == (5, 11)
    assert demo.counted(later, "Long row", "tomato", "leaf.grey_centre_black_dots") == (4, 5)
    assert (later - first).days == 4
    blotch = demo.stop_at(date(2026, 7, 26), "South frame", "tomato")
    assert demo.counted(date(2026, 7, 26), "South frame", "tomato", "fruit.sun_side_papery") == (1, 12)
    assert "3 cm" in blotch.note and demo.finding(blotch, "leaf.white_rim_beneath").state == "not_seen"
    assert demo.counted(first, "Step tub", "sweet_pepper", "leaf.cupped_new") == (3, 6)
    assert demo.finding(demo.stop_at(first, "Step tub", "sweet_pepper"), "insect.mites_moving").state == "seen"
    twin = demo.stop_at(first, "Twin tub", "sweet_pepper")
    assert (twin.clear, twin.looked) == ("every_look", 6)
