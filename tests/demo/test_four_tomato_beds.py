"""Four tomato beds of the demo garden: which keeps up, which loses, which cannot be told."""

import pytest
from scipy import stats

from scout.science.counts import compare_poisson_counts
from scout.services import marked
from scout.services.context import Context
from scout.services.keeping_source import followed_in_garden
from scout.services.keeping_up import Judgement, judge
from scout.services.keeping_words import lines_below, verdict_sentence

from .planting import SEASON_END, plant_at


def lines_of(context: Context, bed: str) -> str:
    return " ".join(marked.marked_table(context, plant_at(context, bed, "tomato").planting_id).lines)


def test_the_kiln_bed_shows_fewer_new_leaves_after_the_stripping(evening) -> None:
    said = lines_of(evening(SEASON_END), "Kiln bed")
    assert "Top leaf: 16 to 26 in 28 days" in said
    assert "Highest spotted leaf: 5 to 8 in 28 days" in said
    assert "12 in 3.0 plant-weeks, then 7 in 6.0 (chance alone: p 0.012)" in said
    # Exact conditional binomial, sum of outcomes no likelier than 12 of 19 at 1/3; scipy is the reference.
    p = stats.binomtest(12, 19, 1 / 3).pvalue
    assert compare_poisson_counts(12, 21, 7, 42).p_least_likely == pytest.approx(p, abs=1e-9)


def test_the_orchard_wall_runs_out_of_clean_leaves_while_what_is_left_looks_better(evening) -> None:
    context = evening(SEASON_END)
    said = lines_of(context, "Orchard wall")
    assert "Top leaf: 15 to 20 in 21 days" in said and "Highest spotted leaf: 4 to 13 in 21 days" in said
    assert "Clean leaves above it: 7" in said
    assert "proves nothing" in said


def test_two_then_five_new_leaves_are_no_difference(evening) -> None:
    assert "2 in 2.0 plant-weeks, then 5 in 2.0 (chance alone: p 0.45)" in lines_of(evening(SEASON_END), "Well bed")


def test_a_bushy_kind_that_finishes_is_measured_as_standing_still(evening) -> None:
    context = evening(SEASON_END)
    assert "+0.00 leaves a day" in lines_of(context, "Lean-to")
    assert plant_at(context, "Lean-to", "tomato").habit == "determinate"


def judged_at(context: Context, bed: str) -> Judgement:
    return judge(followed_in_garden(context, plant_at(context, bed, "tomato")))


def test_the_kiln_bed_keeps_up(evening) -> None:
    told = judged_at(evening(SEASON_END), "Kiln bed")
    assert told.verdict == "keeping_up" and told.clean_depth == 18
    assert any("12 in 3.0 plant-weeks" in line and "7 in 6.0" in line for line in lines_below(told))


def test_the_orchard_wall_loses_and_has_under_six_clean_leaves_in_about_six_days(evening) -> None:
    told = judged_at(evening(SEASON_END), "Orchard wall")
    assert told.verdict == "losing" and told.clean_depth == 7
    assert told.below_six_on is not None and told.last_on is not None
    assert 4 <= (told.below_six_on - told.last_on).days <= 8
    assert not any("everity" in line for line in lines_below(told))


def test_the_well_bed_cannot_be_told_yet_and_says_what_would(evening) -> None:
    told = judged_at(evening(SEASON_END), "Well bed")
    assert told.verdict == "cannot_tell" and told.probability_losing is not None and told.probability_losing < 0.5
    assert "More than six visits at this rate. Mark a third plant too, the worst." in " ".join(lines_below(told))


def test_the_lean_to_stands_still_by_nature(evening) -> None:
    told = judged_at(evening(SEASON_END), "Lean-to")
    assert told.verdict == "cannot_tell" and "standing still is normal" in verdict_sentence(told)
    assert told.below_six_on is None
