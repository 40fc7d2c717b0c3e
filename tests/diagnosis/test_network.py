"""The exact posterior, held against enumeration and against published and printed networks."""

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scout.diagnosis.network import solve


def enumerate_all(prior, strength, leak, positive, negative):
    """Brute force over every combination of causes: the oracle."""
    n = len(prior)
    evidence, joint = 0.0, np.zeros(n)
    for present in itertools.product((0, 1), repeat=n):
        present = np.array(present, dtype=bool)
        absent = (1 - leak) * np.prod(np.where(present[:, None], 1 - strength, 1.0), axis=0)
        p = np.prod(np.where(present, prior, 1 - prior))
        p *= np.prod(1 - absent[positive]) * np.prod(absent[negative])
        evidence += p
        joint += p * present
    return evidence, joint / evidence


def solve_one(prior, strength, leak, positive, negative):
    keep = np.prod(1 - strength[:, negative], axis=1)
    solved = solve(
        prior[None], keep[None], strength[:, positive], leak[positive], np.ones((1, len(positive)), dtype=bool)
    )
    return float(solved.evidence[0] * np.prod(1 - leak[negative])), solved.marginals[0]


# Three causes, four findings: inputs constructed, answers by exact enumeration.
# The alternating sum of Heckerman 1989, "A tractable inference algorithm for diagnosing multiple diseases", agrees.
PRIOR = np.array([0.20, 0.15, 0.30])
LEAK = np.array([0.02, 0.01, 0.01, 0.05])
LINKS = np.array([[0.90, 0.80, 0, 0.10], [0.85, 0.05, 0.70, 0], [0.10, 0, 0, 0.75]])


@pytest.mark.parametrize(
    ("positive", "negative", "p_evidence", "expected"),
    [
        ([0], [], 0.319893230, (0.573354, 0.414080, 0.346028)),
        ([], [0], 0.680106770, (0.024390, 0.025788, 0.278351)),
        ([0, 1], [], 0.153847041, (0.958024, 0.195854, 0.302926)),
        ([0], [1], 0.166046189, (0.216945, 0.616273, 0.385963)),
        ([0, 1], [2], 0.131427371, (0.983635, 0.068091, 0.303235)),
        ([0, 1, 2, 3], [], 0.007263955, (0.841956, 0.942189, 0.726436)),
        ([3], [], 0.278475000, (0.242302, 0.150000, 0.826555)),
        ([3], [0, 1, 2], 0.159544111, (0.006471, 0.007488, 0.853543)),
        ([], [0, 1, 2, 3], 0.481971524, (0.004480, 0.007488, 0.087948)),
    ],
)
def test_the_worked_network_comes_out_as_enumerated(positive, negative, p_evidence, expected):
    evidence, marginals = solve_one(PRIOR, LINKS, LEAK, positive, negative)
    assert evidence == pytest.approx(p_evidence, abs=5e-10)
    assert marginals == pytest.approx(expected, abs=5e-7)


def test_four_causes_six_findings_come_out_as_exact_fractions():
    # Constructed inputs, exact fractions over all 16 combinations.
    prior = np.array([0.20, 0.15, 0.30, 0.05])
    leak = np.array([0.02, 0.01, 0.01, 0.05, 0.03, 0.04])
    links = np.array(
        [
            [0.90, 0.80, 0, 0.10, 0.40, 0],
            [0.85, 0.05, 0.70, 0, 0.35, 0],
            [0.10, 0, 0, 0.75, 0.20, 0.30],
            [0.25, 0, 0.02, 0.40, 0.60, 0.80],
        ]
    )
    evidence, marginals = solve_one(prior, links, leak, [0, 1, 3], [2, 4])
    assert evidence == pytest.approx(10821072677043174876439263 / 5e26, rel=1e-13)
    exact = (
        368517327049018136407 / 375614310703015546407,
        5928555518585155469 / 125204770234338515469,
        34676155197202015651 / 53659187243287935201,
        6302568545710113103 / 160977561729863805603,
    )
    assert marginals == pytest.approx(exact, abs=1e-13)


def random_network(seed, causes, findings):
    rng = np.random.default_rng(seed)
    strength = rng.uniform(0.05, 0.95, (causes, findings)) * (rng.random((causes, findings)) < 0.5)
    return rng.uniform(0.002, 0.3, causes), strength, rng.uniform(0.0005, 0.05, findings)


@settings(max_examples=30, deadline=None)
@given(seed=st.integers(0, 10_000), causes=st.integers(1, 7), findings=st.integers(1, 8), split=st.integers(0, 8))
def test_it_equals_brute_force_on_random_networks(seed, causes, findings, split):
    prior, strength, leak = random_network(seed, causes, findings)
    positive, negative = list(range(min(split, findings))), list(range(min(split, findings), findings))
    evidence, marginals = solve_one(prior, strength, leak, positive, negative)
    expected, expected_marginals = enumerate_all(prior, strength, leak, positive, negative)
    assert evidence == pytest.approx(expected, rel=1e-9)
    assert marginals == pytest.approx(expected_marginals, abs=1e-9)


