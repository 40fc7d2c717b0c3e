"""A walk by keys: from the plan through a finding to a job, and what is offered when."""

from datetime import date

from scout.services import marked, troubles, walk
from scout.services.plan import walk_plan

from ..small_garden import plant_of

PINCHED = "fruit.pinched_blossom_end"


async def stop_at(hand, bed):
    """Begin the walk and glance past stops until the one in that bed."""
    await hand.press("w", "enter")
    while bed not in hand.head:
        await hand.press("g")
    hand.keys_n = 0
    return hand


async def see(hand, look, symptom):
    """Choose a look by its words, then what was seen there."""
    await hand.choose(look)
    await hand.choose(symptom)


async def test_from_the_plan_through_a_finding_to_a_job(opening, store) -> None:
    async with opening() as hand:
        await hand.press("w")
        assert hand.name == "PlanPage" and len(hand.rows) == 5
        await hand.press("enter")
        assert "1/5 Long bed · Cucumber · Testina" in hand.head
        await see(hand, "crown", "powder")
        assert "on how many of 8?" in hand.text
        await hand.press("3", "enter")
        assert hand.name == "ChoicePage" and "Lowest third" in hand.head
        await hand.press("5", "escape")
        assert hand.name == "CausesPage" and hand.rows[0].startswith("Powdery mildew")
        ranked = hand.rows
        await hand.press("y")
        assert hand.name == "CausesPage" and hand.rows != ranked
        await hand.choose("Powdery mildew")
        control = next(row for row in hand.rows if row.startswith("today") and "not now" not in row)
        await hand.choose(control)
        if hand.name == "ChoicePage":
            await hand.choose("Yes, do it")
        assert hand.name == "StopPage" and "look again" in hand.said
        assert "Open problem: Powdery mildew" in hand.text and "3 of 8" in hand.text
    finding = walk.current_stop(store).findings[0]
    assert (finding.looked_n, finding.affected_n, finding.severity_pct) == (8, 3, (10.0, None, None))
    (job,) = troubles.job_lines(store)
    assert f"today: {job.title}" == control
    assert date.fromisoformat(job.due_on) == store.today


async def test_a_yes_and_a_no_move_the_ranking_apart(opening) -> None:
    shown = []
    for answer in ("y", "n"):
        async with opening() as hand:
            if not shown:
                await stop_at(hand, "Long bed")
                await see(hand, "Lift the fruit", "pinched")
                await hand.press("enter")
            else:
                await hand.press("w", "u")  # the walk goes on at the causes; the answer before is taken back
            before = hand.rows
            await hand.press(answer)
            shown.append(hand.rows)
            assert hand.rows != before
    assert shown[0] != shown[1]


