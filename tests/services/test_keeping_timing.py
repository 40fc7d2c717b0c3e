"""Until when old infections can still turn, and plants left unstripped beside stripped ones."""

from dataclasses import replace
from datetime import date, timedelta

from scout.services.keeping_followed import Followed
from scout.services.keeping_json import as_json
from scout.services.keeping_up import judge
from scout.services.keeping_words import days_bought_words, lines_below
from scout.services.marked import MeasuredRow

from ..shipped import shipped_knowledge

KNOWN = shipped_knowledge()
SEPTORIA, EARLY = KNOWN.causes["septoria_leaf_spot"], KNOWN.causes["early_blight"]


def rows(label: str, new: tuple[int, ...], strip: int | None) -> tuple[MeasuredRow, ...]:
    days = [(date(2026, 7, 1) + timedelta(days=7 * n)).isoformat() for n in range(len(new))]
    return tuple(
        MeasuredRow(day, label, 14 + 2 * n, 5, strip if n else None, count, None, "dry")
        for n, (day, count) in enumerate(zip(days, new, strict=True))
    )


FOLLOWED = Followed("Bed/Tomato", rows("A", (0, 5, 4, 1, 1), 3), (SEPTORIA,))


def july(mean_c: float) -> dict[date, float]:
    return {date(2026, 7, 1) + timedelta(days=n): mean_c for n in range(40)}


def lines(followed: Followed) -> str:
    return " ".join(lines_below(judge(followed)))


def test_cool_days_put_off_the_day_until_which_leaves_can_turn() -> None:
    # 6 days at 15-27 °C (INRAE); half as fast at 10 °C, half way to the limit of 5 °C.
    assert "until 14 July (6 days to the first spot: the longest time known at the mean of 20 °C here)" in lines(
        replace(FOLLOWED, warmth=july(20.0))
    )
    cool = replace(FOLLOWED, warmth=july(10.0))
    assert "until 20 July (12 days to the first spot: 6 in fair warmth, longer at the mean of 10 °C here)" in lines(
        cool
    )
    told = judge(cool)
    assert told.new_leaves is not None and (told.new_leaves.after_n, told.new_leaves.after_d) == (1, 7.0)


def test_without_temperatures_the_longest_time_is_taken_and_said() -> None:
    assert "until 14 July (6 days to the first spot: the longest time known; no temperature" in lines(FOLLOWED)
    assert "until 15 July (7 days" in lines(replace(FOLLOWED, causes=(SEPTORIA, EARLY)))


def test_plants_left_unstripped_are_told_beside_the_stripped_ones_and_never_alone() -> None:
    found = judge(replace(FOLLOWED, unstripped=rows("left", (0, 5, 4, 5, 4), None)))
    text = " ".join(lines_below(found))
    assert "Left unstripped: 9 newly spotted leaves in 2.0 plant-weeks; stripped, the same weeks: 2 in 2.0" in text
    assert "come to it last, and take its spots for no proof" in text
    plain = as_json(found)
    assert plain["left_unstripped"]["left"] == 9 and plain["left_unstripped"]["rate_ratio"] == 4.5
    # The verdict rests on the stripped plants alone.
    assert found.verdict == judge(FOLLOWED).verdict and found.probability_losing == judge(FOLLOWED).probability_losing


def test_with_any_other_disease_no_plant_is_left_unstripped() -> None:
    left = rows("left", (0, 5, 4, 5, 4), None)
    for causes in ((), (SEPTORIA, KNOWN.causes["bean_rust"])):
        found = judge(replace(FOLLOWED, unstripped=left, causes=causes))
        assert found.left is None and as_json(found)["left_unstripped"] is None
        assert "only for Septoria and early blight" in " ".join(lines_below(found))
    allowed = {cause.id for cause in KNOWN.causes.values() if cause.may_stay_unstripped}
    assert allowed == {"septoria_leaf_spot", "early_blight"}


def test_a_stripping_that_is_overdue_is_told_as_past() -> None:
    # Stripped on 8 July, spots to spores 8 days for Septoria (14 less 6, INRAE), less one: 15 July; last visit 29 July.
    assert "Next stripping was due by 15 July" in lines(FOLLOWED)
    assert "Next stripping due by 15 July" in lines(replace(FOLLOWED, rows=FOLLOWED.rows[:2]))


def test_a_delay_at_a_rate_near_nought_is_no_number() -> None:
    assert days_bought_words(5.4) == "about 5 days" and days_bought_words(89.0) == "more than a month"
