"""The exact posterior against a general library of Bayesian networks (pgmpy), on nets of few parents a finding."""

import itertools
import warnings

import numpy as np
import pytest

from scout.diagnosis.network import solve

pytestmark = pytest.mark.oracle


def by_library(models, factors, inference, prior, strength, leak, positive, negative):
    """Return the marginals that variable elimination gives for the same noisy-OR network."""
    causes, findings = strength.shape
    edges = [(f"c{i}", f"f{j}") for i in range(causes) for j in range(findings) if strength[i, j] > 0]
    net = models.DiscreteBayesianNetwork(edges)
    net.add_nodes_from([f"c{i}" for i in range(causes)] + [f"f{j}" for j in range(findings)])
    tables = [factors.TabularCPD(f"c{i}", 2, [[1 - prior[i]], [prior[i]]]) for i in range(causes)]
    for j in range(findings):
        parents = [i for i in range(causes) if strength[i, j] > 0]
        absent = [
            (1 - leak[j]) * np.prod([1 - strength[i, j] for i, on in zip(parents, state, strict=True) if on])
            for state in itertools.product((0, 1), repeat=len(parents))
        ]
        rows = [absent, [1 - p for p in absent]]
        tables.append(factors.TabularCPD(f"f{j}", 2, rows, [f"c{i}" for i in parents], [2] * len(parents)))
    net.add_cpds(*tables)
    evidence = {f"f{j}": 1 for j in positive} | {f"f{j}": 0 for j in negative}
    asked = inference.VariableElimination(net)
    return [float(asked.query([f"c{i}"], evidence, show_progress=False).values[1]) for i in range(causes)]


@pytest.mark.parametrize("seed", range(4))
def test_it_equals_variable_elimination(require_or_skip, seed) -> None:
    models = require_or_skip("oracle", "pgmpy.models")
    factors = require_or_skip("oracle", "pgmpy.factors.discrete")
    inference = require_or_skip("oracle", "pgmpy.inference")
    rng = np.random.default_rng(seed)
    strength = rng.uniform(0.05, 0.95, (6, 5)) * (rng.random((6, 5)) < 0.6)
    prior, leak = rng.uniform(0.01, 0.3, 6), rng.uniform(0.001, 0.05, 5)
    positive, negative = [0, 1, 2], [3]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        expected = by_library(models, factors, inference, prior, strength, leak, positive, negative)
    keep = np.prod(1 - strength[:, negative], axis=1)
    required = np.ones((1, 3), dtype=bool)
    solved = solve(prior[None], keep[None], strength[:, positive], leak[positive], required)
    assert solved.marginals[0] == pytest.approx(expected, abs=1e-9)
