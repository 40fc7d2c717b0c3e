"""Tapered cucumbers, limp squash and false alarms in the demo garden: what the app says of them."""

from datetime import date

from scout.services import garden
from scout.services.answer_shape import Answer
from scout.services.answering import answer_evidence
from scout.services.backdating import backdated_lines
from scout.services.causes import as_view
from scout.services.evidence import evidence_for
from scout.services.last_visit import last_visit

from .planting import SEASON_END, answer_at, plant_at


def firsts(answer: Answer, count: int = 3) -> list[str]:
    return [cause.id for cause in answer.causes[:count]]


# tapered cucumbers


def test_tapered_cucumbers_are_told_as_heat_at_flowering_and_nothing_living(evening) -> None:
    context = evening(date(2026, 7, 22))
    answer = answer_at(context, "Trellis", "cucumber")
    assert answer.causes[0].id == "heat_misshapen_cucurbit" and answer.cannot_tell is None
    assert answer.called_sick is not None and answer.called_sick < 0.2
    reasons = {clue.id for clue in answer.causes[0].because}
    assert {"hot_days_at_flowering", "hot_nights_at_flowering"} <= reasons
    today = [act.control for act in answer.causes[0].act if act.when == "today"]
    assert "pick_off_misshapen" in today
    assert not [act for act in answer.causes[0].act if act.kind == "labelled" or "feed" in act.control]
    assert any("feed" in text.casefold() for text in answer.causes[0].dont)
    assert any("spray" in text.casefold() for text in answer.causes[0].dont)


def test_the_tapered_cucumbers_are_dated_back_to_the_four_hot_days(evening) -> None:
    context = evening(date(2026, 7, 22))
    cause = context.knowledge.causes["heat_misshapen_cucurbit"]
    plant = plant_at(context, "Trellis", "cucumber")
    lines = backdated_lines(context, plant, cause, evidence_for(context, plant))
    # by the crop's 5-20 days it flowered 2-17 July at a mean of 24 °C; the days since were warmer, so each counts for
    # more than one and the window is shorter; of it 7-17 July are above its 32 °C, 14 July the hottest
    assert lines[0] == "In flower 5 Jul to 18 Jul: hot days while these fruits were in flower"
    assert lines[1] == "..###########."
    assert lines[2] == "# 7-17 July; worst 37 °C, 14 Jul"
    # a flower of 18 July grew 1.0 + 0.93 + 0.89 + 0.89 + 0.95 = 4.66 days' worth by the 22nd, under the least 5; then
    # 1.25 a day (mean of the last fortnight), 13 more days until 20 are passed
    assert lines[-1] == "Fruit of later flowers: from 23 Jul on, all by 5 Aug."


def test_lumpy_beans_of_the_same_week_are_told_as_warm_nights(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 22)), "Bean rows", "snap_bean", "Thimble Green")
    assert answer.causes[0].kind == "heat"


# limp at half past two


def test_limp_on_moist_soil_in_the_afternoon_is_never_answered_with_water(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 16)), "Squash corner", "summer_squash")
    assert "heat_wilt" in firsts(answer)
    for cause in answer.causes[:5]:
        assert not [act for act in cause.act if act.control == "water_now_at_soil"], cause.id


def test_at_dawn_it_is_three_times_heat_and_one_borer(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 17)), "Squash corner", "summer_squash")
    assert {"squash_vine_borer", "heat_wilt"} == set(firsts(answer, 2))
    assert set(answer.also_together[0].causes) == {"squash_vine_borer", "heat_wilt"}


def test_the_dry_tub_is_watered_at_once(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 16)), "Black tub", "sweet_pepper")
    assert answer.causes[0].id == "water_shortage"
    assert "water_now_at_soil" in [act.control for act in answer.causes[0].act if act.when == "today"]


def test_bitter_on_the_volunteer_is_a_stop_before_any_cause(evening) -> None:
    from scout.diagnosis.evidence import Count, Evidence

    context = evening(date(2026, 7, 16))
    assert not [one for one in garden.planted(context) if one.bed == "Compost edge"]
    answer = answer_evidence(context.knowledge, Evidence("summer_squash", seen={"fruit.bitter_taste": Count(1, 1)}))
    view = as_view(context, answer)
    assert view.stop is not None and not view.causes


# false alarms


def test_small_spots_cannot_be_told_apart_and_what_to_do_is_the_same(evening) -> None:
    answer = answer_at(evening(date(2026, 8, 5)), "Long row", "tomato")
    assert answer.cannot_tell is not None and answer.cannot_tell.same_action
    assert answer.cannot_tell.look_again_d == 4
    assert {"early_blight", "septoria_leaf_spot", "bacterial_spot"} <= set(answer.cannot_tell.causes)


def test_four_days_later_it_is_septoria(evening) -> None:
    answer = answer_at(evening(date(2026, 8, 9)), "Long row", "tomato")
    assert answer.causes[0].id == "septoria_leaf_spot" and answer.cannot_tell is None
    assert answer.causes[0].look_again_d <= 7


def test_one_papery_blotch_after_a_fierce_day_is_scald_rather_than_late_blight(evening) -> None:
    answer = answer_at(evening(date(2026, 7, 26)), "South frame", "tomato")
    order = [cause.id for cause in answer.causes]
    assert order[0] == "sunscald" and order.index("late_blight") > 3
    assert not [act for act in answer.causes[0].act if "pull" in act.control]
    plant = plant_at(evening(SEASON_END), "South frame", "tomato")
    assert plant.plants_n == 12


def test_cupped_peppers_with_mites_under_the_lens_are_no_virus(evening) -> None:
    answer = answer_at(evening(date(2026, 8, 5)), "Step tub", "sweet_pepper")
    assert answer.causes[0].id == "broad_mite"
    viral = [cause for cause in answer.causes if cause.kind == "viral"]
    assert max(cause.probability for cause in viral) < 0.3
    assert not [act for cause in viral for act in cause.act if act.control == "pull_and_bag"]


def test_nothing_on_six_plants_could_still_be_up_to_39_percent(evening) -> None:
    context = evening(date(2026, 8, 5))
    said = last_visit(context, plant_at(context, "Twin tub", "sweet_pepper").planting_id)
    assert "0 of 6 (could still be up to 39 %)" in said[0]
