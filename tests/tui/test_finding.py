"""A finding by keys: named, ranked, and taken on to a job."""

from datetime import date

from scout.services import marked, troubles, walk

from ..small_garden import plant_of
from .hand import see, stop_at


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