@pytest.mark.parametrize("positives", [10, 12, 14, 16])
def test_many_badly_explained_findings_stay_exact(positives):
    # Weak links and tiny leaks: the alternating sum loses all digits here.
    rng = np.random.default_rng(positives)
    causes = 9
    strength = rng.uniform(0.01, 0.12, (causes, positives)) * (rng.random((causes, positives)) < 0.6)
    prior, leak = rng.uniform(0.001, 0.05, causes), rng.uniform(0.0005, 0.005, positives)
    evidence, marginals = solve_one(prior, strength, leak, list(range(positives)), [])
    expected, expected_marginals = enumerate_all(prior, strength, leak, list(range(positives)), [])
    assert evidence == pytest.approx(expected, rel=1e-9)
    assert marginals == pytest.approx(expected_marginals, abs=1e-9)


def test_variants_solved_together_equal_variants_solved_alone():
    prior, strength, leak = random_network(3, 6, 5)
    required = np.array([[True] * 5, [True, False, True, True, True], [False] * 5])
    priors = np.stack([prior, prior * 0.5, prior])
    keep = np.ones_like(priors)
    together = solve(priors, keep, strength, leak, required)
    for v in range(3):
        alone = solve(priors[v : v + 1], keep[:1], strength, leak, required[v : v + 1])
        assert together.marginals[v] == pytest.approx(alone.marginals[0], abs=1e-14)
    assert together.evidence[2] == pytest.approx(1.0)
    assert together.marginals[2] == pytest.approx(prior)


def test_a_finding_left_out_equals_a_network_without_it():
    prior, strength, leak = random_network(8, 6, 4)
    required = np.array([[True, True, False, True]])
    solved = solve(prior[None], np.ones((1, 6)), strength, leak, required)
    _, expected = enumerate_all(prior, strength, leak, [0, 1, 3], [])
    assert solved.marginals[0] == pytest.approx(expected, abs=1e-12)


def test_adding_an_unrelated_cause_changes_nothing_else():
    prior, strength, leak = random_network(11, 5, 4)
    _, before = solve_one(prior, strength, leak, [0, 1], [2])
    more = np.vstack([strength, np.zeros(4)])
    _, after = solve_one(np.append(prior, 0.2), more, leak, [0, 1], [2])
    assert after[:5] == pytest.approx(before, abs=1e-12)
    assert after[5] == pytest.approx(0.2)


def test_shapes_that_do_not_fit_are_refused():
    with pytest.raises(ValueError, match="do not fit"):
        solve(np.ones((1, 2)), np.ones((1, 3)), np.ones((2, 1)), np.ones(1), np.ones((1, 1), dtype=bool))


@pytest.mark.parametrize("findings", [7, 9, 11])
def test_findings_that_take_over_the_places_of_others_stay_exact(findings):
    """A chain, in which each cause links two neighbours; a web, in which the places run out and come free again."""
    rng = np.random.default_rng(findings)
    chain = np.zeros((findings + 1, findings))
    for cause in range(findings - 1):
        chain[cause, cause : cause + 2] = rng.uniform(0.1, 0.9, 2)
    chain[findings - 1, 0], chain[findings, findings // 2] = 0.7, 0.4
    web = rng.uniform(0.1, 0.9, chain.shape) * (rng.random(chain.shape) < 0.35)
    for links in (chain, web):
        prior, leak = rng.uniform(0.01, 0.3, len(links)), rng.uniform(0.001, 0.05, findings)
        found = list(range(findings))
        evidence, marginals = solve_one(prior, links, leak, found, [])
        expected, expected_marginals = enumerate_all(prior, links, leak, found, [])
        assert evidence == pytest.approx(expected, rel=1e-12)
        assert marginals == pytest.approx(expected_marginals, abs=1e-12)


def test_a_cause_that_is_certain_and_a_link_that_never_fails_are_summed_like_any_other():
    prior, strength, leak = random_network(5, 6, 4)
    prior[:2], strength[0, 1], strength[1] = 1.0, 1.0, (0.0, 1.0, 0.0, 0.0)
    evidence, marginals = solve_one(prior, strength, leak, [0, 1, 2, 3], [])
    expected, expected_marginals = enumerate_all(prior, strength, leak, [0, 1, 2, 3], [])
    assert evidence == pytest.approx(expected, rel=1e-12)
    assert marginals == pytest.approx(expected_marginals, abs=1e-12)
