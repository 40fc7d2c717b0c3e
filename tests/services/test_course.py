"""An open problem over walks at one planting, and what the garden's own records say of how it lies in the bed."""

import pytest

from scout.services import answers, garden, troubles, walk, weather
from scout.services.causes import answer, causes_at
from scout.services.course import told_of
from scout.services.evidence import evidence_for
from scout.services.garden import set_circumstance
from scout.services.undo import undo

from ..small_garden import plant_of, stop_at

MILDEW = "leaf.white_powder"


def see(context, symptom, affected=None, crop="cucumber", looked=8):
    stop = stop_at(context, crop)
    found = answers.add_finding(context, stop.id, symptom, "look")
    if affected:
        answers.set_counts(context, found, looked, affected)
    return stop, found


def water_at_the_base(context, stop):
    """Take a control of mildew today; return what is said of it."""
    bed_id = plant_of(context).bed_id
    return troubles.take_control(
        context, stop.planting_id, bed_id, stop.id, "powdery_mildew_cucurbit", "base_watering", "today"
    )


def told(context, crop="cucumber"):
    return evidence_for(context, plant_of(context, crop)).circumstances


def test_counts_and_places_of_the_walk_tell_how_the_trouble_lies(context) -> None:
    _, found = see(context, MILDEW, affected=5)
    answers.set_which(context, found, "1st, 2nd, 3rd, 4th and 5th from the path")
    answers.set_severity(context, found, 20.0, 0.0, 0.0)
    said = told(context)
    assert said["most_plants"] and not said["one_plant_only"]  # all 8 were looked at
    assert said["neighbours_in_a_row"] and said["old_leaves_only"]
    assert "spreading_plants" not in said and "several_species" not in said and "sudden" not in said


def test_the_same_sign_on_another_family_this_week_is_on_several_sorts(context) -> None:
    see(context, MILDEW)
    stop_at(context, "snap_bean")
    see(context, MILDEW, crop="snap_bean")
    assert told(context)["several_species"] is True
    assert told(context, "snap_bean")["several_species"] is True


def test_a_cousin_with_the_same_sign_is_not_another_sort(context) -> None:
    see(context, MILDEW)
    see(context, MILDEW, crop="summer_squash")
    assert "several_species" not in told(context)


def test_a_sign_two_days_after_a_clear_glance_came_suddenly(context, clock) -> None:
    glance = next(
        s.id for s in context.knowledge.symptoms_of("cucumber") if s.effort == "glance" and s.kind == "symptom"
    )
    walk.clear(context, stop_at(context).id, "glance", 8)
    walk.finish(context)
    clock.on(7, 24)
    see(context, glance, affected=8)
    said = told(context)
    assert said["sudden"] and said["whole_bed_at_once"]


def test_more_plants_at_the_next_walk_is_spreading_and_the_stop_says_since_when(context, clock) -> None:
    see(context, MILDEW, affected=2)
    walk.finish(context)
    clock.on(7, 27)
    stop, _ = see(context, MILDEW, affected=4)
    assert told(context)["spreading_plants"] is True
    assert walk.current_stop(context).going_on == "since 22 July, 2, now 4 of 8 plants"
    assert causes_at(context, stop.id).course == ("Open problem since 22 July, 2, now 4 of 8 plants.",)


def test_a_sign_older_than_a_week_still_counts_and_is_named_as_fading(context, clock) -> None:
    see(context, MILDEW)
    walk.finish(context)
    clock.on(8, 3)
    stop, _ = see(context, "leaf.yellow_halo")
    evidence = evidence_for(context, plant_of(context))
    assert [set(bout.seen) for bout in evidence.earlier] == [{MILDEW}] and MILDEW not in evidence.seen
    found = causes_at(context, stop.id)
    assert found.course[1].startswith("Earlier signs, fading: ")
    mildew = next(row for row in found.causes if row.name == "Powdery mildew")
    assert "what was seen here since 22 July" in mildew.because


def test_an_old_sign_looked_for_again_and_gone_is_carried_no_more(context, clock) -> None:
    see(context, MILDEW)
    walk.finish(context)
    clock.on(8, 3)
    stop = stop_at(context)
    answers.add_finding(context, stop.id, MILDEW, "asked", state="not_seen", looked_n=8)
    evidence = evidence_for(context, plant_of(context))
    assert evidence.earlier == () and MILDEW in evidence.not_seen
    assert evidence.circumstances["got_better_alone"] is True


