"""The field guide page of a cause and of a crop holds what its file says, in words for a phone."""

import pytest

from scout.services.vocabulary import shown

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()


def test_a_grave_cause_says_what_is_at_stake_and_how_to_check_it_quickly() -> None:
    cause = KNOWLEDGE.causes["late_blight"]
    page = shown(KNOWLEDGE, cause.id)
    assert f"At stake: {cause.at_stake}" in page and f"Quick check: {cause.fast_check}" in page


def test_how_common_it_is_stands_with_the_commonest_crops_first() -> None:
    line = next(line for line in shown(KNOWLEDGE, "cucumber_mosaic_virus") if line.startswith("How common: "))
    told = [line.index(word) for word in ("occasional on", "uncommon on", "rare on") if word in line]
    assert len(told) > 1 and told == sorted(told)
    assert all(KNOWLEDGE.crops[crop].name.lower() in line for crop in KNOWLEDGE.causes["cucumber_mosaic_virus"].common)


def test_a_name_that_says_what_it_is_does_not_say_it_twice() -> None:
    named = [cause.id for cause in KNOWLEDGE.causes.values() if cause.name.endswith("(virus)")]
    assert named and all("(virus) (virus)" not in shown(KNOWLEDGE, key)[0] for key in named)


@pytest.mark.parametrize("crop", sorted(KNOWLEDGE.crops))
def test_a_crop_says_its_days_and_its_stages(crop: str) -> None:
    known = KNOWLEDGE.crops[crop]
    line = next(line for line in shown(KNOWLEDGE, crop) if line.startswith("Days from "))
    assert f"{known.days_to_maturity_d[0]:g} to {known.days_to_maturity_d[1]:g}" in line
    assert all(f"from day {stage.from_day} {stage.name.lower()}" in line for stage in known.stages)


def test_the_warmth_in_which_tomato_flowers_fail_is_told_both_ways() -> None:
    # University of Maryland, Weekly Crop Update 6081: over 90 °F by day, 72 °F by night.
    line = next(line for line in shown(KNOWLEDGE, "tomato") if line.startswith("Flowers fail"))
    assert "days over 32 °C (90 °F)" in line and "nights over 22 °C (72 °F)" in line
