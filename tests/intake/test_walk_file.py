"""The rules of a walk file are this project's own: what is refused, and that the sentence says where."""

from datetime import date, time
from pathlib import Path
from typing import get_args

import pytest

from scout.errors import BadInput
from scout.intake.walk_file import read_walk
from scout.intake.walk_model import FindingEntry, MeasurementEntry, StopEntry, WalkFile, WateringEntry
from scout.store import tables_follow, tables_log, tables_walk

WALK = """date = 2026-07-22
started = 07:20:00

[[stops]]
bed = "Trellis"
crop = "cucumber"
note = "two\\nlines"
sound = 12
odd = 7
findings = [
    { symptom = "fruit.pinched_blossom_end", looked = 19, affected = 7, severity = [5, 1.5, 0] },
    { symptom = "leaf.mosaic", state = "not_seen", looked = 8 },
]
jobs = [{ cause = "heat_misshapen_cucurbit", control = "pick_off_misshapen", done = true }]
circumstances = { soil_moist_5cm = true }
photos = [{ file = "cucumber_cut.jpg", note = "cut" }]

[[stops]]
bed = "Kiln bed"
crop = "tomato"
measurements = [{ plant = "1st", top = 16, highest = 5, new = 2, stripped_to = 3, standing = 13, wet = "dry" }]

[[stops]]
bed = "Twin tub"
crop = "sweet_pepper"
clear = "every_look"
looked = 6

[[waterings]]
zone = "north"
outcome = "missed"

[[holds]]
bed = "Twin tub"
crop = "sweet_pepper"
reason = "by its label"
until = 2026-07-24
"""


def _read(folder: Path, text: str, name: str = "2026-07-22.toml") -> WalkFile:
    file = folder / name
    file.write_text(text, encoding="utf-8")
    return read_walk(file)


def _refused(folder: Path, old: str, new: str) -> str:
    assert old in WALK
    with pytest.raises(BadInput) as caught:
        _read(folder, WALK.replace(old, new, 1))
    sentence = str(caught.value)
    assert sentence.startswith("“2026-07-22.toml”") and sentence.endswith(".") and "\n" not in sentence
    assert len(sentence) < 300
    return sentence


def test_a_walk_is_read(tmp_path: Path) -> None:
    found = _read(tmp_path, WALK)
    assert (found.date, found.started) == (date(2026, 7, 22), time(7, 20))
    cucumber, tomato, pepper = found.stops
    assert (cucumber.sound, cucumber.odd, cucumber.note) == (12, 7, "two\nlines")
    assert [(one.symptom, one.state, one.affected) for one in cucumber.findings] == [
        ("fruit.pinched_blossom_end", "seen", 7),
        ("leaf.mosaic", "not_seen", None),
    ]
    assert cucumber.findings[0].severity == (5.0, 1.5, 0.0)
    assert cucumber.circumstances == {"soil_moist_5cm": True} and cucumber.jobs[0].done
    assert (tomato.measurements[0].top, tomato.measurements[0].stripped_to) == (16, 3)
    assert (pepper.clear, pepper.looked) == ("every_look", 6)
    assert found.waterings[0].outcome == "missed" and found.holds[0].until == date(2026, 7, 24)


def test_a_second_walk_of_the_day_has_a_letter_in_its_name(tmp_path: Path) -> None:
    assert _read(tmp_path, WALK, "2026-07-22-a.toml").date == date(2026, 7, 22)


@pytest.mark.parametrize("name", ["2026-07-23.toml", "walk.toml", "2026-07-22-evening.toml"])
def test_a_name_that_does_not_say_the_day_is_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(BadInput, match=r"name it 2026-07-22\.toml"):
        _read(tmp_path, WALK, name)


def test_a_file_written_on_windows_is_read(tmp_path: Path) -> None:
    assert len(_read(tmp_path, "\ufeff" + WALK.replace("\n", "\r\n")).stops) == 3