async def test_a_control_with_cautions_is_taken_only_after_they_were_read(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await see(hand, "crown", "powder")
        await hand.press("1", "enter", "5", "escape")
        await hand.choose("Powdery mildew")
        page = hand.page
        index = next(n for n, row in enumerate(page._controls) if (row.cautions or row.only_if) and not row.refused)
        await hand.choose(page._controls[index].name)
        assert hand.name == "ChoicePage"
        for text in (*page._controls[index].cautions, *page._controls[index].only_if):
            assert text in hand.text
        await hand.choose("Not now")
        assert hand.name == "OneCausePage" and not troubles.job_lines(store)
        await hand.choose(page._controls[index].name)
        await hand.choose("Yes, do it")
        assert hand.name == "StopPage"
    assert len(troubles.job_lines(store)) == 1


async def test_a_refused_control_says_why_and_makes_no_job(opening, store) -> None:
    tagged = marked.mark_plant(store, plant_of(store, "cucumber").planting_id, "red tape", "indeterminate")
    marked.measure(store, tagged, top_leaf=12, wet="wet")
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await see(hand, "crown", "powder")
        await hand.press("1", "enter", "5", "escape")
        refused = None
        for row in range(len(hand.rows)):
            await hand.press(str(row + 1))
            refused = next((c for c in hand.page._controls if c.refused), None)
            if refused is not None:
                break
            await hand.press("escape")
        assert refused is not None, "no shown cause has a control that is refused now"
        assert f"{refused.name} ✗ not now" in "\n".join(hand.rows)
        await hand.choose(refused.name)
        assert hand.said == refused.refused and hand.name == "OneCausePage"
    assert not troubles.job_lines(store)


async def test_a_glance_goes_on_to_the_next_stop_with_one_key(opening) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("g")
        assert hand.keys_n == 1 and "2/5 Short bed" in hand.head


async def test_all_looks_clear_closes_the_stop_and_keeps_every_look(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        stop = walk.current_stop(store)
        await hand.press("a")
        assert "Short bed" in hand.head
    from scout.store import walks

    with store.read() as session:
        answers = walks.look_answers(session=session, stop_id=stop.id)
        (cleared,) = walks.clearances(session=session, stop_id=stop.id)
    assert {look: answer.answer for look, answer in answers.items()} == {look.id: "clear" for look in stop.looks}
    assert (cleared.kind, cleared.looked_n) == ("every_look", 8)


async def test_all_looks_clear_is_not_offered_where_a_problem_is_open(opening, store) -> None:
    plant = plant_of(store, "cucumber")
    troubles.take_control(store, plant.planting_id, plant.bed_id, None, "powdery_mildew_cucurbit", "mulch", "today")
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        assert "Glanced ok" in hand.offered and "All clear" not in hand.offered
        await hand.press("a")
        assert "Long bed" in hand.head
    assert walk.current_stop(store).bed == "Long bed"


async def test_all_looks_clear_is_not_offered_until_the_marked_plant_is_measured(opening, store) -> None:
    tagged = marked.mark_plant(store, plant_of(store, "cucumber").planting_id, "red tape", "indeterminate")
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        assert "All clear" not in hand.offered and "1 marked plant to measure (v)" in hand.text
        await hand.press("v", "1", "1", "1", "2", "enter", "2", "enter", "0", "enter", "0", "enter", "9", "enter")
        assert hand.name == "MarkedPage"
        await hand.press("escape")
        assert "All clear" in hand.offered
    (row,) = marked.marked_table(store, plant_of(store, "cucumber").planting_id).rows
    assert (row.top_leaf, row.highest_diseased, row.newly_diseased, row.stripped_to, row.leaves_standing) == (
        12,
        2,
        0,
        0,
        9,
    )
    assert row.wet == "dry" and tagged


async def test_a_bed_with_two_plantings_is_cleared_with_one_key(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Mixed bed")
        assert "Bed clear" in hand.offered
        await hand.press("b")
        assert "5/5 Black tub" in hand.head and "Bed clear" not in hand.offered


async def test_the_pick_is_tallied_with_plus_and_minus(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("+", "+", "+", "-")
        assert "Picked: 3 sound, 1 odd" in hand.text
    assert walk.current_stop(store).picks == (3, 1)


async def test_water_and_friends_are_noted_and_said(opening, store) -> None:
    from scout.store import records

    async with opening() as hand:
        await stop_at(hand, "Long bed")
        stop = walk.current_stop(store)
        await hand.press("h")
        await hand.choose("timer failed")
        assert "The timer failed" in hand.said
        await hand.press("y")
        await hand.choose("lady beetles")
        assert hand.name == "StopPage" and "lady beetles" in hand.said
    with store.read() as session:
        day = store.today.isoformat()
        (water,) = records.waterings(session=session, garden_id=store.garden_id, since=day, until=day)
        (friend,) = records.enemies_seen(session=session, planting_id=stop.planting_id, since=day)
    assert (water.outcome, water.water_zone) == ("timer_failed", "east")
    assert friend.enemy == "lady_beetles"


async def test_a_note_is_shown_first_at_the_next_visit(opening, store, clock) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("i")
        await hand.type("look under the third leaf")
        await hand.press("n")
        await hand.press("g", "g", "g", "g")
        assert hand.name == "SummaryPage"
    clock.on(7, 29)
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        assert hand.text.split("\n")[0] == "Last time: 22 July: look under the third leaf · nothing noted"


async def test_a_stop_without_an_answer_is_passed_by_as_not_looked_at(opening, store) -> None:
    from scout.store import walks

    async with opening() as hand:
        await stop_at(hand, "Long bed")
        stop = walk.current_stop(store)
        await hand.press("n")
        assert "2/5 Short bed" in hand.head
    with store.read() as session:
        assert walks.stop(session=session, stop_id=stop.id).state == "skipped"
        assert not walks.clearances(session=session, stop_id=stop.id)


async def test_which_plants_belong_to_the_newest_finding(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("x")
        assert "Nothing is noted here yet" in hand.said
        await see(hand, "Lift the fruit", "pinched")
        await hand.press("2", "enter", "escape", "x")
        await hand.type("3rd and 5th from the path")
        assert "(3rd and 5th from the path)" in hand.text
    assert walk.current_stop(store).findings[0].which_plants == "3rd and 5th from the path"


async def test_fewer_plants_looked_at_are_what_the_answer_speaks_of(opening, store) -> None:
    from scout.store import walks

    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("p", "3", "enter")
        assert "looking at 3 plants" in hand.text
        stop = walk.current_stop(store)
        await hand.press("g")
    with store.read() as session:
        (cleared,) = walks.clearances(session=session, stop_id=stop.id)
    assert cleared.looked_n == 3


async def test_a_stop_left_for_the_evening_says_why(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("l")
        await hand.choose("leaves are wet")
        assert "2/5 Short bed" in hand.head
        await hand.press("g", "g", "g", "g")
        assert "Left for later: Long bed, cucumber (The leaves are wet)" in hand.text


async def test_another_thing_that_caught_the_eye_is_found_by_words(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("f", "w")
        await hand.type("yelow leafs at botom")
        assert hand.name == "ChoicePage" and any("yellow" in row for row in hand.rows)
        chosen = hand.rows[0]
        await hand.press("1", "enter")
    assert walk.current_stop(store).findings[0].name == chosen


async def test_a_symptom_can_be_found_by_its_part(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("s")
        await hand.choose("Something else")
        await hand.press("1")
        chosen = hand.rows[11]
        await hand.choose(chosen)
    assert walk.current_stop(store).findings[0].name == chosen


async def test_minutes_leave_the_rest_for_the_evening(opening, store) -> None:
    async with opening() as hand:
        await hand.press("w", "m", "2", "enter")
        assert hand.name == "PlanPage"
        waiting = [row for row in hand.rows if row.startswith("waits: ")]
        assert len(hand.rows) == 5 and 0 < len(waiting) < 5
        assert all("Not in these 2 minutes; this evening" in row for row in waiting)
        assert "each says why and until when" in hand.text
    assert len(walk_plan(store).stops) == 5


async def test_the_bitter_squash_shows_its_warning_and_no_cause(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Short bed")
        await hand.press("f")
        await hand.choose("Something else")
        await hand.choose("ruit")
        await hand.choose("bitter")
        await hand.press("enter")
        assert hand.name == "CausesPage" and hand.head == "Bitter: do not eat it"
        assert hand.rows == [] and "poison" in hand.text
        assert "y" not in [foot for foot in hand.feet] and hand.feet == ["Done", "Undo"]
        await hand.press("enter")
        assert hand.name == "StopPage"
    assert store.knowledge.crops["summer_squash"].bitter_stop


async def test_the_walk_ends_with_a_summary_and_goes_on_when_the_last_stop_is_taken_back(opening) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("g", "g", "g", "g", "g")
        assert hand.head == "Walk done: 5 stops, 5 clear, 0 findings"
        await hand.press("u")
        assert hand.name == "StopPage" and "5/5 Black tub" in hand.head
        await hand.press("g", "enter")
        assert hand.name == "TodayPage" and "Go on" not in hand.rows[0]


async def test_the_walk_goes_on_at_the_third_that_was_not_judged_yet(opening, store) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await see(hand, "crown", "powder")
        await hand.press("3", "enter", "5")
        assert "Middle third" in hand.head
    async with opening() as hand:
        await hand.press("w")
        assert "Middle third" in hand.head
        await hand.press("2", "1")
        assert hand.name == "CausesPage"
    assert walk.current_stop(store).findings[0].severity_pct == (10.0, 1.0, 0.0)


async def test_a_ranking_left_as_soon_as_it_is_shown_is_kept(opening, store) -> None:
    from scout.store.asking import rows

    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await see(hand, "Lift the fruit", "pinched")
        await hand.press("enter", "q")
    stop = walk.current_stop(store)
    with store.read() as door:
        assert list(rows(door, "SELECT planting_id, stop_id FROM ranking")) == [(stop.planting_id, stop.id)]
