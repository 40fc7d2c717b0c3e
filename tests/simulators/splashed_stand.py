"""Stands of tomatoes splashed by rain, counted by an unsteady hand: unlike the other simulators in kind.

Leaves hang at heights in centimetres; lesions, not leaves, are what the disease counts in; they ripen by warmth. The
grower comes when there is time, overlooks leaves with few spots, leaves cells empty, and a plant may be topped or lost.
Written before the estimator was looked into; the truth is what the marked plants themselves did, to the last visit.

Sources (M = from memory; all else is our choice, fixed by what the stands did before any verdict was asked for):
splash from a wetted source falls off exponentially, half of it within 5-15 cm (Fitt, McCartney & Walklate 1989, M);
older leaves take early blight sooner than young ones (Rotem 1994, The genus Alternaria, M); Septoria takes any age;
Septoria shows in 6 d and spores in 14 d at 15-27 C, early blight shows in 2-3 d (INRAE pages);
a strip takes 2-3 leaves a stem, a third at most, on dry leaves, eight left (common practice).
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from .layered_plants import TIP_N

Floats = npt.NDArray[np.float64]
SEED = 20261126
STAND_N, LEAVES_N = 6, 60
BEFORE_D, FOLLOWED_D = 50, 42
BASE_C = 8.0
STRIP_MOST_N, LEFT_LEAST_N, DRY_H = 3, 8, 5.0


@dataclass(frozen=True)
class Place:
    """One garden and its grower."""

    warm_c: float
    rain_start: float
    rain_stay: float
    growth_per_d: Floats
    gap_cm: Floats
    splash_cm: float
    soil: float
    drift: float  # share of spores that come by air to any height
    contagion: float
    shows_dd: float
    spores_dd: float
    old_first: float
    """0: leaves of any age take it alike; 1: only old ones."""
    style: str
    sharp: float  # chance that one spot on a leaf is noticed
    miscount: float
    rounds: bool
    empty: float


@dataclass(frozen=True)
class Written:
    """One plant on one day as the grower wrote it; None is an empty cell."""

    plant: str
    day: int
    top_leaf: int | None
    highest_diseased: int | None
    stripped_to: int | None
    newly_diseased: int | None
    leaves_standing: int | None
    wet_h: int


@dataclass(frozen=True)
class StandSeason:
    """What was written in a season, and what was true."""

    rows: tuple[Written, ...]
    truth_per_d: float
    to_the_tip: bool

    @property
    def losing(self) -> bool:
        return self.to_the_tip or self.truth_per_d > 0.0


def drawn_place(rng: np.random.Generator) -> Place:
    septoria = rng.random() < 0.5
    shows = 6.0 if septoria else rng.uniform(2.5, 5.0)
    lag = 8.0 if septoria else rng.uniform(1.0, 4.0)
    return Place(
        warm_c=rng.uniform(20.0, 28.0),
        rain_start=rng.uniform(0.12, 0.45),
        rain_stay=rng.uniform(0.3, 0.7),
        growth_per_d=rng.uniform(0.18, 0.45) * np.exp(rng.normal(0.0, 0.15, STAND_N)),
        gap_cm=rng.uniform(4.0, 7.0) * np.exp(rng.normal(0.0, 0.1, STAND_N)),
        splash_cm=rng.uniform(8.0, 25.0),
        soil=rng.uniform(0.05, 0.5),
        drift=rng.uniform(0.0, 0.01),
        contagion=float(np.exp(rng.normal(-0.6, 1.1))),
        shows_dd=shows * 15.0,
        spores_dd=(shows + lag) * 15.0,
        old_first=0.0 if septoria else rng.uniform(0.4, 0.9),
        style=str(rng.choice(("low", "spotted", "none"), p=(0.6, 0.25, 0.15))),
        sharp=rng.uniform(0.7, 0.98),
        miscount=rng.uniform(0.05, 0.3),
        rounds=bool(rng.random() < 0.12),
        empty=rng.uniform(0.0, 0.08),
    )


class Stand:
    """Plants of one bed, day by day; arrays are plants x leaves, leaf 1 first."""

    def __init__(self, place: Place, rng: np.random.Generator) -> None:
        self.p, self.rng, self.day = place, rng, 0
        self.leaves: Floats = rng.uniform(5.0, 8.0, STAND_N)
        self.stops_on = np.full(STAND_N, 999)
        self.born_d = np.where(np.arange(LEAVES_N) < self.leaves[:, None], 0.0, 999.0)
        self.gone = np.zeros((STAND_N, LEAVES_N), dtype=bool)
        self.lesions: list[Floats] = [np.zeros((STAND_N, LEAVES_N))]
        self.clock_dd = [0.0]
        self.swing_c, self.raining, self.wet_h = 0.0, False, 0.0
        height = np.arange(1, LEAVES_N + 1) * place.gap_cm[:, None]
        apart = height[:, :, None] - height[:, None, :]
        self.reach = np.exp(-np.where(apart > 0, apart, -apart / 2.0) / place.splash_cm)
        self.from_soil = np.exp(-height / place.splash_cm)

    @property
    def tops(self) -> npt.NDArray[np.int64]:
        return np.floor(self.leaves).astype(np.int64)

    def older_than(self, ripe_dd: float) -> Floats:
        """Return lesions on every leaf that are older than so many day-degrees."""
        at = int(np.searchsorted(self.clock_dd, self.clock_dd[-1] - ripe_dd, side="right")) - 1
        return self.lesions[at] if at >= 0 else np.zeros((STAND_N, LEAVES_N))

    def spots(self) -> Floats:
        return self.older_than(self.p.shows_dd)

    def front(self) -> npt.NDArray[np.int64]:
        """Return the highest leaf that ever had a spot, cut or not."""
        return highest(self.spots() > 0)

    def step(self) -> None:
        """Live one day: grow, rain, splash, catch."""
        p, rng = self.p, self.rng
        self.day += 1
        self.swing_c = 0.7 * self.swing_c + rng.normal(0.0, 1.8)
        warm = p.warm_c + self.swing_c
        pace = p.growth_per_d * np.clip(1.0 - abs(warm - 25.0) / 25.0, 0.2, 1.0) * rng.uniform(0.8, 1.2, STAND_N)
        self.leaves = np.minimum(self.leaves + np.where(self.day < self.stops_on, pace, 0.0), LEAVES_N - 1)
        self.born_d = np.where((np.arange(LEAVES_N) < self.tops[:, None]) & (self.born_d > 900), self.day, self.born_d)
        self.raining = bool(rng.random() < (p.rain_stay if self.raining else p.rain_start))
        rain_mm = rng.exponential(9.0) if self.raining else 0.0
        self.wet_h = rng.uniform(0.0, 6.0) + (rng.uniform(4.0, 14.0) if self.raining else 0.0)
        self.clock_dd.append(self.clock_dd[-1] + max(warm - BASE_C, 0.0))
        self.lesions.append(self.lesions[-1] + self._caught(rain_mm, warm))

    def _caught(self, rain_mm: float, warm: float) -> Floats:
        p = self.p
        takes = (1.0 - np.exp(-((self.wet_h / 9.0) ** 2))) * np.exp(-(((warm - 24.0) / 6.0) ** 2))
        ripe = np.minimum(self.older_than(p.spores_dd), 6.0) / 6.0 * ~self.gone
        splash = np.sqrt(rain_mm / 10.0)
        dose = splash * (np.einsum("phs,ps->ph", self.reach, ripe) + p.soil * self.from_soil)
        dose = dose + p.drift * ripe.sum() + 0.1 * splash * ripe.mean(axis=0)
        age = np.clip((self.day - self.born_d) / 20.0, 0.0, 1.0)
        open_ = (self.born_d <= self.day) & ~self.gone
        size = np.clip((self.day - self.born_d) / 8.0, 0.1, 1.0)
        mean = p.contagion * takes * dose * size * (1.0 - p.old_first + p.old_first * age) * open_
        return self.rng.poisson(np.minimum(mean, 50.0)).astype(np.float64)


def highest(marked: npt.NDArray[np.bool_]) -> npt.NDArray[np.int64]:
    """Return the number of the highest marked leaf of every plant, 0 for none."""
    return np.where(marked.any(axis=1), LEAVES_N - marked[:, ::-1].argmax(axis=1), 0)


def strip(stand: Stand, n: int, seen: npt.NDArray[np.bool_]) -> None:
    """Cut leaves of plant n as this grower does."""
    standing = (np.arange(LEAVES_N) < stand.tops[n]) & ~stand.gone[n]
    most = min(STRIP_MOST_N, int(standing.sum()) // 3, int(standing.sum()) - LEFT_LEAST_N)
    if stand.p.style == "none" or stand.wet_h > DRY_H or most <= 0:
        return
    cut = np.flatnonzero(standing & seen)
    if stand.p.style == "low":
        low = np.flatnonzero(standing)[:most]
        cut = low[low <= (low[seen[low]].max() if seen[low].any() else -1)]
    stand.gone[n, cut[:most]] = True


class Book:
    """What the grower writes at each visit."""

    def __init__(self, stand: Stand, rng: np.random.Generator) -> None:
        self.stand, self.rng = stand, rng
        self.known = np.zeros((STAND_N, LEAVES_N), dtype=bool)
        self.rows: list[Written] = []

    def slip(self) -> int:
        miss = self.stand.p.miscount
        return int(self.rng.choice((-1, 0, 1), p=(miss / 2, 1.0 - miss, miss / 2)))

    def visit(self, n: int, day: int, wet_h: int) -> None:
        """Look at plant n, cut, and write."""
        stand, p = self.stand, self.stand.p
        seen = (self.rng.random(LEAVES_N) < 1.0 - (1.0 - p.sharp) ** stand.spots()[n]) & ~stand.gone[n]
        new = int((seen & ~self.known[n]).sum())
        self.known[n] |= seen
        top = max(int(stand.tops[n]) + self.slip(), 1)
        top = 2 * round(top / 2) if p.rounds else top
        high = int(highest(seen[None])[0])
        front = min(max(high + self.slip(), 1), top) if high else 0
        strip(stand, n, seen)
        line = min(int(highest(stand.gone[n][None])[0]), top)
        left = max(int(stand.tops[n] - stand.gone[n].sum()) + self.slip(), 0)
        counts = (top, front, line, max(new + self.slip() if new else 0, 0), left)
        cells = [None if self.rng.random() < p.empty else count for count in counts]
        self.rows.append(Written(f"P{n + 1}", day, *cells, wet_h))


def visit_days(rng: np.random.Generator, spacing_d: int) -> list[int]:
    """Return days of visits: never quite on time, now and then one left out."""
    days = [0]
    while days[-1] < FOLLOWED_D:
        late = int(rng.integers(-1, 2)) + (spacing_d if rng.random() < 0.06 else 0)
        days.append(days[-1] + max(spacing_d + late, 2))
    return days


def stand_season(seed: int, spacing_d: int, plants_n: int) -> StandSeason:
    """Return a season of visits about every `spacing_d` days to `plants_n` marked plants."""
    rng = np.random.default_rng([SEED, seed, spacing_d, plants_n])
    stand = Stand(drawn_place(rng), rng)
    while stand.day < BEFORE_D and not (np.mean(stand.front() > 0) >= 0.6 and stand.tops.min() >= 10):
        stand.step()
    worst = int(stand.front().argmax())
    marked = [worst, *(int(n) for n in rng.permutation([n for n in range(STAND_N) if n != worst])[: plants_n - 1])]
    start, book, days = stand.day, Book(stand, rng), visit_days(rng, spacing_d)
    lost_on = np.where(rng.random(STAND_N) < 0.04, rng.integers(14, 42, STAND_N), 999)
    stand.stops_on = np.where(rng.random(STAND_N) < 0.04, start + rng.integers(7, 35, STAND_N), 999)
    clean, wet, ends = stand.tops - stand.front(), 0.0, dict.fromkeys(marked, (1, 0))
    for day in range(days[-1] + 1):
        if day:
            stand.step()
            wet += stand.wet_h
        if day not in days:
            continue
        for n in marked:
            if day < lost_on[n]:
                ends[n] = (max(day, 1), int(stand.tops[n] - stand.front()[n]))
                if day == 0 or rng.random() > stand.p.empty / 2:
                    book.visit(n, day, round(wet))
        wet = 0.0
    truth = float(np.mean([(clean[n] - left) / on for n, (on, left) in ends.items()]))
    left = float(np.mean([left for _, left in ends.values()]))
    return StandSeason(tuple(book.rows), truth, left <= TIP_N)
