from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scout.errors import BadInput
from scout.intake.garden_file import read_garden
from scout.intake.garden_model import GardenFile

GARDEN = """[garden]
name = "Behind the shed"
zone = "Etc/UTC"
units = "metric"
first_frost = "10-15"
last_frost = 2026-05-10

[[beds]]
name = "North 1"
kind = "bed"
water_zone = "drip"

[[beds]]
name = "Tub"
kind = "tub"

[[plantings]]
bed = "north 1"
crop = "tomato"
variety = "As labelled"
plants = 6
identity = "confirmed"
origin = "bought_plant"
sown_on = 2026-04-01
set_out_on = 2026-05-20
habit = "indeterminate"

[[plantings]]
beds = ["Tub", "North 1"]
crop = "cucumber"
plants = 2
sets_without_bees = true
"""


def _read(folder: Path, text: str, suffix: str = ".toml") -> GardenFile:
    file = folder / f"plot{suffix}"
    file.write_text(text, encoding="utf-8")
    return read_garden(file)


def _refused(folder: Path, text: str, suffix: str = ".toml") -> str:
    with pytest.raises(BadInput) as caught:
        _read(folder, text, suffix)
    sentence = str(caught.value)
    assert f"plot{suffix}" in sentence and sentence.endswith(".") and "\n" not in sentence
    assert len(sentence) < 300
    return sentence


def test_a_garden_is_read(tmp_path: Path) -> None:
    found = _read(tmp_path, GARDEN)
    assert (found.garden.name, found.garden.zone) == ("Behind the shed", "Etc/UTC")
    assert [(bed.name, bed.kind, bed.water_zone) for bed in found.beds] == [
        ("North 1", "bed", "drip"),
        ("Tub", "tub", None),
    ]
    tomato, cucumber = found.plantings
    assert (tomato.crop, tomato.plants, tomato.sown_on, tomato.set_out_on) == (
        "tomato",
        6,
        date(2026, 4, 1),
        date(2026, 5, 20),
    )
    assert (cucumber.identity, cucumber.origin, cucumber.sets_without_bees) == ("unconfirmed", "unknown", True)


def test_beds_of_plantings_are_spelt_as_the_beds_are(tmp_path: Path) -> None:
    tomato, cucumber = _read(tmp_path, GARDEN).plantings
    assert tomato.beds == ("North 1",) and cucumber.beds == ("Tub", "North 1")


