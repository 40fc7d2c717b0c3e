"""Holds after a labelled product: what is said at the bed until they end."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from scout.errors import BadInput, NotFound, Refused
from scout.services import answers, holds, walk
from scout.services.today import today_view
from scout.services.undo import undo
from scout.store.tables_follow import Hold

from ..small_garden import plant_of, stop_at


def put(context, crop: str = "cucumber", applied=None, days: int | None = 7, hours: int | None = 12) -> str:
    when = applied or datetime(2026, 7, 22, 9, 30)
    return holds.record_hold(context, plant_of(context, crop).planting_id, "labelled product", when, days, hours)


def at_bed(context, crop: str = "cucumber") -> tuple[str, ...]:
    return holds.at_bed(context, plant_of(context, crop))


def test_first_keep_out_then_throw_away_then_nothing(context, clock) -> None:
    put(context)
    assert at_bed(context) == (
        "Do not go in, touch or pick until 22 July 21:30: labelled product.",
        "Do not eat until 29 July 09:30: labelled product.",
    )
    clock.on(7, 22, 22)
    assert at_bed(context) == ("Do not eat until 29 July 09:30: labelled product.", holds.THROW_AWAY)
    clock.on(7, 29, 9)
    assert at_bed(context)[0].startswith("Do not eat until 29 July 09:30")
    clock.on(7, 29, 10)
    assert at_bed(context) == () and holds.standing(context) == ()


def test_an_end_that_names_a_day_alone_stands_through_that_day(context, clock) -> None:
    with context.write() as tx:
        tx.add(
            Hold,
            planting_id=plant_of(context, "cucumber").planting_id,
            reason="labelled product",
            until_at="2026-07-29",
            re_entry_until_at="2026-07-23",
        )
    clock.on(7, 23, 20)
    assert at_bed(context)[0] == "Do not go in, touch or pick until 23 July: labelled product."
    clock.on(7, 29, 20)
    assert at_bed(context)[0] == "Do not eat until 29 July: labelled product."
    clock.on(7, 30, 0)
    assert at_bed(context) == ()


def test_both_end_at_their_minute(context, clock) -> None:
    put(context, applied=datetime(2026, 7, 22, 9), days=7, hours=12)
    clock.on(7, 22, 21)
    assert len(at_bed(context)) == 2 and "Do not eat" in at_bed(context)[0]
    clock.on(7, 29, 9)
    assert at_bed(context) == ()


def test_an_interval_that_is_not_known_is_never_none(context, clock) -> None:
    hold = put(context, days=None, hours=None)
    clock.on(9, 30)
    assert at_bed(context)[0] == f"Do not eat {holds.NOT_KNOWN}: labelled product."
    holds.give_label(context, hold, 3, 12)
    assert at_bed(context) == ()
    clock.on(7, 24)
    assert at_bed(context)[0] == "Do not eat until 25 July 09:30: labelled product."


def test_the_longer_of_going_in_and_harvest_rules(context) -> None:
    # Harvest 1 day, going in 48 hours: 48 hours (Washington State University: the longer interval rules).
    put(context, days=1, hours=48)
    (hold,) = holds.standing(context)
    assert (hold.eat_from, hold.enter_from) == ("2026-07-24T09:30", "2026-07-24T09:30")


def test_a_harvest_interval_of_no_days_still_waits_for_going_in(context, clock) -> None:
    put(context, days=0, hours=12)
    assert holds.standing(context)[0].eat_from == "2026-07-22T21:30"
    clock.on(7, 22, 22)
    assert holds.standing(context) == ()


def test_of_two_products_the_longest_end_holds(context, clock) -> None:
    # 7 days from 3 July and 3 days from 8 July: 11 July, the maximum over applications.
    put(context, applied=datetime(2026, 7, 3, 10), days=7)
    put(context, applied=datetime(2026, 7, 8, 10), days=3)
    clock.on(7, 10)
    assert [hold.eat_from for hold in holds.standing(context)] == ["2026-07-11T10:00"]


def test_a_day_without_an_hour_counts_from_its_end(context) -> None:
    put(context, applied=date(2026, 7, 22), days=1, hours=4)
    (hold,) = holds.standing(context)
    assert (hold.eat_from, hold.enter_from, hold.applied_at) == ("2026-07-24T00:00", "2026-07-23T04:00", "2026-07-22")


def test_a_change_of_the_clock_ends_nothing_early(context, clock) -> None:
    context.zone = ZoneInfo("Europe/Berlin")
    clock.now = datetime(2026, 10, 24, 17, 0, tzinfo=UTC)  # 19:00 by the garden's clock
    put(context, applied=datetime(2026, 10, 24, 18, 0), days=1, hours=12)
    (hold,) = holds.standing(context)
    assert (hold.enter_from, hold.eat_from) == ("2026-10-25T05:00", "2026-10-25T17:00")
    clock.now = datetime(2026, 10, 24, 16, tzinfo=UTC) + timedelta(hours=11, minutes=59)
    assert holds.standing(context)[0].phase == "keep_out"
    clock.now += timedelta(minutes=1)
    assert holds.standing(context)[0].phase == "do_not_eat"
    clock.now += timedelta(hours=12)
    assert holds.standing(context) == ()


def test_nothing_is_picked_while_nobody_may_go_in_and_thrown_away_after(context, clock) -> None:
    stop = stop_at(context)
    put(context)
    stop = walk.current_stop(context)
    assert stop.holds[0].startswith("Do not go in")
    with pytest.raises(Refused, match="Do not go in, touch or pick until 22 July 21:30"):
        answers.tally(context, stop.id, sound=1)
    clock.on(7, 23)
    answers.tally(context, stop.id, sound=1)
    assert walk.current_stop(context).holds[1] == holds.THROW_AWAY


def test_another_planting_of_the_bed_is_kept_out_of_too_but_may_be_eaten(context, clock) -> None:
    put(context, "snap_bean")
    assert at_bed(context, "beet")[0].startswith("Do not go in") and "Snap bean" in at_bed(context, "beet")[0]
    assert at_bed(context, "cucumber") == ()
    clock.on(7, 23)
    assert at_bed(context, "beet") == () and at_bed(context, "snap_bean")


def test_a_hold_is_taken_back_and_its_label_mended(context) -> None:
    hold = put(context)
    holds.give_label(context, hold, 10, 12)
    assert holds.standing(context)[0].eat_from == "2026-08-01T09:30"
    assert undo(context) == "Taken back: a change of the hold for “labelled product”, Long bed."
    assert holds.standing(context)[0].eat_from == "2026-07-29T09:30"
    undo(context)
    assert holds.standing(context) == ()
    with pytest.raises(NotFound):
        holds.give_label(context, hold, 3, 3)


def test_the_first_screen_says_what_is_not_to_be_eaten(context) -> None:
    put(context)
    line = next(line for line in today_view(context).lines if "Long bed" in line)
    assert line == "! Long bed · Cucumber Testina: keep out until 22 July 21:30, do not eat until 29 July 09:30"


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"applied": datetime(2026, 7, 22, 12, 1)}, "lies ahead"),
        ({"applied": date(2026, 7, 23)}, "lies ahead"),
        ({"applied": date(2025, 6, 1)}, "more than 400 days ago"),
        ({"days": 401}, "401 days until harvest cannot be"),
        ({"hours": -1}, "-1 hours until going in cannot be"),
    ],
)
def test_what_cannot_be_is_refused(context, change, sentence: str) -> None:
    with pytest.raises(BadInput, match=sentence):
        put(context, **change)
    assert holds.standing(context) == ()


@pytest.mark.parametrize(
    ("text", "when"),
    [
        ("18:30", datetime(2026, 7, 22, 18, 30)),
        ("2026-07-03 18:30", datetime(2026, 7, 3, 18, 30)),
        ("2026-07-03T18:30", datetime(2026, 7, 3, 18, 30)),
        ("3 July 2026 18:30", datetime(2026, 7, 3, 18, 30)),
        ("2026-07-03", date(2026, 7, 3)),
        ("", date(2026, 7, 22)),
    ],
)
def test_when_it_was_used_is_read_as_written(text: str, when) -> None:
    assert holds.read_applied(text, date(2026, 7, 22)) == when


@pytest.mark.parametrize("text", ["25:00", "soon", "2026-07-03 18:99", "03/04/2026 18:30"])
def test_a_time_that_is_not_clear_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        holds.read_applied(text, date(2026, 7, 22))


def test_no_line_of_a_hold_names_a_product_or_a_dose(context) -> None:
    put(context)
    (hold,) = holds.standing(context)
    for phase in ("keep_out", "do_not_eat"):
        assert not any(word in " ".join(replace(hold, phase=phase).lines) for word in ("ml", "dose", "mix"))
