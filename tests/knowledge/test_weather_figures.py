"""Figures of the weather models in the knowledge files against the printed ones: degree days (°F), crop water."""

import csv
from pathlib import Path

import pytest

from scout.science.units import c_from_f

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()


def printed(name: str) -> list[dict[str, str]]:
    """Return the rows of a printed table; its first line is the source."""
    lines = (Path(__file__).parent / f"printed_{name}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(lines[1:]))


ROWS, WATER, COMFORT = printed("degree_days"), printed("crop_water"), printed("comfort")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['cause']}-{row['begins']}")
def test_base_limit_and_events_are_as_printed(row) -> None:
    counts = [one for one in KNOWLEDGE.causes[row["cause"]].degree_days if (one.since or "seen") == row["begins"]]
    (count,) = counts
    assert count.base_c == pytest.approx(c_from_f(float(row["base_f"])), abs=0.005)
    upper = float(row["upper_f"]) if row["upper_f"] else None
    assert (count.upper_c is None) == (upper is None)
    if upper is not None:
        assert count.upper_c == pytest.approx(c_from_f(upper), abs=0.005)
    assert [event.at_cd for event in count.events] == [round(float(at) / 1.8, 1) for at in row["events_fd"].split()]


def test_every_count_in_the_knowledge_base_stands_in_the_printed_table() -> None:
    told = {(c.id, one.since or "seen") for c in KNOWLEDGE.causes.values() for one in c.degree_days}
    assert told == {(row["cause"], row["begins"]) for row in ROWS}


def test_no_count_is_told_without_a_place_where_it_holds() -> None:
    for cause in KNOWLEDGE.causes.values():
        for count in cause.degree_days:
            assert count.zones and count.latitude_deg[0] < count.latitude_deg[1]


@pytest.mark.parametrize("row", WATER, ids=lambda row: row["crop"])
def test_what_a_crop_drinks_and_reaches_is_as_printed(row) -> None:
    water = KNOWLEDGE.crops[row["crop"]].water
    assert water is not None
    assert water.factor == tuple(float(row[name]) for name in ("begin", "full", "end"))
    assert (water.root_m, water.easy_frac) == (float(row["root_m"]), float(row["easy"]))


def test_every_crop_with_water_figures_stands_in_the_printed_table() -> None:
    assert {crop.id for crop in KNOWLEDGE.crops.values() if crop.water} == {row["crop"] for row in WATER}


@pytest.mark.parametrize("row", COMFORT, ids=lambda row: row["crop"])
def test_comfort_is_as_printed(row) -> None:
    comfort = KNOWLEDGE.crops[row["crop"]].comfort
    assert comfort is not None
    assert comfort.best_c == tuple(round(c_from_f(float(row[name])), 1) for name in ("best_from_f", "best_to_f"))
    assert comfort.limits_c == tuple(round(c_from_f(float(row[name])), 1) for name in ("least_f", "most_f"))


def test_every_crop_but_basil_stands_in_the_printed_table_of_comfort() -> None:
    assert {crop.id for crop in KNOWLEDGE.crops.values() if crop.comfort} == {row["crop"] for row in COMFORT}
    assert set(KNOWLEDGE.crops) - {row["crop"] for row in COMFORT} == {"basil"}
