"""Is stripping keeping up? The verdict for one planting, from the garden's marked plants or from a CSV file."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from math import ceil
from typing import TYPE_CHECKING, Literal

from scout.knowledge.schema import Cause
from scout.services.marked import MeasuredRow

if TYPE_CHECKING:
    from scout.knowledge.base import Knowledge
    from scout.science.keeping_up import Plant, Race
    from scout.science.new_leaves import BeforeAfter

Habit = Literal["indeterminate", "determinate", "topped"]
Interval = tuple[float, float]
FALLBACK_INCUBATION_D = 7.0
"""Where no disease is named, or nothing is known of it: as long as early blight takes at most (institute pages)."""
_NO_MEASURE = ("bacterial", "oomycete", "viral", "phytoplasma")
_NO_MEASURE_WORDS = ("late blight", "downy", "bacteri", "virus", "mosaic")
_SPOTS_FIRST_FRAC, _FRUIT_FIRST_FRAC = 0.9, 0.05


@dataclass(frozen=True)
class Fruit:
    """The lowest unripe fruit of plants that grow no further: the leaf it hangs at, and when it will be ripe."""

    leaf: int
    ripe_on: date


@dataclass(frozen=True)
class Followed:
    """What is known of one planting's marked plants; rows in order of day, unstripped plants left out."""

    planting: str | None
    rows: tuple[MeasuredRow, ...]
    causes: tuple[Cause, ...] = ()
    unknown_diseases: tuple[str, ...] = ()
    """Named in a file, and not known here."""
    habit: Habit = "indeterminate"
    fruit: Fruit | None = None
    wet: str = ""
    """Wetness beside the counts, as a sentence."""


@dataclass(frozen=True)
class Speeds:
    """Leaves a day, each with 90 % limits."""

    front: float
    front_limits: Interval
    growth: float
    growth_limits: Interval
    difference: float
    difference_limits: Interval


@dataclass(frozen=True)
class Judgement:
    """The verdict and what it rests on."""

    planting: str | None
    verdict: Literal["keeping_up", "losing", "cannot_tell"]
    why: str
    """What made it so: speeds, tip, few_visits, few_clean, no_spots, close, refused, fruit, fruit_missing."""
    probability_losing: float | None
    speeds: Speeds | None
    clean_depth: float | None
    clean_before: float | None
    below_six_on: date | None
    more_visits: int | None
    settled_by: date | None
    next_strip_due: date | None
    days_bought: float | None
    new_leaves: "BeforeAfter | None"
    diseased_ever: int
    last_on: date | None
    first_on: date | None
    visits_n: int
    spots_at_fruit_on: date | None = None
    refusals: tuple[str, ...] = ()
    followed: Followed = field(default_factory=lambda: Followed(None, ()))


def diseases_named(knowledge: "Knowledge", words: Sequence[str]) -> tuple[tuple[Cause, ...], tuple[str, ...]]:
    """Return the causes meant by ids, names or aliases, and the words that are none of these."""
    known: Mapping[str, Cause] = {
        name.casefold(): cause for cause in knowledge.causes.values() for name in (cause.id, cause.name, *cause.aliases)
    }
    keys = dict.fromkeys(word.strip() for word in words)
    found = {cause.id: cause for key in keys if (cause := known.get(key.casefold())) is not None}
    return tuple(found.values()), tuple(key for key in keys if key.casefold() not in known)


def refusals_for(followed: Followed) -> tuple[str, ...]:
    """Return why no verdict is given: diseases for which stripping is not the measure."""
    names = [cause.name for cause in followed.causes if cause.kind in _NO_MEASURE]
    names += [word for word in followed.unknown_diseases if any(part in word.casefold() for part in _NO_MEASURE_WORDS)]
    return tuple(f"{name}: stripping is not the measure here, so there is no verdict." for name in names)


def judge(followed: Followed) -> Judgement:
    """Return the verdict for one planting from everything measured so far."""
    from scout.science import keeping_ahead as ahead
    from scout.science.keeping_up import race
    from scout.science.new_leaves import diseased_ever_n, last_strip_day, new_leaves_compared

    days = [date.fromisoformat(row.on) for row in followed.rows]
    refusals = refusals_for(followed)
    if not days or refusals:
        return _none(followed, refusals, "refused" if refusals else "few_visits")
    first, last = min(days), max(days)
    plants = plants_of(followed.rows, first)
    now = race(plants)
    verdict, why = _verdict(followed, plants, now, last)
    short = ahead.runs_short_in_d(now) if followed.habit == "indeterminate" else None
    more = ahead.visits_until_told(plants) if verdict == "cannot_tell" and why in ("few_visits", "close") else None
    stripped = last_strip_day(plants)
    wait = ahead.next_strip_after_d(_windows(followed.causes))
    return Judgement(
        followed.planting,
        verdict,
        why,
        _chance(followed, now, last),
        _speeds(now),
        now.clean_depth,
        now.clean_before,
        None if short is None or short > 366 else last + timedelta(days=ceil(short)),
        more,
        None if more is None else last + timedelta(days=ceil(more * _gap(days))),
        None if stripped is None or wait is None else first + timedelta(days=int(stripped + wait)),
        ahead.days_bought_d(plants),
        new_leaves_compared(plants, incubation_d(followed.causes)),
        diseased_ever_n(plants),
        last,
        first,
        len(set(days)),
        _spots_at_fruit(followed, now, last),
        (),
        followed,
    )


