"""Confirmed causes shift this garden's odds, no more than they should, and can be taken back."""

import csv

import numpy as np
import pytest

from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import OWN_HISTORY_WEIGHT, build_model
from scout.errors import BadInput, Refused
from scout.services.confirmed_list import CHOICES, confirmed_rows, odds_rows, reset, take_back
from scout.services.evidence import evidence_for
from scout.services.export import export
from scout.services.own_history import COUNTS, confirm, confirmed, own_counts
from scout.services.undo import undo

from ..small_garden import plant_of

CAUSE = "powdery_mildew_cucurbit"


def prior(context, counts: dict[str, tuple[int, int]], cause: str = CAUSE) -> float:
    model = build_model(context.knowledge, Evidence("cucumber", own_counts=counts))
    return float(model.prior()[[c.id for c in model.causes].index(cause)])


def test_agreement_counts_nothing(context) -> None:
    confirm(context, plant_of(context, "cucumber"), CAUSE, "agreement")
    assert own_counts(context, "cucumber") == {} and confirmed(context) == ()


def test_a_clinic_and_a_sign_count_and_other_crops_hear_nothing(context) -> None:
    plant = plant_of(context, "cucumber")
    confirm(context, plant, CAUSE, "clinic")
    confirm(context, plant, "angular_leaf_spot", "independent", was=False)
    assert own_counts(context, "cucumber") == {CAUSE: (1, 1), "angular_leaf_spot": (0, 2)}
    assert own_counts(context, "summer_squash") == {}
    assert evidence_for(context, plant).own_counts == own_counts(context, "cucumber")


def test_the_prior_is_the_mean_of_the_beta_distribution(context) -> None:
    """Beta(a, b) with a + b = 20 and mean p0 before: after k of n its mean is (20 p0 + k) / (20 + n)."""
    before = prior(context, {})
    expected = (OWN_HISTORY_WEIGHT * before + 3) / (OWN_HISTORY_WEIGHT + 4)
    assert prior(context, {CAUSE: (3, 4)}) == pytest.approx(expected, abs=1e-12)


def test_many_confirmations_converge_on_the_garden_s_own_share(context) -> None:
    dice = np.random.default_rng(3)
    true_share = 0.6
    for n in (100, 10_000):
        hits = int(dice.binomial(n, true_share))
        off = abs(prior(context, {CAUSE: (hits, n)}) - true_share)
    assert off < 0.02


def test_ten_wrong_confirmations_can_be_taken_back(context) -> None:
    plant = plant_of(context, "cucumber")
    before = prior(context, own_counts(context, "cucumber"))
    for _ in range(10):
        confirm(context, plant, CAUSE, "independent")
    assert prior(context, own_counts(context, "cucumber")) > 2 * before
    for _ in range(10):
        undo(context)
    assert own_counts(context, "cucumber") == {}
    assert prior(context, own_counts(context, "cucumber")) == before


def test_a_cause_the_crop_cannot_have_is_refused(context) -> None:
    with pytest.raises(BadInput, match="not known to have"):
        confirm(context, plant_of(context, "cucumber"), "late_blight", "clinic")


def test_every_answer_is_listed_with_what_it_did_to_the_odds(context) -> None:
    plant = plant_of(context, "cucumber")
    before = prior(context, {})
    confirm(context, plant, CAUSE, "clinic")
    confirm(context, plant, "angular_leaf_spot", "independent", was=False)
    confirm(context, plant, CAUSE, "agreement")  # counts nothing, so it is not listed
    assert [row.text for row in confirmed_rows(context)] == [
        "Cucumber was not angular leaf spot, by a sign of its own",
        "Cucumber was powdery mildew, by a clinic",
    ]
    (mildew,) = [row for row in odds_rows(context) if row.cause == CAUSE]
    assert (mildew.was_n, mildew.of_n) == (1, 1)
    # Mean of Beta(a + 1, b) with a + b = 20: (20 p + 1) / 21.
    assert mildew.usual == pytest.approx(before)
    assert mildew.here == pytest.approx((OWN_HISTORY_WEIGHT * before + 1) / (OWN_HISTORY_WEIGHT + 1))


def test_an_old_answer_is_taken_back_though_others_followed_and_undo_brings_it_again(context) -> None:
    plant = plant_of(context, "cucumber")
    for _ in range(3):
        confirm(context, plant, CAUSE, "independent")
    oldest = confirmed_rows(context)[-1]
    take_back(context, oldest.id)
    assert own_counts(context, "cucumber") == {CAUSE: (2, 2)}
    undo(context)
    assert own_counts(context, "cucumber") == {CAUSE: (3, 3)}


def test_ten_wrong_answers_are_reset_in_one_act_and_brought_again_in_one(context) -> None:
    cucumber, squash = plant_of(context, "cucumber"), plant_of(context, "summer_squash")
    for _ in range(10):
        confirm(context, cucumber, CAUSE, "later_course")
    confirm(context, squash, CAUSE, "clinic")
    assert reset(context, "cucumber", CAUSE) == 10
    assert own_counts(context, "cucumber") == {} and own_counts(context, "summer_squash") == {CAUSE: (1, 1)}
    assert prior(context, own_counts(context, "cucumber")) == prior(context, {})
    undo(context)
    assert own_counts(context, "cucumber") == {CAUSE: (10, 10)}
    assert reset(context) == 11 and confirmed(context) == ()
    with pytest.raises(Refused, match="Nothing is confirmed"):
        reset(context)


def test_what_was_confirmed_and_taken_back_is_in_the_export(context, tmp_path) -> None:
    plant = plant_of(context, "cucumber")
    confirm(context, plant, CAUSE, "clinic")
    confirm(context, plant, CAUSE, "independent")
    take_back(context, confirmed_rows(context)[0].id)
    export(context, tmp_path / "out")
    with (tmp_path / "out" / "outcome.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert sorted((row["sign"], row["verdict"]) for row in rows) == [("clinic", "yes"), ("independent", "cannot_tell")]
    assert any(row["note"] == f"taken back on {context.today}" for row in rows)
    assert f"{CAUSE}" in (tmp_path / "out" / "trouble.csv").read_text(encoding="utf-8")


def test_agreement_is_not_among_the_answers_that_are_offered() -> None:
    assert {sign for sign, _, _ in CHOICES} == set(COUNTS)
