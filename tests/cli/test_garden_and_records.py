"""Garden, jobs, marked plants, keeping-up, weather and pictures in lines."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest


def test_a_garden_is_set_up_by_flags_alone(bare) -> None:
    made = bare(
        *("garden", "new", "--name", "Plot", "--zone", "Etc/UTC", "--units", "us", "--first-frost", "10-28"),
        *("--last-frost", "04-20", "--latitude", "1,5", "--longitude", "-2.5"),
    )
    assert made.code == 0
    bare("garden", "add-bed", "Tub", "--kind", "tub")
    bare("garden", "add-bed", "Bed")
    bare(
        "garden",
        "add-planting",
        "--bed",
        "Bed",
        "--bed",
        "tub",
        "--crop",
        "zucchini",
        "--plants",
        "4",
        "--sown",
        "2026-05-20",
    )
    shown = bare("garden", "show", "--json").json
    assert (shown["garden"]["units"], shown["garden"]["first_frost"]) == ("us", "10-28")
    assert "latitude" not in str(shown)
    assert [(bed["name"], bed["kind"]) for bed in shown["beds"]] == [("Tub", "tub"), ("Bed", "bed")]
    assert [bed["plantings"][0]["crop"] for bed in shown["beds"]] == ["summer_squash", "summer_squash"]


def test_a_frost_is_said_in_words_and_a_zone_that_is_none_makes_no_garden(bare) -> None:
    refused = bare("garden", "new", "--name", "Plot", "--zone", "Chicago")
    assert refused.code == 1 and "is no time zone; write it like Europe/Rome" in refused.err
    made = bare("garden", "new", "--name", "Plot", "--zone", "america/chicago", "--last-frost", "20 April")
    assert made.code == 0
    shown = bare("garden", "show", "--json").json["garden"]
    assert (shown["zone"], shown["last_frost"]) == ("America/Chicago", "04-20")


def test_a_garden_is_set_up_at_a_prompt(bare) -> None:
    made = bare("garden", "new", typed="Plot\nEtc/UTC\n\n04-20\n10-28\n")
    assert made.code == 0
    assert bare("garden", "add-bed", typed="\nLong bed\n").code == 0
    planted = bare("garden", "add-planting", "--sown", "2026-05-20", typed="long bed\n99\n2\nmany\n8\n")
    assert "Give a number from 1 to" in planted.out and "plants: “many” is not a whole number" in planted.out
    shown = bare("garden", "show", "--json").json
    assert shown["garden"]["last_frost"] == "04-20" and shown["garden"]["units"] == "metric"
    assert shown["beds"][0]["plantings"][0]["plants_n"] == 8


def test_a_garden_file_is_taken_in(bare, tmp_path: Path) -> None:
    file = tmp_path / "garden.csv"
    file.write_text("bed,crop,plants\nLong bed,cucumber,8\nTub,tomato,1\n", encoding="utf-8")
    assert bare("garden", "import", str(file)).out == "Taken in: 2 beds, 2 plantings.\n"


def test_count_stage_and_pull_are_kept(bedwalk) -> None:
    bedwalk("garden", "count", "Long bed", "7")
    bedwalk("garden", "stage", "cucumber", "finishing")
    plant = bedwalk("garden", "show", "--json").json["beds"][0]["plantings"][0]
    assert (plant["plants_n"], plant["stage"]) == (7, "finishing")
    assert bedwalk("garden", "count", plant["id"], "6").code == 0
    bedwalk("garden", "pull", "Mixed bed / Beet", "--why", "all picked")
    assert [one["crop"] for one in bedwalk("garden", "show", "--json").json["beds"][1]["plantings"]] == ["tomato"]
    assert "Cucumber Testina, 6 plants, finishing, sown 2026-05-20" in bedwalk("garden", "show").out


def test_a_job_is_done_then_judged_and_closes_its_problem(bedwalk) -> None:
    bedwalk("walk", "start")
    bedwalk("walk", "find", "leaf.angular_patches", "--affected", "2")
    bedwalk("walk", "find", "leaf.grey_purple_fuzz_beneath", "--affected", "2")
    bedwalk("walk", "take", "downy mildew", "base_watering")
    bedwalk("walk", "take", "downy_mildew_cucurbit", "hands_off_wet")
    assert "not done yet" in bedwalk("jobs", "judge", "1", "yes").complaint
    assert "Skipped" in bedwalk("jobs", "skip", "Keep out while it is wet", "--why", "dry week").out
    assert "Done: Water at the base" in bedwalk("jobs", "done", "1").out
    assert "done already" in bedwalk("jobs", "done", "1").complaint
    kept = bedwalk("jobs", "judge", "1", "yes")
    assert "It worked when" in kept.out and "Kept: yes, it worked" in kept.out
    assert bedwalk("jobs", "list").out == "Nothing to do.\n"
    assert bedwalk("walk", "next", "--json").json["troubles"] == []


def test_marked_plants_are_measured_and_shown_without_a_verdict(bedwalk) -> None:
    bedwalk("marked", "add", "Mixed bed/Tomato", "red tape", "--habit", "indeterminate")
    measured = ("marked", "measure", "tomato", "red tape")
    bedwalk(*measured, "--top", "14", "--highest", "4", "--new", "2", on="2026-07-15")
    assert "top 17, highest spotted 5" in bedwalk(*measured, "--top", "17", "--highest", "5", "--leaves", "dry").out
    shown = bedwalk("marked", "show", "tomato", "--json").json
    assert [row["top_leaf"] for row in shown["rows"]] == [14, 17]
    assert shown["marked"][0]["label"] == "red tape"
    listed = bedwalk("keeping-up", "--json").json
    assert [one["planting"] for one in listed] == ["Mixed bed/Tomato"]
    assert listed[0]["verdict"] == "cannot_tell"  # two visits are never enough
    # 14 to 17 leaves in 7 days: 3/7 = +0.43 a day, by hand
    assert "Top leaf: 14 to 17 in 7 days (+0.43 leaves a day)." in bedwalk("keeping-up", "--planting", "tomato").out


def test_a_marked_plant_is_measured_at_a_prompt(bedwalk) -> None:
    bedwalk("marked", "add", "tomato", "red tape")
    assert bedwalk("marked", "measure", "tomato", "red tape", typed="14\n4\n\n\n20\n").code == 0
    row = bedwalk("marked", "show", "tomato", "--json").json["rows"][0]
    assert (row["top_leaf"], row["highest_diseased"], row["newly_diseased"], row["leaves_standing"]) == (
        14,
        4,
        None,
        20,
    )


def test_counts_from_a_file_come_a_planting_at_a_time(bare, tmp_path: Path) -> None:
    head = "plant,date,top_leaf,highest_diseased,stripped_to,newly_diseased,leaves_standing"
    file = tmp_path / "marked.csv"
    file.write_text(f"{head}\nA,2026-07-01,10,2,0,1,9\nA,2026-07-08,14,3,2,,11\n", encoding="utf-8")
    one = bare("keeping-up", "--csv", str(file), "--json").json
    assert one["planting"] is None and len(one["rows"]) == 2 and one["verdict"] == "cannot_tell"
    # 10 to 14 leaves in 7 days: 4/7 = +0.57 a day, by hand
    assert one["numbers"][0] == "Top leaf: 10 to 14 in 7 days (+0.57 leaves a day)."
    lines = [f"{head},planting", "A,2026-07-01,10,2,0,1,9,north", "B,2026-07-01,12,2,0,1,9,south"]
    file.write_text("\n".join(lines) + "\n", encoding="utf-8")
    assert [one["planting"] for one in bare("keeping-up", "--csv", str(file), "--json").json] == ["north", "south"]
    shown = bare("keeping-up", "--csv", str(file)).out
    assert all(len(line) <= 45 for line in shown.splitlines() if line[:2].isdigit() or line.startswith("day"))


def test_weather_is_typed_and_shown_and_missing_days_are_said(bedwalk) -> None:
    bedwalk("weather", "add", typed="yesterday 36 24 0 dry\n")
    shown = bedwalk("weather", "show", "--days", "3").out.splitlines()
    assert shown[1] == "2026-07-22  no record yet" and shown[3] == "2026-07-20  missing"
    assert shown[2].split() == ["2026-07-21", "36.0", "24.0", "0.0", "dry", "typed", "hot"]
    assert bedwalk("weather", "show", "--days", "2", "--json").json[1]["marks"] == ["hot"]
    bedwalk("weather", "forecast", "2026-07-23", "37,5")
    assert bedwalk("weather", "show", "--days", "1", "--json").json[0]["tmax_c"] is None  # never a measurement
    assert bedwalk("weather", "heat", "--json").json["level"] != "none"


def test_a_weather_file_is_shown_first_and_written_only_when_told(bedwalk, tmp_path: Path) -> None:
    file = tmp_path / "days.csv"
    file.write_text("date,tmax_c,tmin_c,rain_mm\n2026-07-20,33,21,0\n2026-07-21,12,21,0\n", encoding="utf-8")
    looked = bedwalk("weather", "import", str(file))
    assert "1 rows read, 1 refused." in looked.out and "--yes" in looked.complaint
    assert bedwalk("weather", "import", str(file), typed="n\n").code == 1
    assert "missing" in bedwalk("weather", "show", "--days", "3").out.splitlines()[3]
    assert "1 days new" in bedwalk("weather", "import", str(file), typed="y\n").out
    assert "0 days new, 1 unchanged" in bedwalk("weather", "import", str(file), "--yes").out


def test_degree_days_are_an_estimate_and_not_valid_far_from_where_they_were_made(bedwalk) -> None:
    assert "Not valid here" in bedwalk("weather", "degree-days").out  # this garden lies at 12 degrees north
    assert "44 degrees north" in bedwalk("garden", "place", "44").out
    told = bedwalk("weather", "degree-days", "--json").json
    assert told["estimate"] is True
    borer = next(one for one in told["pests"] if one["cause"] == "squash_vine_borer" and one["since"] == "2026-01-01")
    assert (borer["place"], borer["missing_n"], borer["events"][0]["at_cd"]) == ("unknown", 202, 555.6)
    shown = bedwalk("weather", "degree-days").out
    assert "an estimate, never a sighting" in shown and "where you are is not known" in shown
    assert "34 degrees south" in bedwalk("garden", "place", "-34").out
    assert "Not valid here" in bedwalk("weather", "degree-days").out


def test_water_of_the_beds_says_why_it_is_not_known(bedwalk) -> None:
    assert "nobody noted water" in bedwalk("weather", "water").out
    beds = bedwalk("weather", "water", "--json").json["beds"]
    assert {(one["state"], one["share"]) for one in beds} == {("unknown", None)}
    assert "between -90 and 90" in bedwalk("garden", "place", "91").complaint


def test_hours_are_taken_in_by_the_gardens_clock(bedwalk, database: Path, tmp_path: Path) -> None:
    file = tmp_path / "hours.csv"
    file.write_text("time,temp_c,rh_pct\n2026-07-21T06:00+02:00,22,90\n2026-07-21 12:00,34,60\n", encoding="utf-8")
    assert "with and without an offset" in bedwalk("weather", "import", str(file), "--hourly", "--yes").complaint
    file.write_text(
        "time,temp_c,rh_pct\n2026-07-21T16:00+02:00,34,60\n2026-07-21T17:00+02:00,33,60\n", encoding="utf-8"
    )
    assert "2 hours new" in bedwalk("weather", "import", str(file), "--hourly", "--yes").out
    assert "2 unchanged" in bedwalk("weather", "import", str(file), "--hourly", "--yes").out
    with closing(sqlite3.connect(database)) as connection:
        hours = connection.execute("SELECT at, offset_min FROM weather_hour ORDER BY at").fetchall()
    assert hours == [("2026-07-21T14:00", 0), ("2026-07-21T15:00", 0)]  # the garden lies in UTC


def test_a_picture_is_taken_in_listed_and_described(bedwalk, picture: Path) -> None:
    bedwalk("walk", "start")
    assert bedwalk("photo", "add", str(picture), "--bed", "Long bed", "--note", "low leaf").code == 0
    for more in (("--stop", "current"), ("--planting", "Mixed bed/Beet")):
        picture.write_bytes(picture.read_bytes() + b"\0")  # another picture to the program
        assert bedwalk("photo", "add", str(picture), *more).code == 0
    every = bedwalk("photo", "list", "--json").json
    assert [photo["owner"] for photo in every] == ["bed Long bed", "stop", "planting Mixed bed/Beet"]
    assert every[0]["taken_at"] == "2026-07-21T18:30"
    assert len(bedwalk("photo", "list", "--bed", "long bed", "--json").json) == 1
    assert bedwalk("photo", "show", every[0]["id"]).out == "low leaf, 40 × 20 pixels\n"
    assert bedwalk("photo", "show", str(picture)).out == "leaf.jpg, 40 × 20 pixels\n"


def test_a_picture_with_a_person_is_erased_for_good(bedwalk, picture: Path, home: Path, database: Path) -> None:
    for where in (("--bed", "Long bed"), ("--planting", "Mixed bed/Beet")):
        bedwalk("photo", "add", str(picture), *where, "--note", "our neighbour")
    one, other = (photo["id"] for photo in bedwalk("photo", "list", "--json").json)
    assert "--yes" in bedwalk("photo", "erase", one).complaint
    assert bedwalk("photo", "erased").out == "Nothing was erased.\n"
    told = bedwalk("photo", "erase", one, "--yes").out.splitlines()
    assert told[:2] == ["Erased for good.", f"The same picture is still kept as {other}."]
    assert bedwalk("photo", "erase", other, "--yes", "--why", "a child").out.startswith("Erased for good.\nThe file")
    assert list((home / "photos").iterdir()) == [] and bedwalk("photo", "list").out == "No pictures.\n"
    assert [(row["id"], row["why"]) for row in bedwalk("photo", "erased", "--json").json] == [
        (one, "a person is in it"),
        (other, "a child"),
    ]
    with closing(sqlite3.connect(database)) as connection:
        assert "neighbour" not in "".join(connection.iterdump())
    assert "photo list" in bedwalk("photo", "erase", one, "--yes").complaint


def test_a_picture_that_cannot_be_deleted_is_not_erased(bedwalk, picture: Path, home: Path, monkeypatch) -> None:
    bedwalk("photo", "add", str(picture), "--bed", "Long bed")
    (kept,) = bedwalk("photo", "list", "--json").json

    def refuses(file: Path, missing_ok: bool = False) -> None:
        raise PermissionError(13, "Permission denied", str(file))

    with monkeypatch.context() as locked:
        locked.setattr(Path, "unlink", refuses)
        assert "nothing was erased" in bedwalk("photo", "erase", kept["id"], "--yes").complaint
    assert len(list((home / "photos").iterdir())) == 1 and bedwalk("photo", "list", "--json").json == [kept]
    assert bedwalk("photo", "erased").out == "Nothing was erased.\n"


def test_the_inbox_lists_what_waits(bedwalk, picture: Path, home: Path) -> None:
    assert bedwalk("photo", "inbox").out == "The inbox is empty.\n"
    (home / "inbox" / "leaf.jpg").write_bytes(picture.read_bytes())
    assert bedwalk("photo", "inbox", "--json").json == [str(home / "inbox" / "leaf.jpg")]


def test_at_a_terminal_a_picture_is_drawn_in_half_blocks(bedwalk, picture: Path, monkeypatch) -> None:
    from types import SimpleNamespace

    from scout.cli import photo

    monkeypatch.setattr(photo, "sys", SimpleNamespace(stdout=SimpleNamespace(isatty=lambda: True)))
    lines = bedwalk("photo", "show", str(picture), "--columns", "20").out.splitlines()
    assert lines[0] == "leaf.jpg, 40 × 20 pixels"
    # 40 × 20 pixels in 20 columns: a cell is twice as high as wide, so 5 rows
    assert len(lines) == 6 and all(line.count("▀") == 20 and line.endswith("\x1b[0m") for line in lines[1:])


@pytest.mark.parametrize("day", [None, "2026-08-01"])
def test_the_demo_opens_the_app_on_its_own_garden(bare, monkeypatch, day) -> None:
    from datetime import date

    from scout.services import demo
    from scout.tui.app import BedwalkApp

    asked, opened = [], []
    monkeypatch.setattr(demo, "demo_context", lambda on=None: asked.append(on) or demo.Context(Path("demo")))
    monkeypatch.setattr(BedwalkApp, "run", lambda self: opened.append(self.context.root))
    assert bare("demo", on=day).code == 0
    assert asked == [date.fromisoformat(day) if day else None] and opened == [Path("demo")]


def test_a_job_of_ones_own_is_added_and_a_date_that_is_none_is_refused(bedwalk) -> None:
    added = bedwalk("jobs", "add", "tie up", "--planting", "Long bed/cucumber", "--due", "2026-07-25")
    assert added.code == 0 and added.out.strip() == "To do by 2026-07-25: tie up"
    assert "2026-07-25 Long bed: tie up" in bedwalk("jobs").out
    refused = bedwalk("jobs", "add", "tie up", "--due", "soon")
    assert refused.code == 1 and "is not a date" in refused.err


def test_how_the_leaves_feel_is_kept_without_a_marked_plant(bedwalk) -> None:
    assert "The leaves are wet: look, do not touch." in bedwalk("marked", "felt", "wet", "Long bed/cucumber").out
    assert bedwalk("marked", "felt", "damp", "Long bed/cucumber").code == 2