def test_text_is_cleaned_of_what_steers_a_terminal(tmp_path: Path) -> None:
    found = _read(tmp_path, WALK.replace('"two\\nlines"', '"red \\u001b[31mink [bold]"'))
    assert found.stops[0].note == "red ink [bold]"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("sound = 12", "sond = 12", ["stops 1 (Trellis)", "“sond”", "did you mean “sound”"]),
        ('crop = "tomato"', "", ["stops 2 (Kiln bed)", "“crop” is missing"]),
        ("affected = 7", "affected = 20", ["stops 1 (Trellis)", "findings 1", "more than the 19 looked at"]),
        ('"not_seen", looked = 8', '"not_seen", affected = 1', ["findings 2 (leaf.mosaic)", "not_seen"]),
        ('"not_seen"', '"absent"', ["findings 2", "“state”", "“absent”"]),
        ("highest = 5", "highest = 17", ["stops 2 (Kiln bed)", "measurements 1 (1st)", "above the top leaf 16"]),
        ("stripped_to = 3", "stripped_to = 17", ["measurements 1", "“stripped_to”"]),
        ("top = 16", "top = 201", ["“top”", "200"]),
        ('wet = "dry"', 'wet = "damp"', ["“wet”", "“damp”"]),
        ("looked = 6", "", ["stops 3 (Twin tub)", "“clear” and “looked” go together"]),
        ("looked = 6", "looked = 0", ["stops 3 (Twin tub)", "“looked”"]),
        ("looked = 6", 'looked = 6\nfindings = [{ symptom = "leaf.mosaic" }]', ["“clear” and a finding"]),
        ("done = true", 'done = true, worked = "yes"', ["jobs 1", "not both"]),
        ("done = true", 'done = "yes"', ["“done”", "true or false"]),
        ("soil_moist_5cm = true", "soil_moist_5cm = 1", ["“soil_moist_5cm”", "true or false"]),
        (
            '"fruit.pinched_blossom_end"',
            '"Pinched end"',
            ["findings 1 (Pinched end)", "“symptom”", "leaf.ringed_spots"],
        ),
        ("cucumber_cut.jpg", "../../secret.jpg", ["photos 1", "“file”", "the name alone"]),
        ("severity = [5, 1.5, 0]", "severity = [5, 120, 0]", ["severity 2", "at most 100"]),
        ("severity = [5, 1.5, 0]", "severity = [5, 1.5]", ["findings 1", "“severity”"]),
        ("started = 07:20:00", 'started = "07:20"', ["“started”", "like 07:30:00"]),
        ("date = 2026-07-22", "date = 2026-07-22T08:00:00", ["“date”", "time of day"]),
        ("2026-07-24", "2026-07-21", ["“Twin tub”", "before the walk"]),
        ('"missed"', '"forgot"', ["waterings 1", "“forgot”"]),
        ("sound = 12", "sound = 12,5", ["line"]),
        ('bed = "Kiln bed"\ncrop = "tomato"', 'bed = "Trellis"\ncrop = "cucumber"', ["“Trellis, cucumber”", "twice"]),
        ("leaf.mosaic", "fruit.pinched_blossom_end", ["“fruit.pinched_blossom_end”", "twice"]),
    ],
)
def test_a_fault_is_said_with_its_place(tmp_path: Path, old: str, new: str, said: list[str]) -> None:
    sentence = _refused(tmp_path, old, new)
    for words in said:
        assert words in sentence


def test_a_walk_without_a_stop_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="“stops”"):
        _read(tmp_path, "date = 2026-07-22\nstarted = 07:20:00\n")


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match=r"no file “2026-07-22\.toml”"):
        read_walk(tmp_path / "2026-07-22.toml")


@pytest.mark.parametrize(
    ("model", "field", "kept"),
    [
        (FindingEntry, "state", tables_walk.FINDING_STATES),
        (FindingEntry, "manner", tables_walk.MANNERS),
        (MeasurementEntry, "habit", tables_follow.HABITS),
        (MeasurementEntry, "wet", tables_follow.WETNESS),
        (WateringEntry, "outcome", tables_log.WATERING_OUTCOMES),
    ],
)
def test_the_words_of_a_file_are_those_the_store_keeps(model: type, field: str, kept: tuple[str, ...]) -> None:
    assert get_args(model.model_fields[field].annotation) == kept  # type: ignore[attr-defined]


def test_a_clear_stop_is_one_of_the_kinds_the_store_keeps() -> None:
    words = {word for part in get_args(StopEntry.model_fields["clear"].annotation) for word in get_args(part)}
    assert words and words < set(tables_walk.CLEARANCE_KINDS)
