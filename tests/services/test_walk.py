"""The walk: each answer is kept when given, resumes where it stopped, and can be taken back."""

import pytest

from scout.errors import BadInput, NotFound, Refused
from scout.services import answers, causes, garden, marked, troubles, walk
from scout.services.context import Context
from scout.services.evidence import evidence_for
from scout.services.garden import planted
from scout.services.plan import walk_plan
from scout.services.undo import undo
from scout.services.views import Asking
from scout.services.warm_up import try_rankings


def begin(context: Context) -> None:
    walk.start(context, walk_plan(context).stops)


def at(context: Context, crop: str):
    """Close stops until the one of that crop is current."""
    while (stop := walk.current_stop(context)) is not None and stop.crop_id != crop:
        walk.skip_stop(context, stop.id)
    assert stop is not None
    return stop


def plant_of(context: Context, crop: str):
    return next(one for one in planted(context) if one.crop.id == crop)


def test_a_new_garden_is_walked_in_walking_order(context) -> None:
    plan = walk_plan(context)
    assert [stop.bed for stop in plan.stops] == ["Long bed", "Short bed", "Mixed bed", "Mixed bed", "Black tub"]
    assert all(stop.why == "not looked at yet" for stop in plan.stops)


def test_a_glance_closes_the_stop_and_the_next_one_is_current(context) -> None:
    begin(context)
    first = walk.current_stop(context)
    walk.clear(context, first.id, "glance", 8)
    second = walk.current_stop(context)
    assert (second.number, second.total, second.bed) == (2, 5, "Short bed")


def test_a_glance_speaks_only_of_what_shows_at_a_glance(context) -> None:
    begin(context)
    walk.clear(context, at(context, "cucumber").id, "glance", 8)
    evidence = evidence_for(context, plant_of(context, "cucumber"))
    symptoms = context.knowledge.symptoms
    assert evidence.not_seen
    assert {symptoms[s].effort for s in evidence.not_seen} == {"glance"}
    assert all(count.looked == 8 for count in evidence.not_seen.values())


def test_every_look_made_speaks_of_exactly_what_the_looks_can_show(context) -> None:
    begin(context)
    stop = at(context, "cucumber")
    walk.clear(context, stop.id, "every_look", 8)
    evidence = evidence_for(context, plant_of(context, "cucumber"))
    assert set(evidence.not_seen) == {symptom.id for look in stop.looks for symptom in look.symptoms}


def test_a_skipped_look_counts_for_nothing(context) -> None:
    begin(context)
    stop = at(context, "cucumber")
    answers.answer_look(context, stop.id, stop.looks[0].id, "skip", 8)
    walk.close_stop(context, stop.id)
    assert not evidence_for(context, plant_of(context, "cucumber")).not_seen


def test_the_looks_of_a_stop_stay_the_same_while_it_is_answered(context) -> None:
    begin(context)
    stop = walk.current_stop(context)
    for look in stop.looks:
        answers.answer_look(context, stop.id, look.id, "clear", 8)
        assert [one.id for one in walk.current_stop(context).looks] == [one.id for one in stop.looks]


def test_looks_not_made_for_longest_come_at_the_next_visit(context, clock) -> None:
    begin(context)
    first = walk.current_stop(context)
    walk.clear(context, first.id, "every_look", 8)
    walk.finish(context)
    clock.on(7, 30)
    begin(context)
    second = at(context, "cucumber")
    assert {look.id for look in second.looks} != {look.id for look in first.looks}


def test_the_question_on_screen_survives_and_is_no_record(context, reopen) -> None:
    begin(context)
    stop = walk.current_stop(context)
    answers.answer_look(context, stop.id, stop.looks[0].id, "seen", 8)
    walk.ask(context, stop.id, Asking("symptom", stop.looks[0].id))
    again = reopen()
    assert walk.current_stop(again).asking == Asking("symptom", stop.looks[0].id)
    undo(again)
    assert walk.current_stop(again).looks[0].state == "open"


def test_counts_severity_and_which_plants_are_kept_one_by_one(context) -> None:
    begin(context)
    stop = at(context, "cucumber")
    found = answers.add_finding(context, stop.id, "leaf.white_powder", "look")
    answers.set_counts(context, found, 8, 3)
    answers.set_severity(context, found, 10.0, 1.0, None)
    answers.set_which(context, found, "3rd and 5th from the path")
    view = answers.finding(context, found)
    assert (view.looked_n, view.affected_n, view.severity_pct) == (8, 3, (10.0, 1.0, None))
    assert view.which_plants == "3rd and 5th from the path"


def test_more_affected_than_looked_at_is_refused_and_nothing_is_lost(context) -> None:
    begin(context)
    stop = at(context, "cucumber")
    found = answers.add_finding(context, stop.id, "leaf.white_powder", "look")
    with pytest.raises(BadInput, match="9 affected of 8"):
        answers.set_counts(context, found, 8, 9)
    with pytest.raises(BadInput, match="between 0 and 100"):
        answers.set_severity(context, found, 101.0, None, None)
    assert answers.finding(context, found).affected_n is None


