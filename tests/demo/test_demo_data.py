"""The demo garden's files: every one reads, agrees with the others, and says what its README promises."""

import re
from datetime import date, timedelta
from statistics import fmean
from typing import Any

import pytest
from PIL import Image

from scout.intake.walk_model import WalkFile
from scout.science.heat_index import heat_class, heat_index_c
from scout.science.units import f_from_c

MAX_PICTURE_BYTES = 60_000


# the files and each other


def test_every_walk_stands_under_its_day_and_they_span_the_season(demo: Any) -> None:
    days = [walk.date for walk in demo.walks]
    assert len(days) >= 16 and len(set(days)) == len(days)
    assert days[0] <= date(2026, 5, 20) and days[-1] >= date(2026, 8, 15)


def test_the_garden_is_large_enough_and_says_not_where_it_lies(demo: Any) -> None:
    kinds = [bed.kind for bed in demo.garden.beds]
    assert kinds.count("bed") >= 14 and kinds.count("tub") >= 5
    assert demo.garden.garden.latitude is None


def test_only_data_lies_in_the_folder(demo: Any) -> None:
    kinds = {file.suffix for file in demo.folder.rglob("*") if file.is_file()}
    assert kinds <= {".toml", ".csv", ".jpg", ".svg", ".md"}


def test_every_crop_of_the_garden_is_known(demo: Any) -> None:
    assert {one.crop for one in demo.garden.plantings} <= set(demo.knowledge.crops)


def test_a_walk_names_only_what_stands_there_and_what_is_known(demo: Any) -> None:
    for walk in demo.walks:
        names_are_known(demo, walk)


def names_are_known(demo: Any, walk: WalkFile) -> None:
    zones = {bed.water_zone for bed in demo.garden.beds}
    assert {one.zone for one in walk.waterings} <= zones
    for stop in walk.stops:
        planting = demo.planting_of(stop)
        begun = planting.sown_on or planting.set_out_on
        assert begun is not None and begun < walk.date, stop.bed
        assert stop.looked is None or stop.looked <= planting.plants, stop.bed
        assert {found.symptom for found in stop.findings} <= set(demo.knowledge.symptoms)
        assert set(stop.circumstances) <= set(demo.knowledge.circumstances)
        assert set(stop.enemies) <= set(demo.knowledge.enemies)
        for found in stop.findings:
            crops = demo.knowledge.symptoms[found.symptom].crops
            assert not crops or stop.crop in crops, (stop.bed, found.symptom)
        for job in stop.jobs:
            cause = demo.knowledge.causes[job.cause]
            assert stop.crop in cause.common, (stop.bed, job.cause)
            assert job.control in {action.control for action in cause.do}, (stop.bed, job.cause, job.control)


def test_no_job_is_a_labelled_product_or_a_feed(demo: Any) -> None:
    controls = {job.control for walk in demo.walks for stop in walk.stops for job in stop.jobs}
    assert controls and not [one for one in controls if demo.knowledge.control_kind[one] == "labelled" or "feed" in one]


def test_nothing_is_seen_at_a_planting_after_it_was_pulled(demo: Any) -> None:
    pulled: dict[tuple[str, str], date] = {}
    for walk in demo.walks:
        for stop in walk.stops:
            assert (stop.bed, stop.crop) not in pulled, (stop.bed, walk.date)
            if stop.pulled:
                pulled[stop.bed, stop.crop] = walk.date
    assert pulled == {("Compost edge", "summer_squash"): date(2026, 7, 16)}


# the pictures


def test_every_picture_is_shown_somewhere_small_and_of_one_size(demo: Any) -> None:
    shown = {photo.file for walk in demo.walks for stop in walk.stops for photo in stop.photos}
    files = {file.name: file for file in (demo.folder / "photos").iterdir()}
    assert shown == set(files) and 10 <= len(files) <= 14
    for file in files.values():
        assert file.stat().st_size <= MAX_PICTURE_BYTES, file.name
        with Image.open(file) as picture:
            assert picture.size == (800, 600) and not picture.getexif(), file.name


# the weather


