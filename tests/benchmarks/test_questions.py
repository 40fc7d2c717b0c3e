"""Questions until the true cause stands at 80 %, against plainer ways of asking, on made-up patients of every crop.

Run: pytest -n0 -s --benchmark-only tests/benchmarks/test_questions.py
"""

from ..simulators.questions import compare

CASES_N, SEED = 1000, 20261125
AGAINST_PLAIN, AGAINST_RANDOM = 0.75, 0.50


def test_fewer_questions_than_plainer_ways(benchmark, knowledge, tell) -> None:
    found = benchmark.pedantic(compare, args=(knowledge, tuple(knowledge.crops), CASES_N, SEED), rounds=1)
    tell(
        told_frac=found.told_n / found.drawn_n,
        ours=found.ours_mean,
        against_plain=found.ours_mean / found.plain_mean,
        against_random=found.ours_mean / found.random_mean,
    )
    assert found.ours_mean <= AGAINST_PLAIN * found.plain_mean
    assert found.ours_mean <= AGAINST_RANDOM * found.random_mean
