"""Seasons of marked tomato plants with known truth: layered leaves, a splash-borne leaf spot, and a grower who strips.

Written from the biology alone; the estimator is not imported here and nothing of it was used. Figures of the biology
are named beside them; the spread of seasons is our own choice, wide enough to hold winning and losing gardens.

Truth: a bed of many plants lives until the disease is there; two or three of the spotted plants are marked by lot. From
that day copies of the bed live on under weather and luck of their own, with the same grower. The truth is the mean over
copies and over all plants that had a spot that day of (climb of the highest leaf that ever was spotted - growth) per
day, without miscounts, to the end of the season: what is to be expected of the season ahead. A bed whose copies end
with at most three clean leaves on average is lost to the tip: its truth is "losing" whatever the difference, which
then is squeezed towards nought.
"""

from copy import deepcopy
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
LEAVES_N = 64
BED_N = 24
COPIES_N = 4
BEFORE_D = 40
"""Plants are marked when every second plant has a spot, or after so many days."""
FOLLOWED_D = 42
TIP_N = 3.0
"""The youngest leaves have no spot yet: they opened within the incubation period."""


@dataclass(frozen=True, slots=True)
class Season:
    """One season's figures."""

    growth_per_d: float
    """0.15 to 0.5: up to about 3 leaves a week at best (growers' figure), slower in heat."""
    wet_start: float
    wet_stay: float
    """Chance of a wet night after a dry and after a wet one: wet spells."""
    contagion: float
    reach_n: float
    """Leaves over which splash falls to a third; ladder effect, Bahat et al. 1994."""
    incubation_d: float
    latent_d: float
    """Septoria 6 and 14 days at 15-27 °C; early blight 2-7 and 3-9 (institute pages)."""
    background: float
    """Infections of the lowest leaves from soil on a wet night."""
    strips: bool
    most_stripped_n: int
    """Leaves the grower takes a visit."""
    spacing_d: int
    plants_n: int
    miscount: float
    """Chance of a count one too high, and of one too low."""


@dataclass(frozen=True, slots=True)
class Row:
    """One plant on one day as the grower wrote it."""

    plant: str
    day: int
    top_leaf: int
    highest_diseased: int
    stripped_to: int
    newly_diseased: int
    leaves_standing: int
    wet_h: int


@dataclass(frozen=True, slots=True)
class Followed:
    """What was counted in a season, and what was true."""

    season: Season
    rows: tuple[Row, ...]
    truth_per_d: float
    to_the_tip: bool

    @property
    def losing(self) -> bool:
        return self.to_the_tip or self.truth_per_d > 0.0


def drawn_season(rng: np.random.Generator, spacing_d: int, plants_n: int) -> Season:
    septoria = rng.random() < 0.5
    incubation = 6.0 if septoria else rng.uniform(3.0, 7.0)
    return Season(
        growth_per_d=rng.uniform(0.15, 0.5),
        wet_start=rng.uniform(0.1, 0.5),
        wet_stay=rng.uniform(0.4, 0.8),
        contagion=float(np.exp(rng.normal(-1.6, 1.2))),
        reach_n=rng.uniform(1.5, 4.0),
        incubation_d=incubation,
        latent_d=incubation + (8.0 if septoria else rng.uniform(1.0, 4.0)),
        background=rng.uniform(0.02, 0.15),
        strips=rng.random() < 0.85,
        most_stripped_n=int(rng.integers(2, 4)),
        spacing_d=spacing_d,
        plants_n=plants_n,
        miscount=rng.uniform(0.1, 0.33),
    )