def test_a_control_opens_the_problem_on_the_day_its_signs_began_and_its_failure_counts(context, clock) -> None:
    see(context, MILDEW, affected=2)
    walk.finish(context)
    clock.on(7, 27)
    stop, _ = see(context, MILDEW, affected=3)
    sentence = water_at_the_base(context, stop)
    assert "look again" in sentence
    assert walk.current_stop(context).troubles == ("Powdery mildew, since 22 July, 2, now 3 of 8 plants",)
    (job,) = troubles.job_lines(context)
    troubles.job_done(context, job.id)
    troubles.judged(context, job.id, "no")
    response = evidence_for(context, plant_of(context)).responses["powdery_mildew_cucurbit"]
    assert response.control == "base_watering" and response.log_odds < 0.0


def test_a_problem_judged_over_is_no_longer_open(context, clock) -> None:
    stop, _ = see(context, MILDEW, affected=2)
    water_at_the_base(context, stop)
    (job,) = troubles.job_lines(context)
    troubles.job_done(context, job.id)
    clock.on(7, 30)
    troubles.judged(context, job.id, "yes")
    walk.finish(context)
    stop = stop_at(context)
    assert stop.troubles == () and stop.going_on is None


@pytest.mark.parametrize("still", [True, False])
def test_limp_through_a_week_without_heat_speaks_against_heat_and_firm_again_for_it(context, clock, still) -> None:
    clock.on(7, 22)
    for day in range(16, 23):
        weather.type_line(context, f"2026-07-{day} 36 24")
    see(context, "whole_plant.limp_midday")
    walk.finish(context)
    clock.on(7, 31)
    for day in range(23, 32):
        weather.type_line(context, f"2026-07-{day} 26 17")
    stop = stop_at(context)
    state = "seen" if still else "not_seen"
    answers.add_finding(context, stop.id, "whole_plant.limp_midday", "asked", state=state, looked_n=8)
    said = told(context)
    assert said["went_on_in_cool_weather"] is still and said["better_in_cool_weather"] is not still


def test_an_answer_about_how_the_trouble_lies_is_of_that_week_only(context, clock) -> None:
    set_circumstance(context, plant_of(context).planting_id, "sudden", True)
    set_circumstance(context, plant_of(context).planting_id, "mulched", True)
    assert told(context)["sudden"] is True
    clock.on(8, 1)
    assert "sudden" not in told(context) and told(context)["mulched"] is True


def test_what_was_answered_goes_before_what_was_counted(context) -> None:
    see(context, MILDEW, affected=8)
    set_circumstance(context, plant_of(context).planting_id, "most_plants", False)
    assert told(context)["most_plants"] is False


def test_no_records_no_circumstances(context) -> None:
    assert set(told(context)) == {"container"}  # the bed is no tub; where the plants came from nobody said
    assert garden.planted(context)


def test_a_question_about_how_the_trouble_lies_is_answered_in_place_and_taken_back(context) -> None:
    stop, _ = see(context, "leaf.strappy_new")
    before = causes_at(context, stop.id)
    answer(context, stop.id, "several_species", True)
    assert told(context)["several_species"] is True
    assert causes_at(context, stop.id).causes != before.causes
    undo(context)
    assert "several_species" not in told(context)


@pytest.mark.parametrize(("watered", "told_so"), [("snap_bean", True), ("sweet_pepper", False)])
def test_limp_two_days_after_this_bed_was_watered_went_on_after_water(context, clock, watered, told_so) -> None:
    # neither bed has a water zone; bean and beet share a bed, the pepper stands in its tub
    clock.on(7, 17)
    see(context, "whole_plant.limp_midday", crop="snap_bean")
    answers.log_watering(context, stop_at(context, watered).id, "watered")
    walk.finish(context)
    clock.on(7, 20)
    see(context, "whole_plant.limp_midday", crop="snap_bean")
    assert told(context, "snap_bean").get("went_on_after_water", False) is told_so


def test_a_finding_under_a_retired_sign_speaks_for_the_sign_that_took_its_place(context) -> None:
    squash = stop_at(context, "summer_squash")
    answers.add_finding(context, squash.id, "insect.squash_bug", "look")
    told = told_of(context, squash.planting_id)
    assert [one.symptom for one in told.findings] == ["insect.squash_bug"]
