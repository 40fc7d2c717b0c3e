"""What growers type: sentences of our own, each with the signs and circumstances a reader would point at.

The first 153 of `growers_words.csv` were written from the names of the vocabulary alone, before its synonyms or the
search were looked at, and split in halves by a hash; the others were written to show kinds of faults. `seen` and
`circumstances`: what is said, alternatives joined by "|"; `also`: true as well, if it is found; `never`: must not be
found as something seen.

The held-back half, before anything was changed: offered 90 %, sure 44 %, not meant 17 % of what was taken as sure.
After the work, a second look: 97 %, 89 % and 1 %. The same hand wrote the sentences and then the synonyms, so this look
flatters. Strangers' sentences (from questions printed in garden columns and asked in forums, not kept here) tell more.
First looks, each at sentences nothing was mended after before; offered / sure / not meant of what was taken as sure:
62 sentences before anything 88 %, 38 %, 30 %; then 120 longer ones 75 %, 39 %, 34 %, of which one half was read and
mended after and the other kept: 88 %, 62 %, 17 %. Three more batches, each read and mended after in its turn, with what
the search before all this made of the same: 40 sentences 82 %, 46 %, 22 % (before 78 %, 48 %, 33 %); 26 sentences
86 %, 45 %, 15 % (79 %, 48 %, 25 %); 23 sentences 82 %, 42 %, 10 % (75 %, 57 %, 20 %).
"""

import csv
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

import pytest

from scout.diagnosis.clauses import clauses
from scout.diagnosis.words import match_words, sure_matches

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
with (Path(__file__).parent / "growers_words.csv").open(newline="") as file:
    ROWS = list(csv.DictReader(file))


def half_of(row: dict[str, str]) -> str:
    return "held back" if int(sha256(row["words"].encode()).hexdigest(), 16) % 2 else "development"


@dataclass
class Score:
    """Counts over the sentences of one half."""

    said: int = 0
    offered: int = 0
    sure: int = 0
    taken: int = 0
    not_meant: int = 0


def score(rows: list[dict[str, str]]) -> Score:
    out = Score()
    for row in rows:
        groups = [{*one.split("|")} for one in f"{row['seen']} {row['circumstances']}".split()]
        offered = {match.id for match in match_words(KNOWLEDGE, row["crop"], row["words"]) if match.seen}
        sure = [match.id for match in sure_matches(KNOWLEDGE, row["crop"], row["words"]) if match.seen]
        meant = {*row["also"].split()}.union(*groups)
        out.said += len(groups)
        out.offered += sum(bool(group & offered) for group in groups)
        out.sure += sum(bool(group & {*sure}) for group in groups)
        out.taken += len(sure)
        out.not_meant += sum(one not in meant for one in sure)
    return out


@pytest.mark.parametrize("half", ["development", "held back"])
def test_what_growers_type_is_offered_and_little_is_taken_that_was_not_meant(half) -> None:
    """Floors a little under what was measured, so that a change for the worse shows."""
    found = score([row for row in ROWS if half_of(row) == half])
    assert found.said > 90
    assert found.offered / found.said >= 0.94
    assert found.sure / found.said >= 0.80
    assert found.not_meant / found.taken <= 0.06


def test_hardly_anything_is_found_that_the_sentences_rule_out() -> None:
    wrong = sure_wrong = 0
    for row in ROWS:
        never = {*row["never"].split()}
        wrong += len(never & {m.id for m in match_words(KNOWLEDGE, row["crop"], row["words"]) if m.seen})
        sure_wrong += len(never & {m.id for m in sure_matches(KNOWLEDGE, row["crop"], row["words"]) if m.seen})
    assert sum(len(row["never"].split()) for row in ROWS) > 40
    assert wrong <= 24, "half of them are asked, guessed or told of another year, which is offered"
    assert sure_wrong <= 1


def test_the_sentences_speak_of_every_crop_in_the_words_of_the_knowledge() -> None:
    assert {row["crop"] for row in ROWS} == {*KNOWLEDGE.crops}
    named = {
        one
        for row in ROWS
        for column in ("seen", "also", "never", "circumstances")
        for one in row[column].replace("|", " ").split()
    }
    assert named <= {*KNOWLEDGE.symptoms, *KNOWLEDGE.circumstances}


