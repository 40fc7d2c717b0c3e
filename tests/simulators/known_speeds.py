"""Seasons whose speeds are known because they were chosen: growth by steady leaves, spots in jumps after wet nights.

Simpler than the layered plants and with another idea of truth: the planting's own speeds, drawn once. Spots climb
only after wet spells that all plants share; a jump is one leaf or several. They stop at the tip.
"""

import numpy as np

from .layered_plants import Followed, Row, Season, drawn_season

FOLLOWED_D = 42
TIP_N = 2.0


def follow_known(season: Season, rng: np.random.Generator) -> Followed:
    """Return what was counted on plants whose spots and leaves climb at speeds drawn beforehand."""
    front_per_d = rng.uniform(0.02, 0.6)
    top = rng.uniform(12.0, 18.0, season.plants_n)
    front = rng.integers(1, 7, season.plants_n).astype(float)
    pace = season.growth_per_d * np.exp(rng.normal(0.0, 0.1, season.plants_n))
    own = front_per_d * np.exp(rng.normal(0.0, 0.15, season.plants_n))
    jump, spell = rng.uniform(1.0, 2.0), rng.uniform(0.2, 0.8)
    rows: list[Row] = []
    seen, due, next_visit = front.copy(), np.zeros(season.plants_n), 0
    strip = np.zeros(season.plants_n)
    for day in range(FOLLOWED_D + 1):
        if day == next_visit:
            rows += _rows(season, rng, day, (top, front, strip, front - seen))
            seen, next_visit = front.copy(), day + season.spacing_d
        top += pace * rng.uniform(0.7, 1.3, season.plants_n)
        wet = rng.random() < spell
        due = own / spell / jump if wet else np.zeros(season.plants_n)
        sizes = np.maximum(1.0, np.round(rng.exponential(jump, (season.plants_n, 8))))
        taken = np.arange(8) < rng.poisson(due)[:, None]
        front = np.minimum(front + (sizes * taken).sum(axis=1) * jump / _mean_jump(jump), np.floor(top))
    lost = bool((np.floor(top) - front).mean() <= TIP_N)
    return Followed(season, tuple(rows), front_per_d - season.growth_per_d, lost)


def _mean_jump(scale: float) -> float:
    """Return the mean of max(1, an exponential rounded to whole leaves), summed."""
    sizes = np.arange(1, 60)
    chance = np.exp(-(sizes - 0.5) / scale) - np.exp(-(sizes + 0.5) / scale)
    return float((sizes * chance).sum() + 1.0 - np.exp(-0.5 / scale))


def _rows(season: Season, rng: np.random.Generator, day: int, state: tuple[np.ndarray, ...]) -> list[Row]:
    rows = []
    odds = (season.miscount, 1.0 - 2.0 * season.miscount, season.miscount)
    for n, (top, front, strip, new) in enumerate(zip(*state, strict=True)):
        tops = int(top) + int(rng.choice((-1, 0, 1), p=odds))
        high = max(1, min(tops, int(front) + int(rng.choice((-1, 0, 1), p=odds))))
        strip = max(strip, min(front, strip + 2)) if season.strips else strip
        state[2][n] = strip
        rows.append(Row(f"P{n + 1}", day, tops, high, min(int(strip), tops), int(new), int(top - strip), 0))
    return rows


def known_season(seed: int, spacing_d: int, plants_n: int) -> Followed:
    """Return one season of known speeds."""
    rng = np.random.default_rng([seed, 2])
    return follow_known(drawn_season(rng, spacing_d, plants_n), rng)
