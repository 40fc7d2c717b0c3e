"""The causes page: the ranking moves with answers, is kept as shown, and a control becomes a job."""

from scout.services import answers, causes, troubles, walk
from scout.services.context import Context
from scout.services.evidence import evidence_for
from scout.services.garden import planted
from scout.services.warm_up import try_rankings
from scout.store.asking import rows

from ..small_garden import plant_of, stop_at


def kept_rankings(context: Context) -> list[tuple[str, ...]]:
    """Planting, stop, hash of the knowledge and evidence of every ranking that was kept."""
    with context.read() as door:
        return list(rows(door, "SELECT planting_id, stop_id, knowledge_hash, evidence FROM ranking"))


def test_a_control_becomes_a_job_with_a_day_to_look_again(context) -> None:
    stop = stop_at(context)
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
    stop = stop_at(context)
    answers.add_finding(context, stop.id, "fruit.pinched_blossom_end", "look")
    before = causes.causes_at(context, stop.id)
    causes.answer(context, stop.id, before.questions[0].symptom, True)
    after = causes.causes_at(context, stop.id)
    assert [row.chance for row in before.causes] != [row.chance for row in after.causes]
    assert before.questions[0].symptom not in [q.symptom for q in after.questions]


def test_each_ranking_shown_is_kept_with_its_knowledge(context) -> None:
    stop = stop_at(context)
    answers.add_finding(context, stop.id, "fruit.pinched_blossom_end", "look")
    causes.causes_at(context, stop.id)
    ((planting_id, _, knowledge_hash, evidence),) = kept_rankings(context)
    assert (planting_id, knowledge_hash) == (stop.planting_id, context.knowledge.hash)
    assert "fruit.pinched_blossom_end" in evidence


def test_bitter_on_a_volunteer_squash_is_a_stop_and_nothing_else(context) -> None:
    stop = stop_at(context, "summer_squash")
    answers.add_finding(context, stop.id, "fruit.bitter_taste", "glance")
    view = causes.causes_at(context, stop.id)
    assert view.stop is not None and not view.causes and not view.questions


def test_a_friend_seen_is_said_beside_the_pest_it_eats(context) -> None:
    enemy = next(e for e in context.knowledge.enemies.values() if "aphids" in e.eats)
    stop = stop_at(context)
    answers.add_finding(context, stop.id, "insect.aphids", "look")
    answers.add_finding(context, stop.id, "leaf.sticky", "look")
    answers.log_enemy(context, stop.id, enemy.id)
    assert any(enemy.name in text for text in causes.causes_at(context, stop.id).together)


def test_records_of_newer_knowledge_are_kept_and_passed_over(context) -> None:
    """An old program on a garden written with newer knowledge: unknown ids are neither lost nor fatal."""
    from scout.store.tables_garden import Planting, PlantingBed
    from scout.store.tables_walk import Finding

    plant = plant_of(context)
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
    stop = stop_at(context)
    assert "leaf.newly_described" not in evidence_for(context, plant).seen
    assert causes.causes_at(context, stop.id).headline
    with context.read() as session:
        from scout.store import findings

        kept = findings.last_findings(session=session, garden_id=str(context.garden_id), since="2026-07-22")
    assert kept[plant.planting_id].symptom == "leaf.newly_described"


def test_a_screen_may_draw_a_ranking_before_it_is_kept(context) -> None:
    stop = stop_at(context)
    waiting = []
    causes.causes_at(context, stop.id, waiting.append)
    assert kept_rankings(context) == []
    waiting.pop()()
    assert [stop_id for _, stop_id, _, _ in kept_rankings(context)] == [stop.id] and not waiting


def test_each_crop_that_stands_here_is_tried_once(context) -> None:
    assert list(try_rankings(context)) == list(dict.fromkeys(one.crop.id for one in planted(context)))
