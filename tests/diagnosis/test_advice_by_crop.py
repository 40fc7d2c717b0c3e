"""A control that is not for a crop is not offered there."""

import pytest

from scout.diagnosis.advise import Bedside, advise
from scout.knowledge.cause_file import Action

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
STRIPPING = {"strip_lowest_leaves", "strip_outer_leaves"}


def controls(cause: str, crop: str | None) -> set[str]:
    return {advice.control.id for advice in advise(KNOWLEDGE, KNOWLEDGE.causes[cause], Bedside(crop=crop))}


def test_early_blight_is_stripped_and_staked_on_tomato_not_on_potato() -> None:
    assert {"strip_lowest_leaves", "stake_and_tie"} <= controls("early_blight", "tomato")
    assert not {"strip_lowest_leaves", "stake_and_tie"} & controls("early_blight", "potato")
    assert "mulch" in controls("early_blight", "potato")


# Potatoes need every leaf, corn and onions are not stripped: common practice, no source.
@pytest.mark.parametrize("crop", ["potato", "sweet_corn", "onion", "garlic"])
def test_no_cause_asks_to_strip_a_crop_that_is_not_stripped(crop: str) -> None:
    assert not [cause.id for cause in KNOWLEDGE.causes_of(crop) if STRIPPING & controls(cause.id, crop)]


def test_without_a_crop_every_control_is_told() -> None:
    assert controls("early_blight", None) == {action.control for action in KNOWLEDGE.causes["early_blight"].do}
    assert Action(control="mulch", when="today").fits("potato")
