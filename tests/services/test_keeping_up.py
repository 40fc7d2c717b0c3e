"""The verdict for one planting and its sentences: tip, refusal, days that leaves can still turn, fruit."""

from dataclasses import replace
from datetime import date

import pytest

from scout.services.keeping_followed import Followed, Fruit, diseases_named, refusals_for
from scout.services.keeping_json import as_json
from scout.services.keeping_knife import stems_of
from scout.services.keeping_up import Judgement, judge
from scout.services.keeping_words import lines_below, verdict_sentence
from scout.services.marked import MeasuredRow

from ..shipped import shipped_knowledge

KNOWN = shipped_knowledge()
DAYS = ("2026-07-01", "2026-07-08", "2026-07-15", "2026-07-22", "2026-07-29")


def row(
    on: str, top: int, spots: int, strip: int = 0, new: int | None = None, standing: int | None = None
) -> MeasuredRow:
    return MeasuredRow(on, "A", top, spots, strip, new, standing, "dry")


def told(tops: tuple[int, ...], spots: tuple[int, ...], **more: object) -> Judgement:
    rows = tuple(row(*one) for one in zip(DAYS, tops, spots, strict=False))
    twin = tuple(replace(one, label="B") for one in rows)
    return judge(replace(Followed("Bed/Tomato", (*rows, *twin)), **more))  # type: ignore[arg-type]


LOSING = (16, 18, 19, 21), (5, 8, 11, 14)
TIP = (16, 18, 20, 22), (14, 16, 18, 20)
WINNING = (16, 19, 22, 25), (5, 5, 6, 6)


def test_spotted_to_the_tip_says_so() -> None:
    found = told(*TIP)
    assert (found.verdict, found.why) == ("losing", "tip")
    assert "reached the tip; about 2 leaves clean" in verdict_sentence(found)
    assert found.below_six_on == date(2026, 7, 22)


def test_keeping_up_needs_no_further_visits_and_names_no_day() -> None:
    found = told(*WINNING)
    assert (found.verdict, found.more_visits, found.below_six_on) == ("keeping_up", None, None)


def test_a_verdict_that_stands_though_the_last_visit_spoke_against_it_says_so() -> None:
    winning = told((16, 19, 21, 24, 26), (5, 6, 6, 7, 10))
    assert (winning.verdict, winning.why) == ("keeping_up", "held")
    assert "less surely than before" in verdict_sentence(winning)
    losing = told((16, 18, 19, 21, 24), (5, 8, 11, 13, 13))
    assert (losing.verdict, losing.why) == ("losing", "held")
    assert "as told before" in verdict_sentence(losing)


@pytest.mark.parametrize("kind", ["bacterial", "oomycete", "viral"])
def test_no_verdict_where_stripping_is_not_the_measure(kind: str) -> None:
    cause = next(c for c in KNOWN.causes.values() if c.kind == kind)
    found = told(*LOSING, causes=(cause,))
    assert found.verdict == "cannot_tell" and found.probability_losing is None and found.speeds is None
    assert "not the measure" in verdict_sentence(found) and found.next_strip_due is None


def test_diseases_are_known_by_id_name_and_alias_and_others_are_named_back() -> None:
    causes, unknown = diseases_named(KNOWN, ["septoria_leaf_spot", "Septoria", "early blight", "green dots"])
    assert [cause.id for cause in causes] == ["septoria_leaf_spot", "early_blight"] and unknown == ("green dots",)
    assert refusals_for(Followed(None, (), (), ("some Late Blight",)))


def test_plants_that_stop_growing_are_asked_for_their_fruit_and_judged_by_it() -> None:
    assert told(*LOSING, habit="topped").why == "fruit_missing"
    late = told(*LOSING, habit="topped", fruit=Fruit(16, date(2026, 8, 20)))
    assert late.verdict == "losing" and "the spots come first" in verdict_sentence(late)
    soon = told(*WINNING, habit="determinate", fruit=Fruit(10, date(2026, 7, 26)))
    assert soon.verdict == "keeping_up" and "fruit ripe about 26 July: keep the plants" in verdict_sentence(soon)
    assert soon.below_six_on is None


def test_falling_severity_and_fewer_leaves_standing_change_nothing() -> None:
    rows = [row(day, top, spots) for day, top, spots in zip(DAYS, *LOSING, strict=False)]
    stripped = [replace(one, leaves_standing=10 - n) for n, one in enumerate(rows)]
    plain, fewer = (judge(Followed(None, tuple(one))) for one in (rows, stripped))
    assert as_json(plain) == as_json(fewer)


def test_it_is_said_until_when_leaves_can_still_turn() -> None:
    rows = (row(DAYS[0], 16, 5), row(DAYS[1], 18, 6, 3, 4), row(DAYS[2], 20, 6, 3, 3), row(DAYS[3], 22, 6, 3, 0))
    found = judge(Followed(None, rows, (KNOWN.causes["septoria_leaf_spot"],)))
    # Septoria shows 6 days after infection (INRAE): stripped on 8 July, counted from the 14th.
    assert any("until 14 July" in line for line in lines_below(found))
    assert found.new_leaves is not None and (found.new_leaves.before_n, found.new_leaves.after_n) == (4, 0)


def test_nothing_measured_is_said_plainly() -> None:
    assert verdict_sentence(judge(Followed(None, ()))) == "Cannot tell yet: nothing is measured."


def test_one_visit_tells_no_speed_and_no_chance_but_what_comes_next() -> None:
    found = judge(Followed(None, (row(DAYS[0], 12, 5, 4, 5),)))
    assert found.speeds is None and found.probability_losing is None and found.clean_depth == 7
    said = " ".join(lines_below(found))
    assert "Measure again in 3 to 7 days. Mark two or three plants, the worst too." in said
    assert "leaves a day" not in said and "in 100" not in said
    assert as_json(found)["front_per_day"] is None


def test_every_line_ends_as_a_sentence() -> None:
    for found in (told(*LOSING), told(*TIP), told(*WINNING), told(*WINNING, habit="topped")):
        assert all(line.endswith(".") for line in (verdict_sentence(found), *lines_below(found)))


def test_leaves_gone_in_the_last_fortnight_are_read_off_the_strip_line() -> None:
    rows = [row(DAYS[0], 16, 5, 2, standing=14), row(DAYS[1], 18, 6, 3), row(DAYS[3], 22, 8, 6, standing=16)]
    (stem,) = stems_of(rows, date(2026, 7, 22))
    assert (stem.standing, stem.standing_before) == (16, 14)
    assert (stem.taken_week, stem.taken_fortnight, stem.stripped_to) == (3, 3, 6)