def test_the_days_are_the_hours_summed_up(demo: Any) -> None:
    assert list(demo.days) == [(date(2026, 5, 1) + timedelta(days=n)).isoformat() for n in range(123)]
    assert set(demo.days) == set(demo.hours)
    for day, row in demo.days.items():
        hours = demo.hours[day]
        assert [hour["time"] for hour in hours] == [f"{day} {at:02}:00" for at in range(24)]
        temperatures = [float(hour["temp_c"]) for hour in hours]
        assert float(row["tmax_c"]) == max(temperatures), day
        assert float(row["tmin_c"]) == min(temperatures), day
        assert float(row["rain_mm"]) == pytest.approx(sum(float(hour["rain_mm"]) for hour in hours), abs=0.051), day
        assert float(row["wet_h"]) == sum(hour["wet"] == "yes" for hour in hours), day
        assert row["wet_morning"] == ("yes" if any(hour["wet"] == "yes" for hour in hours[6:8]) else "no"), day
        assert float(row["rh_mean_pct"]) == pytest.approx(fmean(float(hour["rh_pct"]) for hour in hours), abs=0.51), day


def test_leaves_are_wet_while_it_rains_and_the_air_is_moist_while_they_are_wet(demo: Any) -> None:
    for hours in demo.hours.values():
        for hour in hours:
            assert hour["wet"] == "yes" or float(hour["rain_mm"]) == 0, hour["time"]
            assert hour["wet"] == "no" or float(hour["rh_pct"]) >= 90, hour["time"]


def test_the_hot_picking_day_is_wet_until_past_nine_and_dangerous_at_eleven(demo: Any) -> None:
    hours = demo.hours["2026-08-21"]
    assert [hour["wet"] for hour in hours] == ["yes"] * 10 + ["no"] * 14  # the hour of 9:40 still counts as wet
    assert all(float(hour["rain_mm"]) == 0 for hour in hours)  # dew, no rain
    temp_c, rh_pct = float(hours[11]["temp_c"]), float(hours[11]["rh_pct"])
    assert round(f_from_c(temp_c)) == 92 and rh_pct == 60
    # NWS heat index chart: 92 °F and 60 % give 105 °F, in the band "danger".
    index_c = heat_index_c(temp_c, rh_pct)
    assert f_from_c(index_c) == pytest.approx(105, abs=0.6) and heat_class(index_c) == "danger"


def test_four_hot_days_and_nights_and_one_morning_of_rain_were_the_flowers_of_the_tapered_cucumbers(demo: Any) -> None:
    flowering = [demo.days[f"2026-07-{day}"] for day in (11, 12, 13, 14)]
    assert all(35.5 <= float(day["tmax_c"]) <= 37.0 for day in flowering)
    assert all(25.0 <= float(day["tmin_c"]) <= 26.0 for day in flowering)
    rainy = [hour["time"] for hour in demo.hours["2026-07-13"] if float(hour["rain_mm"]) > 0]
    assert rainy == [f"2026-07-13 {hour:02}:00" for hour in range(6, 11)]


def test_it_cooled_before_the_flowers_of_the_next_pick(demo: Any) -> None:
    cool = [demo.days[f"2026-07-{day}"] for day in (18, 19, 20, 21, 22, 23)]
    assert all(float(day["tmax_c"]) <= 29 and float(day["tmin_c"]) < 20 for day in cool)


def test_a_day_of_37_degrees_came_before_the_blotch(demo: Any) -> None:
    assert max(float(demo.days[f"2026-07-{day}"]["tmax_c"]) for day in (23, 24, 25)) == 37.0


# the README


def test_the_readme_counts_what_is_there(demo: Any) -> None:
    said = (demo.folder / "README.md").read_text(encoding="utf-8")
    beds = [bed.kind for bed in demo.garden.beds]
    counts = (beds.count("bed"), beds.count("tub"), len(demo.garden.plantings), len(demo.walks))
    shown = re.search(r"(\d+) beds and (\d+) tubs in walking order, (\d+) plantings.*?(\d+) walks", said, re.S)
    assert shown is not None and tuple(int(number) for number in shown.groups()) == counts
    assert all((demo.folder / name).exists() for name in re.findall(r"`([a-z_]+\.(?:toml|csv))`", said))
