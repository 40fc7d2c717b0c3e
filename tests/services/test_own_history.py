"""Confirmed causes shift this garden's odds, no more than they should, and can be taken back."""

import numpy as np
import pytest

from scout.diagnosis.evidence import Evidence
from scout.diagnosis.model import OWN_HISTORY_WEIGHT, build_model
from scout.errors import BadInput
from scout.services import walk
from scout.services.evidence import evidence_for
from scout.services.garden import planted
from scout.services.own_history import confirm, confirmed, own_counts

CAUSE = "powdery_mildew_cucurbit"


def plant_of(context, crop: str):
    return next(one for one in planted(context) if one.crop.id == crop)


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
        walk.undo(context)
    assert own_counts(context, "cucumber") == {}
    assert prior(context, own_counts(context, "cucumber")) == before


def test_a_cause_the_crop_cannot_have_is_refused(context) -> None:
    with pytest.raises(BadInput, match="not known to have"):
        confirm(context, plant_of(context, "cucumber"), "late_blight", "clinic")
