"""Before the knife: never wet, never before heat, never past the share, never where a blade carries the disease."""

from dataclasses import replace

import pytest

from scout.diagnosis.knife import A_WEEK_N, LEAST_LEFT_N, Ground, Stem, before_the_knife, leaves_allowed

from ..shipped import shipped_knowledge

KNOWN = shipped_knowledge()
FINE = Ground(leaves_dry=True, heat_ahead=False, touch_contagious=None, causes=(KNOWN.causes["septoria_leaf_spot"],))
STEM = Stem("red", 20, 18, 0, 0, 9, 3)


def test_dry_cool_and_room_in_the_share_is_go_with_leaves_and_number() -> None:
    knife = before_the_knife(FINE, [STEM])
    assert knife.answer == "go" and not knife.ask
    (cut,) = knife.cuts
    assert cut.leaves_n == A_WEEK_N and "between 4 and 9" in cut.which
    said = " ".join(knife.how)
    assert "Mulch" in said and "blade" in said and "bag" in said


def test_wet_leaves_wait_and_no_leaf_is_named() -> None:
    knife = before_the_knife(replace(FINE, leaves_dry=False), [STEM])
    assert knife.answer == "wait" and not knife.cuts and "wet" in knife.reasons[0]


@pytest.mark.parametrize("unknown", ["leaves_dry", "heat_ahead"])
def test_what_is_not_known_is_asked_and_is_never_go(unknown: str) -> None:
    knife = before_the_knife(replace(FINE, **{unknown: None}), [STEM])
    assert knife.answer == "wait" and len(knife.ask) == 1 and not knife.cuts


def test_leaves_not_counted_are_asked_for() -> None:
    assert before_the_knife(FINE, [replace(STEM, standing=None)]).answer == "wait"
    assert before_the_knife(FINE, []).answer == "wait"


def test_a_plant_with_no_spotted_leaf_names_none() -> None:
    assert before_the_knife(FINE, [replace(STEM, highest_diseased=None, stripped_to=0)]).cuts == ()


def test_before_heat_only_two_low_leaves_stay_allowed() -> None:
    knife = before_the_knife(replace(FINE, heat_ahead=True), [STEM])
    assert knife.answer == "wait"
    assert [cut.leaves_n for cut in knife.cuts] == [2] and "soil" in knife.cuts[0].which


def test_wet_before_heat_names_no_leaf_at_all() -> None:
    assert before_the_knife(replace(FINE, heat_ahead=True, leaves_dry=False), [STEM]).cuts == ()


@pytest.mark.parametrize(
    "cause", sorted(c.id for c in KNOWN.causes.values() if c.kind in ("bacterial", "oomycete", "viral", "phytoplasma"))
)
def test_where_the_knife_is_not_the_measure_the_answer_is_no(cause: str) -> None:
    knife = before_the_knife(replace(FINE, causes=(KNOWN.causes[cause],)), [STEM])
    assert knife.answer == "dont" and not knife.cuts


def test_late_blight_is_taken_out_and_not_stripped() -> None:
    knife = before_the_knife(replace(FINE, causes=(KNOWN.causes["late_blight"],)), [STEM])
    assert "bag" in knife.reasons[0] and "extension" in knife.reasons[0]


def test_a_suspected_virus_or_bacterium_stops_the_knife() -> None:
    assert before_the_knife(replace(FINE, touch_contagious=True), [STEM]).answer == "dont"


# the two-part share rule


@pytest.mark.parametrize(
    ("stem", "allowed"),
    [
        (STEM, 3),  # a third of 18 is 6, the week allows 3
        (replace(STEM, taken_week=2, taken_fortnight=2), 1),  # 3 a week less 2
        (replace(STEM, taken_fortnight=5), 1),  # a third of 18 is 6, less 5
        (replace(STEM, taken_fortnight=6), 0),
        (replace(STEM, standing=11), 1),  # ten stay
        (replace(STEM, standing=10), 0),
        (replace(STEM, standing=12, standing_before=None, taken_fortnight=0), 2),
    ],
)
def test_a_third_in_fourteen_days_three_a_week_and_ten_left(stem: Stem, allowed: int) -> None:
    assert leaves_allowed(stem) == allowed


def test_no_room_says_which_rule_stops_it() -> None:
    few = before_the_knife(FINE, [replace(STEM, standing=9)])
    assert few.answer == "dont" and str(LEAST_LEFT_N) in few.reasons[0]
    much = before_the_knife(FINE, [replace(STEM, taken_fortnight=6)])
    assert much.answer == "dont" and "third" in much.reasons[0]
    clean = before_the_knife(FINE, [replace(STEM, highest_diseased=3)])
    assert clean.answer == "dont" and "No spotted leaf" in clean.reasons[0]


def test_one_spotted_leaf_is_named_as_one() -> None:
    (cut,) = before_the_knife(FINE, [replace(STEM, highest_diseased=4)]).cuts
    assert cut.which.startswith("spotted leaf 4, touching soil first")
