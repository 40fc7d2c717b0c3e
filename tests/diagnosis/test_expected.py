"""The chance of a sign before anybody has looked, against the definition and against many made-up beds."""

import numpy as np
import pytest

from scout.diagnosis.crop_net import crop_net
from scout.diagnosis.evidence import Evidence
from scout.diagnosis.expected import signs_expected
from scout.diagnosis.model import build_model

from ..shipped import shipped_knowledge

KNOWLEDGE = shipped_knowledge()
FRUITING = Evidence(crop="tomato", stage="fruiting")


def test_every_sign_of_the_crop_stands_once_the_likeliest_first() -> None:
    told = signs_expected(KNOWLEDGE, FRUITING)
    assert {sign.id for sign, _ in told} == set(crop_net(KNOWLEDGE, "tomato").column)
    chances = [chance for _, chance in told]
    assert chances == sorted(chances, reverse=True) and 0.0 < chances[-1] <= chances[0] < 1.0


def test_the_chance_is_the_share_of_beds_drawn_from_the_same_network_that_show_it() -> None:
    # Monte Carlo of the definition: causes drawn by their chance, each shows its signs, a sign may come by itself.
    dice = np.random.default_rng(20261126)
    net = crop_net(KNOWLEDGE, "tomato")
    prior = build_model(KNOWLEDGE, FRUITING).prior()
    beds_n = 20_000
    at_work = dice.random((beds_n, len(prior))) < prior
    for sign, chance in signs_expected(KNOWLEDGE, FRUITING)[:3]:
        column = net.column[sign.id]
        shows = (at_work & (dice.random(at_work.shape) < net.strength[:, column])).any(axis=1)
        shows |= dice.random(beds_n) < net.leak[column]
        assert chance == pytest.approx(shows.mean(), abs=4 * (0.25 / beds_n) ** 0.5)


def test_flowers_that_drop_are_likelier_once_there_are_flowers() -> None:
    def chance(stage: str) -> float:
        told = signs_expected(KNOWLEDGE, Evidence(crop="tomato", stage=stage))
        return next(chance for sign, chance in told if sign.id == "flower.drop_many")

    assert chance("fruiting") > chance("leafy")