def test_an_unknown_symptom_is_refused(context) -> None:
    begin(context)
    with pytest.raises(NotFound, match=r"leaf\.sparkles"):
        answers.add_finding(context, walk.current_stop(context).id, "leaf.sparkles", "look")


def test_a_whole_bed_is_cleared_at_once(context) -> None:
    begin(context)
    while (stop := walk.current_stop(context)).bed != "Mixed bed":
        walk.skip_stop(context, stop.id)
    assert stop.may_clear_bed
    walk.clear_bed(context, stop.id)
    assert walk.current_stop(context).bed == "Black tub"


def test_all_clear_is_not_offered_where_a_problem_is_open(context) -> None:
    plant = plant_of(context, "cucumber")
    troubles.take_control(context, plant.planting_id, plant.bed_id, None, "powdery_mildew_cucurbit", "mulch", "today")
    begin(context)
    stop = at(context, "cucumber")
    assert not stop.may_clear_all
    assert stop.troubles
    with pytest.raises(Refused, match="one by one"):
        walk.clear(context, stop.id, "every_look", 8)


def test_all_clear_is_not_offered_where_a_marked_plant_is_due(context, clock) -> None:
    plant = plant_of(context, "cucumber")
    tagged = marked.mark_plant(context, plant.planting_id, "red tape", "indeterminate")
    begin(context)
    stop = at(context, "cucumber")
    assert stop.marked_due == 1 and not stop.may_clear_all
    marked.measure(context, tagged, top_leaf=12, highest_diseased=2, wet="dry")
    assert walk.current_stop(context).may_clear_all


def test_the_last_answer_is_taken_back_also_after_a_restart(context, reopen) -> None:
    begin(context)
    stop = walk.current_stop(context)
    walk.clear(context, stop.id, "glance", 8)
    again = reopen()
    undo(again)
    assert walk.current_stop(again).id == stop.id


def test_the_walk_ends_with_its_last_stop_and_opens_again_when_that_is_taken_back(context) -> None:
    begin(context)
    while (stop := walk.current_stop(context)) is not None:
        walk.clear(context, stop.id, "glance", 1)
        last = stop.id
    assert walk.open_walk(context) is None
    undo(context)
    assert walk.current_stop(context).id == last


def test_nothing_to_undo_is_said(context) -> None:
    for _ in range(40):
        try:
            undo(context)
        except Refused as told:
            assert "nothing to undo" in str(told)
            return
    raise AssertionError("undo never came to an end")


def test_the_pick_is_tallied_by_sound_and_odd(context) -> None:
    begin(context)
    stop = walk.current_stop(context)
    for _ in range(12):
        answers.tally(context, stop.id, sound=1)
    for _ in range(7):
        answers.tally(context, stop.id, odd=1)
    assert walk.current_stop(context).picks == (12, 7)
    undo(context)
    assert walk.current_stop(context).picks == (12, 6)


def test_last_visits_note_comes_first_at_the_next_visit(context, clock) -> None:
    begin(context)
    stop = at(context, "cucumber")
    found = answers.add_finding(context, stop.id, "fruit.pinched_blossom_end", "look")
    answers.set_counts(context, found, 19, 7)
    answers.note(context, stop.id, "picked off the pinched ones [/z]")
    walk.close_stop(context, stop.id)
    walk.finish(context)
    clock.on(7, 26)
    begin(context)
    last = at(context, "cucumber").last_visit
    assert last[0] == "22 July: picked off the pinched ones [/z]"
    assert "7 of 19" in last[1]


def test_nothing_seen_on_six_plants_is_not_shown_as_healthy(context, clock) -> None:
    begin(context)
    walk.clear(context, at(context, "cucumber").id, "every_look", 6)
    walk.finish(context)
    clock.on(7, 30)
    begin(context)
    # 1 - 0.05^(1/6) = 0.393: one-sided exact 95 % limit (rule behind the rule of three; Hanley & Lippman-Hand 1983).
    assert "0 of 6 (could still be up to 39 %)" in at(context, "cucumber").last_visit[0]


def test_notes_are_cleaned_of_escapes_and_direction_marks(context) -> None:
    begin(context)
    stop = walk.current_stop(context)
    answers.note(context, stop.id, "red \x1b[31mleaf\x1b[0m \u202eback [red]")
    walk.close_stop(context, stop.id)
    from scout.store import walks

    with context.read() as session:
        assert walks.stop(session=session, stop_id=stop.id).note == "red leaf back [red]"


def test_what_was_seen_is_looked_at_again_after_four_days(context, clock) -> None:
    begin(context)
    stop = at(context, "sweet_pepper")
    answers.add_finding(context, stop.id, "leaf.pale_all_over", "look")
    walk.close_stop(context, stop.id)
    while (stop := walk.current_stop(context)) is not None:
        walk.clear(context, stop.id, "glance", 1)
    clock.on(7, 25)
    assert not [s for s in walk_plan(context).stops if s.crop.startswith("Sweet pepper") and "seen" in s.why]
    clock.on(7, 26)
    assert [s.why for s in walk_plan(context).stops if s.crop.startswith("Sweet pepper")] == [
        "something was seen on 22 July"
    ]


