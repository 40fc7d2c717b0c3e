"""Ranking, the next observation, plain words and the knowledge itself, warm, on the crop with the most causes."""

import time

import numpy as np
import pytest

from scout import paths
from scout.diagnosis.evidence import Count, Evidence
from scout.diagnosis.model import build_model
from scout.diagnosis.network import solve
from scout.diagnosis.next_look import next_looks
from scout.diagnosis.rank import rank
from scout.diagnosis.words import match_words
from scout.knowledge.load import load_knowledge

from .conftest import Times

CROP = "cucumber"


def evidence(knowledge, seen_n: int, not_seen_n: int) -> Evidence:
    """The symptoms most causes show, seen; the ones after them, not seen."""
    links = [clue.symptom for cause in knowledge.causes_of(CROP) for clue in cause.clues if clue.symptom]
    known = {symptom.id for symptom in knowledge.symptoms_of(CROP)} - {"fruit.bitter_taste"}
    order = sorted(known, key=lambda symptom: (-links.count(symptom), symptom))
    seen, not_seen = order[:seen_n], order[seen_n : seen_n + not_seen_n]
    assert len(not_seen) == not_seen_n
    return Evidence(
        crop=CROP,
        stage="fruiting",
        seen={s: Count(8, 3) for s in seen},
        not_seen={s: Count(8) for s in not_seen},
    )


BUDGETS = pytest.mark.parametrize(("seen", "not_seen", "most_ms"), [(8, 12, 10.0), (16, 12, 250.0)])


@BUDGETS
def test_all_causes_are_ranked_with_their_reasons(benchmark, knowledge, tell, seen, not_seen, most_ms) -> None:
    """What a page shows: chances, what each clue did, pairs, findings nothing explains."""
    ranking = benchmark(rank, knowledge, evidence(knowledge, seen, not_seen))
    took = 1000 * benchmark.stats.stats.median
    tell(causes=len(ranking.causes), median_ms=took, most_ms=most_ms)
    assert took <= most_ms


@BUDGETS
def test_the_chances_of_all_causes_alone(benchmark, knowledge, tell, seen, not_seen, most_ms) -> None:
    """The same evidence without the reasons: the network is built and solved once."""
    case = evidence(knowledge, seen, not_seen)

    def chances():
        model = build_model(knowledge, case)
        required = np.ones((1, len(model.positive)), dtype=bool)
        keep = model.miss.prod(axis=1)[None]
        return solve(model.prior()[None], keep, model.strength, model.leak, required).marginals

    assert np.isfinite(benchmark(chances)).all()
    took = 1000 * benchmark.stats.stats.median
    tell(median_ms=took, most_ms=most_ms)
    assert took <= most_ms


def enumerated(prior, strength, leak, seen_n):
    """Every one of the 2^n sets of causes at once: the plain way, vectorised. The first `seen_n` findings are seen."""
    causes = len(prior)
    present = (np.arange(1 << causes)[:, None] >> np.arange(causes)) & 1
    weight = np.where(present, prior, 1.0 - prior).prod(axis=1)
    absent = np.where(present[:, :, None], 1.0 - strength, 1.0).prod(axis=1) * (1.0 - leak)
    joint = weight * (1.0 - absent[:, :seen_n]).prod(axis=1) * absent[:, seen_n:].prod(axis=1)
    return present.T @ joint / joint.sum()


def test_exact_and_a_hundred_times_faster_than_trying_every_set_of_fifteen_causes(benchmark, tell) -> None:
    """Fifteen causes, eight findings seen and twelve not; each cause shows two in five of them."""
    dice = np.random.default_rng(20260722)
    prior, leak = dice.uniform(0.01, 0.2, 15), dice.uniform(0.001, 0.05, 20)
    strength = dice.uniform(0.1, 0.9, (15, 20)) * (dice.random((15, 20)) < 0.4)
    required = np.ones((1, 8), dtype=bool)

    def solved():
        keep = (1.0 - strength[:, 8:]).prod(axis=1)
        return solve(prior[None], keep[None], strength[:, :8], leak[:8], required).marginals[0]

    found = benchmark(solved)
    slow = []
    for _ in range(7):
        began = time.perf_counter()
        expected = enumerated(prior, strength, leak, 8)
        slow.append(time.perf_counter() - began)
    assert np.allclose(found, expected, atol=1e-9)
    took = 1000 * benchmark.stats.stats.median
    ratio = Times(slow).median_ms / took
    tell(solve_ms=took, enumeration_ms=Times(slow).median_ms, times_faster=ratio)
    assert ratio >= 100


def test_the_next_observation(benchmark, knowledge, tell) -> None:
    case = evidence(knowledge, 8, 12)
    assert benchmark(next_looks, knowledge, case)
    took = 1000 * benchmark.stats.stats.median
    tell(median_ms=took)
    assert took <= 60


def test_plain_words(benchmark, knowledge, tell) -> None:
    said = "yelow leafs at botom with dark rings, no spots on the fruit and the vines go limp at noon"
    assert benchmark(match_words, knowledge, CROP, said)
    took = 1000 * benchmark.stats.stats.median
    tell(median_ms=took)
    assert took <= 15


def test_the_knowledge_is_loaded_from_its_compiled_copy(benchmark, tmp_path, tell) -> None:
    load_knowledge(paths.knowledge_folder(), tmp_path)
    benchmark.pedantic(load_knowledge, args=(paths.knowledge_folder(), tmp_path), rounds=9)
    took = 1000 * benchmark.stats.stats.median
    tell(median_ms=took)
    assert took <= 60
