"""Leaf-spot seasons on staked indeterminate tomatoes, written from the literature without sight of the estimator.

Sources (M = from memory; all else is our choice, fixed before any verdict was asked for):
leaf rate: De Koning 1994, three times the truss rate -0.2903 + 0.1454 ln T (M); about 3 leaves a week in the trade.
wet hours and warmth: four-class table of Madden, Pennypacker & MacNab 1978, Phytopathology 68:1354 (M).
Septoria: spots after 6 d, spores after 14 d at 15-27 C (INRAE, Septoria lycopersici, biology).
early blight: spots after 2-3 d (INRAE); spores one or two wet nights later.
stripping: 2-3 leaves a stem, at most one third of the leaves standing, at least eight left (common practice).
Truth is made here alone: front minus growth, expected over re-runs of the same plants under fresh weather.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]

SEED = 20261125
RERUNS_N, LEAVES_N = 24, 70
REACH_LEAVES = 2.5
NEIGHBOUR = 0.15
DRY_UP_TO_H = 4
STRIP_MOST_N, LEFT_LEAST_N = 3, 8
LOST_AT_CLEAN_N = 3
MISCOUNT = (0.15, 0.70, 0.15)
WET_H_FROM = (
    (13.0, 18.0, (7, 16, 21, 99)),
    (18.0, 21.0, (4, 9, 16, 23)),
    (21.0, 26.0, (3, 6, 13, 21)),
    (26.0, 30.0, (4, 9, 16, 23)),
)


@dataclass(frozen=True)
class Counts:
    """One plant on one day, as the grower counted it."""

    plant: str
    day: int
    top_leaf: int
    highest_diseased: int
    stripped_to: int
    newly_diseased: int
    leaves_standing: int
    wet_h: int


@dataclass(frozen=True)
class FieldSeason:
    """The counts of a season, and its truth."""

    rows: tuple[Counts, ...]
    truth_per_d: float
    to_the_tip: bool

    @property
    def losing(self) -> bool:
        return self.to_the_tip or self.truth_per_d > 0.0


@dataclass(frozen=True)
class Place:
    """What stays the same in every re-run of a season."""

    plants_n: int
    incubation_d: float
    latent_d: float
    strength: float
    soil: float
    vigour: Floats
    mean_c: float
    wet_after_wet: float
    wet_after_dry: float
    strip_every_d: int


@dataclass
class Field:
    """Runs x plants x leaves; leaf 0 is the lowest."""

    top: Floats
    born_d: Floats
    stage_d: Floats
    pace: Floats
    infected: Flags
    spotted: Flags
    strip: npt.NDArray[np.int64]
    wet: Flags
    warm_c: Floats
    wet_h: Floats
    day: int = 0

    @property
    def tops(self) -> npt.NDArray[np.int64]:
        return np.floor(self.top).astype(np.int64)

    @property
    def standing(self) -> Flags:
        leaf = np.arange(LEAVES_N)
        return (leaf < self.tops[..., None]) & (leaf >= self.strip[..., None])

    @property
    def front(self) -> npt.NDArray[np.int64]:
        return highest(self.spotted)


def highest(leaves: Flags) -> npt.NDArray[np.int64]:
    return np.asarray((leaves * np.arange(1, LEAVES_N + 1)).max(axis=-1), dtype=np.int64)


def drawn_place(rng: np.random.Generator) -> Place:
    plants_n = int(rng.integers(6, 13))
    incubation_d, latent_d = (6.0, 14.0) if rng.random() < 0.5 else (3.0, 5.0)
    wets = float(rng.uniform(0.5, 0.8)), float(rng.uniform(0.15, 0.45))
    strength, soil = float(np.exp(rng.uniform(np.log(0.1), np.log(3.0)))), float(rng.uniform(0.1, 0.5))
    vigour = rng.uniform(0.65, 1.0) * np.exp(rng.normal(0.0, 0.08, plants_n))
    mean_c, strip_every_d = float(rng.uniform(19.0, 27.0)), int(rng.integers(5, 11))
    return Place(plants_n, incubation_d, latent_d, strength, soil, vigour, mean_c, *wets, strip_every_d)


def bare_field(rng: np.random.Generator, place: Place) -> Field:
    shape = (1, place.plants_n, LEAVES_N)
    none = np.zeros(shape, dtype=np.bool_)
    return Field(
        top=rng.normal(8.0, 0.7, shape[:2]),
        born_d=np.tile(np.arange(LEAVES_N) * 2.5 - 20.0, (1, place.plants_n, 1)),
        stage_d=np.zeros(shape),
        pace=rng.normal(1.0, 0.15, shape).clip(0.6, 1.4),
        infected=none,
        spotted=none.copy(),
        strip=np.zeros(shape[:2], dtype=np.int64),
        wet=rng.random(1) < 0.4,
        warm_c=np.full(1, place.mean_c),
        wet_h=np.zeros(1),
    )


def many(field: Field, runs_n: int) -> Field:
    """Return the same plants `runs_n` times."""
    copied = {k: np.repeat(v, runs_n, axis=0) for k, v in vars(field).items() if k != "day"}
    return Field(**copied, day=field.day)


def severity(warm_c: Floats, wet_h: Floats) -> Floats:
    """Return 0-1: the disease severity value over its highest, 4."""
    value = np.zeros_like(warm_c)
    for low, high, marks in WET_H_FROM:
        inside = (warm_c >= low) & (warm_c < high)
        value += inside * sum((wet_h >= mark).astype(float) for mark in marks)
    return value / 4.0


def step(field: Field, place: Place, rng: np.random.Generator) -> None:
    """Let one day and its night pass."""
    runs_n = len(field.wet)
    field.day += 1
    field.wet = rng.random(runs_n) < np.where(field.wet, place.wet_after_wet, place.wet_after_dry)
    field.wet_h = np.where(field.wet, rng.integers(7, 19, runs_n), rng.integers(0, DRY_UP_TO_H + 1, runs_n))
    field.warm_c = place.mean_c + 0.7 * (field.warm_c - place.mean_c) + rng.normal(0.0, 1.8, runs_n)
    _infect(field, place, rng)
    warmth = np.clip(1.0 - ((field.warm_c - 24.0) / 14.0) ** 2, 0.3, 1.0)[:, None, None]
    field.stage_d = field.stage_d + field.infected * warmth * field.pace
    field.spotted = field.spotted | (field.standing & field.infected & (field.stage_d >= place.incubation_d))
    before = field.tops
    rate = 3.0 * (-0.2903 + 0.1454 * np.log(field.warm_c.clip(10.0, 28.0)))
    field.top = np.minimum(field.top + rate[:, None] * place.vigour, LEAVES_N - 1)
    leaf = np.arange(LEAVES_N)
    opened = (leaf >= before[..., None]) & (leaf < field.tops[..., None])
    field.born_d = np.where(opened, float(field.day), field.born_d)


def _infect(field: Field, place: Place, rng: np.random.Generator) -> None:
    leaf = np.arange(LEAVES_N)
    reach = np.exp(-np.abs(leaf[:, None] - leaf) / REACH_LEAVES)
    spores = field.standing & field.spotted & (field.stage_d >= place.latent_d)
    dose = spores.astype(float) @ reach
    wide = np.pad(dose, ((0, 0), (1, 1), (0, 0)))
    beside = wide[:, :-2] + wide[:, 2:]
    dose = dose + NEIGHBOUR * beside + place.soil * np.exp(-leaf / REACH_LEAVES)
    open_to = np.clip((field.day - field.born_d) / 20.0, 0.1, 1.0)
    fit = severity(field.warm_c, field.wet_h)[:, None, None]
    caught = rng.random(dose.shape) < 1.0 - np.exp(-place.strength * fit * dose * open_to)
    field.infected = field.infected | (caught & field.standing)


def strip_low(field: Field, due: Flags) -> None:
    """Take the lowest spotted leaves and those below them, in the runs that are due and woke up dry."""
    count = field.standing.sum(axis=-1)
    most = np.minimum(np.minimum(STRIP_MOST_N, count // 3), count - LEFT_LEAST_N).clip(0)
    low = np.arange(LEAVES_N) < (field.strip + most)[..., None]
    line = highest(field.standing & field.spotted & low)
    dry = due & (field.wet_h <= DRY_UP_TO_H)
    field.strip = np.where(dry[:, None], np.maximum(field.strip, line), field.strip)


def field_season(seed: int, spacing_d: int, plants_n: int) -> FieldSeason:
    """Return a season of visits every `spacing_d` days to `plants_n` marked plants; run 0 is what was counted."""
    rng = np.random.default_rng([SEED, seed, spacing_d, plants_n])
    place = drawn_place(rng)
    field = bare_field(rng, place)
    while field.day < 45 and not (np.median(field.front) >= 2 and field.tops.min() >= 12):
        step(field, place, rng)
    worst = int(field.front[0].argmax())
    others = rng.permutation([p for p in range(place.plants_n) if p != worst])[: plants_n - 1]
    marked = [worst, *map(int, others)]
    field = many(field, RERUNS_N + 1)
    gap_at_start = (field.front - field.tops)[0, marked].mean()
    counted_spots = np.zeros_like(field.spotted[0])
    written = dict.fromkeys(marked, 0)
    last_strip = np.full(len(field.wet), -99)
    rows: list[Counts] = []
    wet_since, days_n = 0.0, int(rng.integers(42, 50)) // spacing_d * spacing_d
    for day in range(days_n + 1):
        if day:
            step(field, place, rng)
            wet_since += float(field.wet_h[0])
        if day % spacing_d:
            continue
        found = (field.standing & field.spotted)[0]
        due = day - last_strip >= place.strip_every_d
        strip_low(field, due)
        last_strip = np.where(due & (field.wet_h <= DRY_UP_TO_H), day, last_strip)
        new = (field.spotted[0] & ~counted_spots).sum(axis=-1)
        counted_spots = field.spotted[0].copy()
        for p in marked:
            rows.append(_counted(field, p, (day, round(wet_since)), found[p], int(new[p]), written, rng))
        wet_since = 0.0
    gap = (field.front - field.tops)[:, marked].mean(axis=1)
    truth = float((gap[1:].mean() - gap_at_start) / days_n)
    return FieldSeason(tuple(rows), truth, bool(-gap[0] <= LOST_AT_CLEAN_N))


def _counted(
    field: Field,
    p: int,
    when: tuple[int, int],
    found: Flags,
    new: int,
    written: dict[int, int],
    rng: np.random.Generator,
) -> Counts:
    slip = rng.choice((-1, 0, 1), size=5, p=MISCOUNT)
    top = int(field.tops[0, p] + slip[0])
    seen, line = int(highest(found)), int(field.strip[0, p])
    written[p] = min(max(written[p], line + int(slip[2]) if line else 0), top)
    front = min(max(seen + int(slip[1]), 1), top) if seen else 0
    standing = max(int(field.standing[0, p].sum() + slip[4]), 0)
    return Counts(f"P{p + 1}", when[0], top, front, written[p], max(new + int(slip[3]), 0), standing, when[1])
