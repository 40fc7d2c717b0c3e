"""What the estimator said at every visit of a simulated season, and how that stands to the truth."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from scout.science.keeping_up import Race, Visit, race
from scout.science.keeping_verdict import Verdict, verdict_of
from scout.science.sampling import wilson_interval

from .layered_plants import Followed

CLEAR_PER_D = 0.15
DECIDED_BY_D = 21


@dataclass(frozen=True)
class Outcome:
    """One season, judged."""

    truth_per_d: float
    losing: bool
    to_the_tip: bool
    verdicts: tuple[Verdict, ...]
    at_three_weeks: Verdict
    """The verdict at the first visit 21 days or more after marking."""
    interval: tuple[float, float]
    """90 % limits of front minus growth at that visit."""


def judged(followed: Followed) -> Outcome:
    """Return the verdict at every visit, as a grower would ask for it."""
    said: list[Verdict] = []
    third: tuple[Verdict, tuple[float, float]] | None = None
    before: Race | None = None
    for day in sorted({row.day for row in followed.rows}):
        plants = plants_until(followed, day)
        now = race(plants)
        said.append(verdict_of(plants, now, before, said[-1] if said else None))
        before = now
        if third is None and day >= DECIDED_BY_D:
            third = said[-1], now.difference.interval()
    assert third is not None
    return Outcome(followed.truth_per_d, followed.losing, followed.to_the_tip, tuple(said), *third)


def plants_until(followed: Followed, day: int) -> list[list[Visit]]:
    """Return the plants' visits up to a day."""
    plants: dict[str, list[Visit]] = {}
    for row in followed.rows:
        if row.day <= day:
            plants.setdefault(row.plant, []).append(
                Visit(float(row.day), row.top_leaf, row.highest_diseased, row.stripped_to, row.newly_diseased)
            )
    return list(plants.values())


@dataclass(frozen=True)
class Share:
    """A share of seasons with its 95 % Monte Carlo limits; None where no season counts."""

    hits_n: int
    of_n: int

    @property
    def value(self) -> float:
        return self.hits_n / self.of_n if self.of_n else float("nan")

    @property
    def limits(self) -> tuple[float, float]:
        return wilson_interval(self.hits_n, self.of_n) if self.of_n else (0.0, 1.0)

    def __str__(self) -> str:
        low, high = self.limits
        return f"{100 * self.value:5.1f} ({100 * low:.1f}-{100 * high:.1f})"


@dataclass(frozen=True)
class Characteristics:
    """False and decisive verdicts over many seasons."""

    seasons_n: int
    false_keeping: Share
    """Of seasons that truly lose: "keeping up" at any visit."""
    false_keeping_all: Share
    """The same, of all seasons."""
    false_losing: Share
    """Of seasons that truly keep up: "losing" at any visit."""
    decisive: Share
    """Of seasons with a clear truth: the right verdict stands at the first visit 21 days after marking."""
    coverage: Share
    """Of seasons not lost to the tip: the 90 % interval at that visit holds the truth."""


def characteristics(outcomes: Iterable[Outcome]) -> Characteristics:
    """Count them."""
    found = list(outcomes)
    lost, kept = [o for o in found if o.losing], [o for o in found if not o.losing]
    clear = [o for o in found if abs(o.truth_per_d) >= CLEAR_PER_D]
    free = [o for o in found if not o.to_the_tip]
    return Characteristics(
        len(found),
        _share(lost, lambda o: "keeping_up" in o.verdicts),
        Share(sum(o.losing and "keeping_up" in o.verdicts for o in found), len(found)),
        _share(kept, lambda o: "losing" in o.verdicts),
        _share(clear, lambda o: o.at_three_weeks == ("losing" if o.losing else "keeping_up")),
        _share(free, lambda o: o.interval[0] <= o.truth_per_d <= o.interval[1]),
    )


def _share(outcomes: Sequence[Outcome], hit: Callable[[Outcome], bool]) -> Share:
    return Share(sum(map(hit, outcomes)), len(outcomes))
