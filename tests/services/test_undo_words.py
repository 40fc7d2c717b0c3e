"""What undo says: what went, in the grower's words, and where."""

from datetime import date

from scout.services import answers, garden, marked, troubles, walk, weather
from scout.services.plan import walk_plan
from scout.services.undo import undo


def stop_at(context, crop: str):
    walk.start(context, walk_plan(context, everything=True).stops)
    stop = walk.current_stop(context)
    while stop.crop_id != crop:
        walk.leave_stop(context, stop.id)
        stop = walk.current_stop(context)
    return stop


def test_the_counts_of_a_finding_go_first_and_then_the_finding(context) -> None:
    stop = stop_at(context, "cucumber")
    found = answers.add_finding(context, stop.id, "leaf.white_powder", "look")
    answers.set_counts(context, found, 8, 3)
    name = answers.finding(context, found).name
    assert undo(context) == f"Taken back: what was said of “{name}”, Long bed."
    assert answers.finding(context, found).affected_n is None
    assert undo(context) == f"Taken back: seen: “{name}”, Long bed."


def test_a_job_is_named_and_so_is_its_bed(context) -> None:
    plant = garden.planted(context)[0]
    troubles.take_control(context, plant.planting_id, plant.bed_id, None, "powdery_mildew_cucurbit", "mulch", "today")
    title = troubles.job_lines(context)[0].title
    assert undo(context) == f"Taken back: the job “{title}”, Long bed."


def test_a_marked_plant_weather_and_a_planting_are_told_apart(context) -> None:
    plant = garden.planted(context)[0]
    marked.mark_plant(context, plant.planting_id, "red [tape]", "indeterminate")
    assert undo(context) == "Taken back: the marked plant “red [tape]”, Long bed."
    weather.type_line(context, "34 22 3 wet")
    assert undo(context) == f"Taken back: the weather of {date(2026, 7, 22).day} July."
    garden.set_stage(context, plant.planting_id, "flowering")
    assert undo(context) == "Taken back: a change of a planting."


def test_every_kind_of_row_a_grower_writes_has_words_of_its_own() -> None:
    from scout.services.undo import _SAID
    from scout.store.tables import NOUNS

    nobody_undoes = {
        "garden",
        "device",
        "site",
        "planting_bed",
        "plant_count",
        "weather_series",
        "ranking",
        "tombstone",
    }
    assert set(NOUNS) - nobody_undoes <= set(_SAID)