def test_a_control_becomes_a_job_with_a_day_to_look_again(context) -> None:
    begin(context)
    stop = at(context, "cucumber")
    answers.add_finding(context, stop.id, "leaf.white_powder", "look")
    page = causes.cause_page(context, stop.id, "powdery_mildew_cucurbit")
    control = next(c for c in page.controls if c.when == "today" and c.refused is None)
    sentence = causes.take(context, stop.id, "powdery_mildew_cucurbit", control.id)
    assert "look again" in sentence
    job = troubles.job_lines(context)[0]
    assert job.title == control.name
    troubles.job_done(context, job.id)
    again = troubles.job_lines(context)[0]
    assert again.look_again and again.due_on > "2026-07-22"
    troubles.judged(context, again.id, "yes")
    assert troubles.job_lines(context) == ()
    assert walk.current_stop(context).troubles == ()


def test_an_answer_moves_the_ranking(context) -> None:
    begin(context)
    stop = at(context, "cucumber")
    answers.add_finding(context, stop.id, "fruit.pinched_blossom_end", "look")
    before = causes.causes_at(context, stop.id)
    causes.answer(context, stop.id, before.questions[0].symptom, True)
    after = causes.causes_at(context, stop.id)
    assert [row.chance for row in before.causes] != [row.chance for row in after.causes]
    assert before.questions[0].symptom not in [q.symptom for q in after.questions]


def test_each_ranking_shown_is_kept_with_its_knowledge(context) -> None:
    from scout.store import rankings

    begin(context)
    stop = at(context, "cucumber")
    answers.add_finding(context, stop.id, "fruit.pinched_blossom_end", "look")
    causes.causes_at(context, stop.id)
    with context.read() as session:
        (kept,) = rankings.rankings(session=session, garden_id=str(context.garden_id))
    assert kept.planting_id == stop.planting_id
    assert kept.knowledge_hash == context.knowledge.hash
    assert "fruit.pinched_blossom_end" in kept.evidence


def test_bitter_on_a_volunteer_squash_is_a_stop_and_nothing_else(context) -> None:
    begin(context)
    stop = at(context, "summer_squash")
    answers.add_finding(context, stop.id, "fruit.bitter_taste", "glance")
    view = causes.causes_at(context, stop.id)
    assert view.stop is not None and not view.causes and not view.questions


def test_a_pulled_planting_is_not_walked_any_more(context) -> None:
    plant = plant_of(context, "cucumber")
    garden.remove_planting(context, plant.planting_id, "finished")
    assert "Long bed" not in [stop.bed for stop in walk_plan(context).stops]


def test_a_friend_seen_is_said_beside_the_pest_it_eats(context) -> None:
    enemy = next(e for e in context.knowledge.enemies.values() if "aphids" in e.eats)
    begin(context)
    stop = at(context, "cucumber")
    answers.add_finding(context, stop.id, "insect.aphids", "look")
    answers.add_finding(context, stop.id, "leaf.sticky", "look")
    answers.log_enemy(context, stop.id, enemy.id)
    assert any(enemy.name in text for text in causes.causes_at(context, stop.id).together)


def test_records_of_newer_knowledge_are_kept_and_passed_over(context) -> None:
    """An old program on a garden written with newer knowledge: unknown ids are neither lost nor fatal."""
    from scout.store.tables_garden import Planting, PlantingBed
    from scout.store.tables_walk import Finding

    plant = plant_of(context, "cucumber")
    with context.write() as tx:
        strange = tx.add(Planting, crop="yardlong_bean", sown_on="2026-06-01")
        tx.add(PlantingBed, planting_id=strange, bed_id=plant.bed_id, from_on="2026-06-01")
        tx.add(
            Finding,
            planting_id=plant.planting_id,
            symptom="leaf.newly_described",
            state="seen",
            manner="look",
            observed_at="2026-07-22T08:00",
        )
    begin(context)
    stop = at(context, "cucumber")
    assert "leaf.newly_described" not in evidence_for(context, plant).seen
    assert causes.causes_at(context, stop.id).headline
    with context.read() as session:
        from scout.store import findings

        kept = findings.last_findings(session=session, garden_id=str(context.garden_id), since="2026-07-22")
    assert kept[plant.planting_id].symptom == "leaf.newly_described"


def test_a_screen_may_draw_a_ranking_before_it_is_kept(context) -> None:
    from scout.store import rankings

    begin(context)
    stop = at(context, "cucumber")
    waiting = []
    causes.causes_at(context, stop.id, waiting.append)
    with context.read() as session:
        assert rankings.rankings(session=session, garden_id=str(context.garden_id)) == ()
    waiting.pop()()
    with context.read() as session:
        (kept,) = rankings.rankings(session=session, garden_id=str(context.garden_id))
    assert kept.stop_id == stop.id and not waiting


def test_each_crop_that_stands_here_is_tried_once(context) -> None:
    assert list(try_rankings(context)) == list(dict.fromkeys(one.crop.id for one in planted(context)))
