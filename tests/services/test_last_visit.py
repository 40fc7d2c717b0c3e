"""What the last visit said comes first at the next."""

from scout.services import answers, walk

from ..small_garden import stop_at


def test_last_visits_note_comes_first_at_the_next_visit(context, clock) -> None:
    stop = stop_at(context)
    found = answers.add_finding(context, stop.id, "fruit.pinched_blossom_end", "look")
    answers.set_counts(context, found, 19, 7)
    answers.note(context, stop.id, "picked off the pinched ones [/z]")
    walk.close_stop(context, stop.id)
    walk.finish(context)
    clock.on(7, 26)
    last = stop_at(context).last_visit
    assert last[0] == "22 July: picked off the pinched ones [/z]"
    assert "7 of 19" in last[1]


def test_nothing_seen_on_six_plants_is_not_shown_as_healthy(context, clock) -> None:
    walk.clear(context, stop_at(context).id, "every_look", 6)
    walk.finish(context)
    clock.on(7, 30)
    # 1 - 0.05^(1/6) = 0.393: one-sided exact 95 % limit (rule behind the rule of three; Hanley & Lippman-Hand 1983).
    assert "0 of 6 (could still be up to 39 %)" in stop_at(context).last_visit[0]