def _none(followed: Followed, refusals: tuple[str, ...], why: str) -> Judgement:
    days = [date.fromisoformat(row.on) for row in followed.rows]
    first, last = min(days, default=None), max(days, default=None)
    return Judgement(
        planting=followed.planting,
        verdict="cannot_tell",
        why=why,
        probability_losing=None,
        speeds=None,
        clean_depth=None,
        clean_before=None,
        below_six_on=None,
        more_visits=None,
        settled_by=None,
        next_strip_due=None,
        days_bought=None,
        new_leaves=None,
        diseased_ever=sum(row.newly_diseased or 0 for row in followed.rows),
        last_on=last,
        first_on=first,
        visits_n=len(set(days)),
        refusals=refusals,
        followed=followed,
    )


def plants_of(rows: Sequence[MeasuredRow], first: date) -> "list[Plant]":
    """Return the rows a plant at a time, with days counted from the first."""
    from scout.science.keeping_up import Visit

    plants: dict[str, dict[float, Visit]] = {}
    for row in sorted(rows, key=lambda one: one.on):
        day = float((date.fromisoformat(row.on) - first).days)
        plants.setdefault(row.label, {})[day] = Visit(
            day, row.top_leaf, row.highest_diseased, row.stripped_to, row.newly_diseased, row.leaves_standing
        )
    return [list(visits.values()) for visits in plants.values()]


def _verdict(
    followed: Followed, plants: "Sequence[Plant]", now: "Race", last: date
) -> tuple[Literal["keeping_up", "losing", "cannot_tell"], str]:
    from scout.science import keeping_up as up

    if followed.habit != "indeterminate":
        return _fruit_verdict(followed, now, last)
    verdict = up.verdict_of(plants, now)
    if verdict != "cannot_tell":
        return verdict, "tip" if verdict == "losing" and now.at_the_tip else "speeds"
    if not now.spotted:
        return verdict, "no_spots"
    if now.visits_n < up.LEAST_VISITS_N or now.span_d < up.LEAST_SPAN_D:
        return verdict, "few_visits"
    few = now.clean_depth is not None and now.clean_depth < up.ENOUGH_CLEAN_N
    return verdict, "few_clean" if few and now.probability_losing < 0.5 else "close"


def _fruit_verdict(
    followed: Followed, now: "Race", last: date
) -> tuple[Literal["keeping_up", "losing", "cannot_tell"], str]:
    chance = _chance(followed, now, last)
    if chance is None:
        return "cannot_tell", "fruit_missing"
    if chance >= _SPOTS_FIRST_FRAC:
        return "losing", "fruit"
    return ("keeping_up" if chance <= _FRUIT_FIRST_FRAC else "cannot_tell"), "fruit"


def _chance(followed: Followed, now: "Race", last: date) -> float | None:
    """Return the chance of losing: spots faster than growth, or first at the fruit on plants that grow no further."""
    from scout.science.keeping_ahead import reached_before_ripe_frac

    if followed.habit == "indeterminate":
        return now.probability_losing
    at = _front_at(followed)
    if followed.fruit is None or at is None:
        return None
    days = max(0, (followed.fruit.ripe_on - last).days)
    return reached_before_ripe_frac(at, followed.fruit.leaf, float(days), now.front)


def _front_at(followed: Followed) -> float | None:
    """Return the mean height that the spots have reached on the marked plants."""
    from scout.science.keeping_up import fronts

    if not followed.rows:
        return None
    found = [fronts(plant) for plant in plants_of(followed.rows, date.fromisoformat(followed.rows[0].on))]
    heights = [reached[-1][1] for reached in found if reached]
    return sum(heights) / len(heights) if heights else None


def _spots_at_fruit(followed: Followed, now: "Race", last: date) -> date | None:
    from scout.science.keeping_ahead import reaches_in_d

    at = _front_at(followed)
    if followed.fruit is None or at is None:
        return None
    days = reaches_in_d(at, followed.fruit.leaf, now.front)
    return None if days is None or days > 366 else last + timedelta(days=ceil(days))


def _speeds(now: "Race") -> Speeds:
    return Speeds(
        now.front.expected_per_d,
        now.front.interval(),
        now.growth.expected_per_d,
        now.growth.interval(),
        now.difference.expected_per_d,
        now.difference.interval(),
    )


def incubation_d(causes: Sequence[Cause]) -> float:
    """Return the longest time from infection to spot among the diseases."""
    known = [cause.incubation_d[1] for cause in causes if cause.incubation_d is not None]
    return max(known, default=FALLBACK_INCUBATION_D)


def _windows(causes: Sequence[Cause]) -> list[tuple[float, float]]:
    """Return infection to spot and to spores for each disease, at both ends of what is known."""
    pairs = [(c.incubation_d, c.latent_d) for c in causes if c.incubation_d is not None and c.latent_d is not None]
    return [(spot, max(spot, spores)) for spots, latent in pairs for spot, spores in zip(spots, latent, strict=True)]


def _gap(days: Sequence[date]) -> float:
    visits = sorted(set(days))
    return (visits[-1] - visits[0]).days / (len(visits) - 1) if len(visits) > 1 else 7.0
