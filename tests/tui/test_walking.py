"""A walk by keys: stops gone over, and what is offered when."""

from scout.services import marked, troubles, walk
from scout.services.plan import walk_plan

from ..small_garden import plant_of
from .hand import stop_at


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


async def test_minutes_leave_the_rest_for_the_evening(opening, store) -> None:
    async with opening() as hand:
        await hand.press("w", "m", "2", "enter")
        assert hand.name == "PlanPage"
        waiting = [row for row in hand.rows if row.startswith("waits: ")]
        assert len(hand.rows) == 5 and 0 < len(waiting) < 5
        assert all("Not in these 2 minutes; this evening" in row for row in waiting)
        assert "each says why and until when" in hand.text
    assert len(walk_plan(store).stops) == 5


async def test_the_walk_ends_with_a_summary_and_goes_on_when_the_last_stop_is_taken_back(opening) -> None:
    async with opening() as hand:
        await stop_at(hand, "Long bed")
        await hand.press("g", "g", "g", "g", "g")
        assert hand.head == "Walk done: 5 stops, 5 clear, 0 findings"
        await hand.press("u")
        assert hand.name == "StopPage" and "5/5 Black tub" in hand.head
        await hand.press("g", "enter")
        assert hand.name == "TodayPage" and "Go on" not in hand.rows[0]
