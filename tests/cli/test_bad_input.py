"""Everything a tired person or a strange file can give wrong: one sentence, exit code 1 (2 for usage), no traceback."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

FIND = ("walk", "find", "leaf.angular_patches")
LONG = "x" * 10_001
ODD = "[bold]x[/] \U0001f331 \u05e9\u05dc\u05d5\u05dd \x1b[31mred\x07 \u202egnp.exe"
"""Markup, an emoji, right-to-left letters, a terminal escape, a bell, and a bidi override."""

REFUSED = {
    "a crop nobody knows": (("garden", "add-planting", "--bed", "Long bed", "--crop", "banana"), "banana"),
    "a bed nobody knows": (("garden", "add-planting", "--bed", "Moon", "--crop", "beet"), "Long bed, Mixed bed"),
    "a planting nobody knows": (("garden", "count", "Moon/Beet", "3"), "Mixed bed/Beet"),
    "a bed that holds two plantings": (("garden", "count", "Mixed bed", "3"), "Mixed bed/Tomato, Mixed bed/Beet"),
    "a stage the crop has not": (("garden", "stage", "Cucumber", "ripening"), "fruiting"),
    "no plants left": (("garden", "count", "Cucumber", "0"), "garden pull"),
    "a bed's name twice": (("garden", "add-bed", "long BED"), "already"),
    "an empty name": (("garden", "add-bed", " \x1b[0m "), "must not be empty"),
    "a symptom nobody knows": (("walk", "find", "qqqq zzzz"), "knowledge list symptoms"),
    "plain words with nobody to confirm": (("walk", "find", "straight sided patches"), "leaf.angular_patches"),
    "a symptom of another crop": (("walk", "find", "whole_plant.bolting"), "not one of the symptoms of cucumber"),
    "more affected than looked at": ((*FIND, "--looked", "8", "--affected", "9"), "9 affected of 8"),
    "seen on none": ((*FIND, "--affected", "0"), "not seen"),
    "not seen and yet on some": ((*FIND, "--not-seen", "--affected", "2"), "keep one"),
    "none looked at": ((*FIND, "--looked", "0"), "0 plants"),
    "leaf area over 100": ((*FIND, "--severity", "120,0,0"), "0 to 100"),
    "leaf area below 0": ((*FIND, "--severity", "-5"), "0 to 100"),
    "leaf area that may be one or two numbers": ((*FIND, "--severity", "1,5"), "like 5,2,0"),
    "a comma in a count": ((*FIND, "--looked", "1,5"), "--looked: “1,5” is not a whole number"),
    "an underscore in a count": ((*FIND, "--looked", "1_5"), "--looked"),
    "digits of another script in a count": ((*FIND, "--looked", "\uff11\uff15"), "--looked"),
    "a count without end": ((*FIND, "--looked", "9" * 400), "--looked"),
    "a plant named at great length": ((*FIND, "--which", "y" * 201), "200"),
    "a note of 10,001 characters": (("walk", "note", LONG), "10,000"),
    "a look that is not there": (("walk", "answer", "99", "clear"), "1 to"),
    "a look named in odd text": (("walk", "answer", ODD, "clear"), "no look"),
    "minutes below nothing": (("walk", "plan", "--minutes", "-5"), "more than 0"),
    "minutes in words": (("walk", "plan", "--minutes", "ten"), "--minutes"),
    "minutes that may be thousands": (("walk", "plan", "--minutes", "1,500"), "1.500 or 1500"),
    "nothing picked": (("walk", "pick"), "--sound"),
    "clear on no plant": (("walk", "clear", "all", "--looked", "0"), "at least 1"),
    "a number for a whole bed": (("walk", "clear", "bed", "--looked", "5"), "own count"),
    "a cause nobody knows": (("walk", "take", "bad_luck", "base_watering"), "walk causes"),
    "a control of another cause": (("walk", "take", "downy_mildew_cucurbit", "hand_pick"), "base_watering"),
    "a friend nobody knows": (("walk", "friend", ODD), "there are"),
    "a job nobody knows": (("jobs", "done", "99"), "bedwalk jobs"),
    "a mark nobody knows": (("marked", "measure", "Cucumber", "blue tape", "--top", "9"), "red tape"),
    "a mark twice": (("marked", "add", "Cucumber", "Red Tape"), "already"),
    "spots above the tip": (
        ("marked", "measure", "Cucumber", "red tape", "--top", "9", "--highest", "10"), "above the top leaf 9",
    ),
    "stripped above the tip": (
        ("marked", "measure", "Cucumber", "red tape", "--top", "9", "--stripped-to", "10"), "above the top leaf",
    ),
    "nothing measured": (("marked", "measure", "Cucumber", "red tape"), "--top"),
    "a share of 15 for 1,5 with a point": (
        ("marked", "measure", "Cucumber", "red tape", "--severity", "150,5"), "0 and 100",
    ),
    "weather in words": (("weather", "add", "hot and wet"), "“hot”"),
    "the low before the high": (("weather", "add", "22 34"), "highest comes first"),
    "weather of tomorrow": (("weather", "add", "2026-07-23 34 22"), "still to come"),
    "a forecast for yesterday": (("weather", "forecast", "2026-07-21", "36"), "to come"),
    "a forecast too hot to be": (("weather", "forecast", "2026-07-23", "95"), "60"),
    "a date of last century but one": (("--on", "0001-01-01", "walk", "plan"), "--on"),
    "a date that is none": (("walk", "plan", "--on", "2026-02-30"), "--on: “2026-02-30”"),
    "a date in two ways": (("walk", "plan", "--on", "07/06/2026"), "2026-07-01"),
    "too many days": (("weather", "show", "--days", "99999"), "--days"),
    "too many columns": (("photo", "show", "x.jpg", "--columns", "0"), "--columns"),
    "no file there": (("photo", "add", "nowhere.jpg", "--bed", "Long bed"), "nowhere.jpg"),
    "a folder for a picture": (("photo", "add", ".", "--bed", "Long bed"), "folder"),
    "a picture of nothing named": (("photo", "add", "x.jpg"), "--bed"),
    "a picture of two things": (("photo", "add", "x.jpg", "--bed", "Long bed", "--stop", "current"), "one of"),
    "a picture nobody knows": (("photo", "show", LONG), "photo list"),
    "a stop nobody knows": (("photo", "list", "--stop", "x"), "--stop current"),
    "one planting and a file": (("keeping-up", "--planting", "Cucumber", "--csv", "x.csv"), "not both"),
    "a garden in two places": (("garden", "new", "--name", "B", "--zone", "UTC"), "already"),
    "half a place": (("garden", "new", "--name", "B", "--zone", "UTC", "--latitude", "1,5"), "both or neither"),
    "no backup there": (("restore", "nowhere.db"), "nowhere.db"),
    "nobody to ask why": (("garden", "pull", "Cucumber"), "--why is missing"),
}  # fmt: skip


@pytest.mark.parametrize(("words", "says"), REFUSED.values(), ids=REFUSED.keys())
def test_what_cannot_be_is_refused_in_one_sentence(refuses, words, says) -> None:
    said = refuses(*words).complaint
    assert len(said) < 700
    assert "\x1b" not in said and "\u202e" not in said and "\x07" not in said
    assert says in said


def test_nothing_refused_above_left_a_trace(refuses, under_way: Path) -> None:
    refuses(*FIND, "--looked", "8", "--affected", "9")
    refuses("walk", "note", LONG)
    with closing(sqlite3.connect(under_way / "garden.db")) as connection:
        for table in ("finding", "look_answer", "measurement", "job", "photo", "weather_day"):
            assert connection.execute(f"SELECT count(*) FROM {table}").fetchone() == (0,), table
        assert connection.execute("SELECT DISTINCT note FROM stop").fetchall() == [("",)]


USAGE = [
    ("walk", "answer", "1", "maybe"),
    ("walk", "clear", "half"),
    ("walk", "water", "some"),
    ("walk", "find"),
    ("walk", "start", "--no-such-flag"),
    ("jobs", "judge", "1", "perhaps"),
    ("jobs", "confirm", "cucumber", "powdery_mildew_cucurbit", "--sign", "hunch"),
    ("no-such-command",),
]


@pytest.mark.parametrize("words", USAGE, ids=[" ".join(words) for words in USAGE])
def test_usage_mistakes_end_with_2_and_how_to_go_on(refuses, words) -> None:
    ran = refuses(*words)
    assert ran.code == 2 and "Traceback" not in ran.err and "-h' for help" in ran.err


def test_a_word_that_is_no_choice_is_refused_with_the_choices_alone(refuses) -> None:
    told = refuses("jobs", "confirm", "--sign", "hunch").err.splitlines()[-1]
    assert told == (
        "Error: Invalid value for '--sign': 'hunch' is not one of 'independent', 'clinic', 'later_course', 'agreement'."
    )


def test_without_a_garden_every_command_says_how_to_begin(bare) -> None:
    for words in (("walk", "next"), ("garden", "show"), ("weather", "heat"), ("jobs",), ("export", "x")):
        assert "bedwalk garden new" in bare(*words).complaint


def test_a_place_off_the_globe_and_a_zone_that_is_none_are_refused(bare) -> None:
    new = ("garden", "new", "--name", "Plot", "--zone")
    assert "zone" in bare(*new, "Mars/Base").complaint
    assert "latitude" in bare(*new, "UTC", "--latitude", "91", "--longitude", "0").complaint
    assert "--first-frost" in bare(*new, "UTC", "--first-frost", "13-40").complaint
    assert "units" in bare(*new, "UTC", "--units", "cubits").complaint


def test_text_of_any_kind_is_kept_as_text_and_printed_without_escapes(bedwalk) -> None:
    bedwalk("walk", "start")
    assert bedwalk("walk", "note", ODD).code == 0
    bedwalk("walk", "clear", "glance")
    bedwalk("walk", "end")
    again = bedwalk("walk", "start", "--all")
    assert "[bold]x[/] \U0001f331 \u05e9\u05dc\u05d5\u05dd red gnp.exe" in again.out
    assert not set("\x1b\x07\u202e") & set(again.out)


def test_a_note_of_exactly_10_000_characters_is_kept(bedwalk, database: Path) -> None:
    bedwalk("walk", "start")
    assert bedwalk("walk", "note", "ä" * 10_000).code == 0
    with closing(sqlite3.connect(database)) as connection:
        assert connection.execute("SELECT max(length(note)) FROM stop").fetchone() == (10_000,)


def test_markup_in_a_bed_name_stays_text(bedwalk) -> None:
    assert bedwalk("garden", "add-bed", "[red]Bed[/red] %s {x} '; DROP TABLE bed;--").code == 0
    assert bedwalk("garden", "show", "--json").json["beds"][-1]["name"] == "[red]Bed[/red] %s {x} '; DROP TABLE bed;--"


def test_a_decimal_comma_is_a_decimal_comma_everywhere(bedwalk) -> None:
    bedwalk("walk", "start")
    found = bedwalk(*FIND, "--severity", "1,5 0,5 -", "--json").json
    assert found["severity_pct"] == [1.5, 0.5, None]
    assert (
        bedwalk("weather", "add", "33,5 22 1,5 wet").out
        == "22 July: max 33.5 °C, min 22 °C, rain 1.5 mm, wet morning\n"
    )
    assert bedwalk("weather", "show", "--days", "1", "--json").json[0]["rain_mm"] == 1.5


BROKEN_CSV = {
    "not text": b"\x00\x01\x02\xff" * 50,
    "empty": b"",
    "a heading alone": b"plant,date,top_leaf,highest_diseased,stripped_to,newly_diseased,leaves_standing\n",
    "a missing column": b"plant,date,top_leaf\nA,2026-07-01,9\n",
    "a quotation mark left open": (
        b'plant,date,top_leaf,highest_diseased,stripped_to,newly_diseased,leaves_standing\n"A,1'
    ),
    "a comma in a leaf": (
        b"plant;date;top_leaf;highest_diseased;stripped_to;newly_diseased;leaves_standing\nA;2026-07-01;1,5;1;;;\n"
    ),
    "an escape in a name": (
        b"plant,date,top_leaf,highest_diseased,stripped_to,newly_diseased,leaves_standing\n\x1b[2J,2026-07-01,9,1,,,\n"
    ),
}


@pytest.mark.parametrize("content", BROKEN_CSV.values(), ids=BROKEN_CSV.keys())
def test_a_broken_csv_file_is_named_with_its_fault(refuses, tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "marked.csv"
    file.write_bytes(content)
    assert "marked.csv" in refuses("keeping-up", "--csv", str(file)).complaint
    assert "marked.csv" in refuses("weather", "import", str(file), "--yes").complaint
    assert "marked.csv" in refuses("weather", "import", str(file), "--yes", "--hourly").complaint
    assert "marked.csv" in refuses("garden", "import", str(file)).complaint


def test_broken_pictures_are_refused_in_a_sentence(refuses, tmp_path: Path, picture: Path) -> None:
    whole = picture.read_bytes()
    for name, content in {
        "cut.jpg": whole[: len(whole) // 2],
        "empty.jpg": b"",
        "text.jpg": b"no picture at all",
        "png_in_name.png": whole[:20],
    }.items():
        file = tmp_path / name
        file.write_bytes(content)
        assert name in refuses("photo", "add", str(file), "--bed", "Long bed").complaint
        if name != "cut.jpg":  # its size can still be read
            assert name in refuses("photo", "show", str(file)).complaint


def test_a_file_name_cannot_steer_the_terminal(refuses) -> None:
    said = refuses("restore", "\x1b[2J\u202egnp.db").complaint
    assert not set("\x1b\u202e") & set(said) and "gnp.db" in said


def test_a_case_that_cannot_be_read_is_refused(bare) -> None:
    assert "crop" in bare("diagnose", "--case", "-", piped=json.dumps({"crop": "banana"})).complaint