def test_frost_comes_back_each_year_so_only_month_and_day_are_kept(tmp_path: Path) -> None:
    head = _read(tmp_path, GARDEN).garden
    assert (head.first_frost, head.last_frost) == ("10-15", "05-10")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("plants = 2", "plants = -2", "line 31: “plants”: must be at least 1, not “-2”"),
        ("plants = 2", "plants = 0", "“plants”: must be at least 1"),
        ("plants = 2", "plants = 2.5", "“plants” must be a whole number, not “2.5”"),
        ("plants = 2", 'plants = "2,5"', "“2,5” is not a whole number"),
        ("plants = 2", "plants = 2,5", "decimal point"),
        ("plants = 2", "plants = true", "“plants” must be a whole number, not true"),
        ("plants = 2\n", "", "“plants” is missing"),
        ('"tub"', '"pot"', "line 15: “kind” must be 'bed' or 'tub', not “pot”"),
        ('crop = "cucumber"', 'crp = "cucumber"', "“crp” is not a key here; did you mean “crop”"),
        ('name = "Tub"', 'name = "NORTH 1"', "line 14: there are two beds “NORTH 1”"),
        ('bed = "north 1"', 'bed = "South"', "line 18: there is no bed “South”"),
        ('"bought_plant"', '"shop"', "“origin” must be"),
        ("2026-05-20", "2026-05-20T10:00:00", "time of day"),
        ("2026-05-20", '"5/6/2026"', "day/month or month/day"),
        ("2026-05-20", "2026-02-30", "line 25"),
        ("2026-05-20", "1026-05-20", "check the year"),
        ("2026-05-20", "2026-03-20", "“set_out_on” is before “sown_on”"),
        ('"Etc/UTC"', '"../../etc/passwd"', "line 3: “zone”: is no time zone"),
        ('"Etc/UTC"', '"Mars/Base"', "is no time zone"),
        ('"metric"', '"imperial"', "“units” must be 'metric' or 'us'"),
        ('"10-15"', '"15.10."', "is no day of the year"),
        ('"10-15"', '"02-30"', "is no day of the year"),
        ('units = "metric"', "latitude = 48,2", "line 4: write the number with a decimal point"),
        ('units = "metric"', "latitude = 48.2", "latitude and longitude come together"),
        ('units = "metric"', "latitude = nan\nlongitude = 1", "“latitude”"),
        ('units = "metric"', "latitude = 95\nlongitude = 1", "“latitude”: must be at most 90"),
        ('units = "metric"', "soil = 1", "“soil” is not a key here"),
        ('"Behind the shed"', '"' + "x" * 10_000 + '"', "“name”: has 10,000 characters; at most 200 fit"),
        ('"Behind the shed"', '"\\u001b[31m\\u202e"', "must not be empty"),
        ('"Behind the shed"', "7", "“name” must be text in quotation marks, not “7”"),
        ('"Behind the shed"', '"open', "line 2"),
        ('name = "Tub"', 'name = "Tub"\nname = "Tub"', "line 15"),
        ('beds = ["Tub", "North 1"]', "beds = []", "“beds”: must have at least 1 item"),
        ('beds = ["Tub", "North 1"]', 'bed = "Tub"\nbeds = ["Tub"]', "not both"),
        ('beds = ["Tub", "North 1"]\n', "", "“beds” is missing"),
        ("[[beds]]", "[[bed]]", "“bed” is not a key here; did you mean “beds”"),
        ("[[beds]]", "[beds]", "line"),
    ],
)
def test_a_fault_is_named_with_file_line_key_and_mend(tmp_path: Path, old: str, new: str, said: str) -> None:
    assert old in GARDEN
    assert said in _refused(tmp_path, GARDEN.replace(old, new))


def test_a_decimal_comma_in_quotation_marks_is_read(tmp_path: Path) -> None:
    head = _read(tmp_path, GARDEN.replace('units = "metric"', 'latitude = "48,25"\nlongitude = 11.5')).garden
    assert (head.latitude, head.longitude, head.units) == (48.25, 11.5, "metric")


def test_text_is_cleaned_and_markup_is_left_as_it_is(tmp_path: Path) -> None:
    shown = GARDEN.replace('"As labelled"', '"\\u001b[31mRed\\u0007 [/z] <b>{x}%s\\u202e cafe\\u0301"')
    assert _read(tmp_path, shown).plantings[0].variety == "Red [/z] <b>{x}%s café"


def test_a_long_note_is_kept_up_to_its_limit(tmp_path: Path) -> None:
    noted = GARDEN.replace("plants = 2\n", f'plants = 2\nnote = "{"x" * 10_000}"\n')
    assert len(_read(tmp_path, noted).plantings[1].note) == 10_000
    assert "at most 10,000" in _refused(tmp_path, noted.replace("xxx", "xxxx", 1))


def test_a_garden_without_beds_and_an_unknown_kind_of_file_are_refused(tmp_path: Path) -> None:
    assert "“beds” is missing" in _refused(tmp_path, '[garden]\nname = "x"\n')
    assert "neither .toml nor .csv" in _refused(tmp_path, "beds: []", ".yaml")
    with pytest.raises(BadInput, match=r"no file “gone\.toml”"):
        read_garden(tmp_path / "gone.toml")


def test_endless_nesting_is_refused(tmp_path: Path) -> None:
    assert _refused(tmp_path, "a = " + "[" * 50_000)