class _Bed:
    """All plants of a bed, day by day; arrays are plants x leaves."""

    def __init__(self, season: Season, rng: np.random.Generator) -> None:
        self.s, self.rng = season, rng
        shape = (BED_N,)
        self.height = 9.0 + rng.uniform(0.0, 3.0, shape)
        self.pace = season.growth_per_d * np.exp(rng.normal(0.0, 0.12, shape))
        self.prone = np.exp(rng.normal(0.0, 0.25, shape))
        self.wet = bool(rng.random() < 0.3)
        self.spotted_on = np.full((*shape, LEAVES_N), np.inf)
        self.spores_on = np.full((*shape, LEAVES_N), np.inf)
        self.gone = np.zeros((*shape, LEAVES_N), dtype=bool)
        self.stripped_to = np.zeros(shape, dtype=int)
        leaf = np.arange(LEAVES_N)
        self.near = np.exp(-np.abs(leaf[:, None] - leaf[None, :]) / season.reach_n)
        self.low = np.exp(-leaf / 2.0)

    @property
    def top(self) -> NDArray[np.int64]:
        return np.minimum(self.height.astype(int), LEAVES_N)

    def live(self, day: int) -> None:
        """Let a day and its night pass: leaves open, and on a wet night spores splash and infect."""
        rng, s = self.rng, self.s
        self.height += self.pace * rng.uniform(0.6, 1.4)
        self.wet = bool(rng.random() < (s.wet_stay if self.wet else s.wet_start))
        length = self.wet * rng.gamma(4.0, 0.25)
        sources = ((self.spores_on <= day) & ~self.gone).astype(float)
        on_plant = sources @ self.near
        from_bed = on_plant.mean(axis=0, keepdims=True)
        load = s.contagion * (0.8 * on_plant + 0.2 * from_bed) + s.background * self.low
        leaf = np.arange(LEAVES_N)
        ripe = np.clip((self.height[:, None] - 1.0 - leaf) / 4.0, 0.0, 1.0)  # leaves just opened seldom take
        chance = 1.0 - np.exp(-load * ripe * self.prone[:, None] * length)
        caught = (rng.random(chance.shape) < chance) & np.isinf(self.spotted_on) & ~self.gone
        caught &= leaf < self.top[:, None]
        lag = rng.gamma(16.0, 1.0 / 16.0, chance.shape)
        self.spotted_on[caught] = (day + s.incubation_d * lag)[caught]
        self.spores_on[caught] = (day + s.latent_d * lag)[caught]

    def ever(self, day: int) -> NDArray[np.int64]:
        """Height of the highest leaf that ever was spotted, taken off since or not; 0: none."""
        spotted = self.spotted_on <= day
        return _highest(spotted)

    def standing(self, day: int) -> NDArray[np.bool_]:
        return ~self.gone & (np.arange(LEAVES_N) < self.top[:, None])

    def strip(self, day: int) -> None:
        """Take spotted leaves from below, a few a visit, never past a third of those standing; dry mornings only."""
        if not self.s.strips:
            return
        standing = self.standing(day)
        spotted = (self.spotted_on <= day) & standing
        allowed = np.minimum(self.s.most_stripped_n, standing.sum(axis=1) // 3) * (not self.wet)
        take = spotted & (np.cumsum(spotted, axis=1) <= allowed[:, None])
        self.gone |= take
        self.stripped_to = np.maximum(self.stripped_to, _highest(take))


def _highest(leaves: NDArray[np.bool_]) -> NDArray[np.int64]:
    """Return the highest true leaf of each plant, counted from 1; 0: none."""
    return np.where(leaves.any(axis=1), LEAVES_N - np.argmax(leaves[:, ::-1], axis=1), 0)


def follow(season: Season, rng: np.random.Generator) -> Followed:
    """Return what the grower counted on the marked plants, and the truth from the whole bed."""
    bed = _Bed(season, rng)
    for day in range(-BEFORE_D, 0):
        bed.live(day)
        if (bed.ever(day) > 0).mean() >= 0.5:
            return _followed(bed, day)
    return _followed(bed, -1)


def _followed(bed: _Bed, before: int) -> Followed:
    marked_on = before + 1
    spotted = np.flatnonzero(bed.ever(marked_on) > 0)
    among = spotted if len(spotted) >= bed.s.plants_n else np.arange(BED_N)
    marked = bed.rng.permutation(among)[: bed.s.plants_n]
    start = (bed.ever(marked_on) - bed.top)[among]
    copies = [deepcopy(bed) for _ in range(COPIES_N)]
    rows = _season(bed, marked_on, marked)
    ends = []
    for copy, rng in zip(copies, bed.rng.spawn(COPIES_N), strict=True):
        copy.rng = rng
        _season(copy, marked_on, marked)
        ends.append((copy.ever(marked_on + FOLLOWED_D) - copy.top)[among])
    moved = (np.mean(ends, axis=0) - start) / FOLLOWED_D
    return Followed(bed.s, rows, float(moved.mean()), bool(-np.mean(ends) <= TIP_N))


def _season(bed: _Bed, marked_on: int, marked: NDArray[np.int64]) -> tuple[Row, ...]:
    """Let the bed live from marking to the end, visited and stripped; return what was counted."""
    visits = _visit_days(bed.s, bed.rng)
    rows: list[Row] = []
    wet_h, seen = 0, marked_on
    for passed in range(FOLLOWED_D + 1):
        day = marked_on + passed
        if passed in visits:
            found = _counted(bed, day, marked)
            fresh = ((bed.spotted_on <= day) & (bed.spotted_on > seen)).sum(axis=1)[marked]
            seen = day
            bed.strip(day)
            rows += _rows(bed, passed, day, marked, found, fresh, wet_h)
            wet_h = 0
        if passed < FOLLOWED_D:
            bed.live(day)
            wet_h += 9 * int(bed.wet)
    return tuple(rows)


def _visit_days(season: Season, rng: np.random.Generator) -> set[int]:
    days, day = {0}, 0
    while (day := day + max(2, season.spacing_d + int(rng.integers(-1, 2)))) <= FOLLOWED_D:
        days.add(day)
    return days


def _counted(bed: _Bed, day: int, marked: NDArray[np.int64]) -> tuple[list[int], list[int]]:
    highest = _highest((bed.spotted_on <= day) & bed.standing(day))[marked]
    tops = [_off(int(t), bed.s.miscount, bed.rng) for t in bed.top[marked]]
    return tops, [min(t, _off(int(h), bed.s.miscount, bed.rng)) for t, h in zip(tops, highest, strict=True)]


def _off(true: int, miscount: float, rng: np.random.Generator) -> int:
    """A count one off now and then; nobody counts none as one."""
    if true == 0:
        return 0
    return max(1, true + int(rng.choice((-1, 0, 1), p=(miscount, 1.0 - 2.0 * miscount, miscount))))


def _rows(
    bed: _Bed,
    passed: int,
    day: int,
    marked: NDArray[np.int64],
    found: tuple[list[int], list[int]],
    fresh: NDArray[np.int64],
    wet_h: int,
) -> list[Row]:
    left, strip = bed.standing(day).sum(axis=1)[marked], bed.stripped_to[marked]
    return [
        Row(f"P{n + 1}", passed, top, high, int(min(strip[n], top)), int(fresh[n]), int(left[n]), wet_h)
        for n, (top, high) in enumerate(zip(*found, strict=True))
    ]


def layered_season(seed: int, spacing_d: int, plants_n: int) -> Followed:
    """Return one season of layered plants."""
    rng = np.random.default_rng([seed, 1])
    return follow(drawn_season(rng, spacing_d, plants_n), rng)