@pytest.mark.parametrize(
    "words",
    [
        "hasn't got any mould",
        "without holes",
        "not wilting",
        "neither spots nor mould",
        "isn't sticky",
        "isnt wilting and doesnt have any spots",
        "no holes, spots or webs",
        "couldn't find any slugs",
        "mould? none",
        "spots: none",
        "free of aphids",
        "no sign of mildew",
        "not a hole in sight",
        "fruit isn't bitter",
        "leaves aren't curling or yellowing",
        "w/o any spots",
        "cant see any bugs",
        "hardly any spots",
        "the webs are all gone",
    ],
)
@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_what_is_said_to_be_missing_is_never_seen(crop, words) -> None:
    seen = [m.id for m in match_words(KNOWLEDGE, crop, words, most=30) if m.kind == "symptom" and m.seen]
    assert not [one for one in seen if KNOWLEDGE.symptoms[one].background != "usual"]


# What each says is not there; common usage, no source.
DENIED = [
    ("no spots, holes or mould", {"spots", "holes", "mould"}),
    ("sticky but no mould", {"mould"}),
    ("haven't fed it and its pale all over", {"fed"}),
    ("neither spots nor powder, just floppy", {"spots", "powder"}),
    ("looks healthy apart from yellow leaves at the bottom", {"healthy"}),
    ("the yellow leaves don't look right", set()),
    ("plants droop in the afternoon and are fine in the morning", {"fine", "morning"}),
    ("not only spots but holes", set()),
    ("I don't know what the spots are", set()),
]


@pytest.mark.parametrize(("words", "denied"), DENIED)
def test_a_denial_reaches_as_far_as_it_is_meant(words, denied) -> None:
    telling = {"spots", "holes", "mould", "sticky", "fed", "pale", "powder", "floppy", "healthy", "yellow", "droop"}
    telling |= {"fine", "morning", "afternoon", "bottom"}
    found = {one.words[n] for one in clauses(words) for n in one.denied}
    assert found & telling == denied


# Circumstances in a grower's words; what a reader would point at.
GROWN = [
    ("5 of 7 plants have it", "most_plants", True),
    ("only 2 out of 9 plants", "most_plants", False),
    ("one of the six plants", "one_plant_only", True),
    ("it happened all at once", "whole_bed_at_once", True),
    ("its in a grow bag", "container", True),
    ("gave it loads of horse muck", "straw_manure_brought_in", True),
    ("haven't fed it since spring", "not_fed", True),
    ("I saved the seed myself", "saved_seed", True),
    ("the neighbour sprayed his lawn for weeds", "spray_drift_near", True),
    ("only gets four hours of sun", "shade", True),
    ("only on one side of the plants", "one_side_of_plant", True),
    ("straw round the plants", "mulched", True),
    ("mulched with straw", "mulched", True),
    ("dry as a bone", "soil_dry_5cm", True),
]


@pytest.mark.parametrize(("words", "name", "so"), GROWN)
def test_how_it_is_grown_is_heard(words, name, so) -> None:
    found = {(m.id, m.seen) for m in sure_matches(KNOWLEDGE, "tomato", words) if m.kind == "circumstance"}
    assert (name, so) in found


def test_a_count_of_leaves_is_no_count_of_plants() -> None:
    assert "most_plants" not in {m.id for m in sure_matches(KNOWLEDGE, "tomato", "5 of 7 leaves are yellow")}


# Two names the words tell apart no better: offered both, sure of neither.
ALIKE = [
    ("tomato", "flowers fall off", {"flower.drop_many", "flower.drop_yellow_stalk"}),
    ("eggplant", "striped beetles", {"insect.cucumber_beetles", "insect.potato_beetle"}),
]


@pytest.mark.parametrize(("crop", "words", "both"), ALIKE)
def test_two_readings_of_the_same_words_are_offered_and_neither_is_sure(crop, words, both) -> None:
    assert both <= {m.id for m in match_words(KNOWLEDGE, crop, words)[:4] if m.seen}
    assert not both & {m.id for m in sure_matches(KNOWLEDGE, crop, words)}