LINES = """bed,kind,crop,variety,plants,sown_on,set_out_on,origin,identity
North 1,bed,tomato,As labelled,6,2026-04-01,20.5.2026,Bought plant,confirmed
north 1,,basil,,4,,,,
Tub,tub,cucumber,,2,,,bought seed,
Empty,bed,,,,,,,
"""


def test_a_line_a_planting_is_read_from_csv(tmp_path: Path) -> None:
    found = _read(tmp_path, LINES, ".csv")
    assert [(bed.name, bed.kind) for bed in found.beds] == [("North 1", "bed"), ("Tub", "tub"), ("Empty", "bed")]
    tomato, basil, cucumber = found.plantings
    assert (tomato.plants, tomato.origin, tomato.set_out_on) == (6, "bought_plant", date(2026, 5, 20))
    assert (basil.beds, basil.identity) == (("North 1",), "unconfirmed")
    assert (cucumber.origin, cucumber.plants) == ("bought_seed", 2)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (",6,", ",-6,", "row 2: “plants”: “-6” is not a whole number"),
        (",6,", ',"6,5",', "row 2: “plants”: “6,5” is not a whole number"),
        (",4,", ",,", "row 3: “plants” is missing"),
        ("2026-04-01", "4/5/2026", "row 2: “sown_on”: “4/5/2026” can be day/month"),
        ("2026-04-01", "2026-06-01", "row 2"),
        ("2026-04-01", "31.6.2026", "no day of the calendar"),
        ("Tub,tub,cucumber", "Tub,tub,", "row 4: “crop” is missing"),
        ("Tub,tub", ",tub", "row 4: “bed” is missing"),
        ("Tub,tub", "North 1,tub", "row 4: “kind” of bed “North 1” is “bed” above and “tub” here"),
        ("Tub,tub", "Tub,pot", "row 4: “kind” must be 'bed' or 'tub'"),
        ("Bought plant", "shop", "row 2: “origin” must be"),
        ("confirmed", "sure", "row 2: “identity” must be"),
        ("variety", "sort", "the column “sort” is not known; known are bed"),
        ("variety", "crop", "the column “crop” stands twice"),
        ("crop", "plant", "no column “crop”; found: “bed”"),
        ("Empty,bed,,,,,,,", "Empty,bed", "row 5: 2 cells where the heading has 9"),
        ("As labelled", "x" * 10_000, "row 2: “variety”: has 10,000 characters"),
        ("As labelled", '"open', "quotation mark"),
    ],
)
def test_a_fault_in_csv_is_named_with_row_and_column(tmp_path: Path, old: str, new: str, said: str) -> None:
    assert old in LINES
    assert said in _refused(tmp_path, LINES.replace(old, new, 1), ".csv")


def test_csv_from_a_spreadsheet_with_semicolons_and_a_byte_order_mark_is_read(tmp_path: Path) -> None:
    assert _read(tmp_path, "\ufeff" + LINES.replace(",", ";"), ".csv") == _read(tmp_path, LINES, ".csv")


_NAMES = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1, max_size=20)


@given(st.lists(_NAMES, min_size=1, max_size=6, unique_by=str.casefold), st.integers(1, 500))
def test_beds_and_counts_come_back_whatever_their_names(
    tmp_path_factory: pytest.TempPathFactory, names: list[str], plants: int
) -> None:
    import csv
    import io
    import unicodedata

    composed = [unicodedata.normalize("NFC", name) for name in names]
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(["bed", "crop", "plants"])
    writer.writerows([name, "tomato", plants] for name in composed)
    found = _read(tmp_path_factory.mktemp("any"), out.getvalue(), ".csv")
    assert {planting.plants for planting in found.plantings} == {plants}
    assert len(found.beds) == len({bed.name.casefold() for bed in found.beds}) <= len(names)
