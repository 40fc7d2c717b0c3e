"""Is stripping keeping up? The verdict for one planting, from the garden's marked plants or from a CSV file."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from math import ceil
from typing import TYPE_CHECKING, Literal

from scout.services.keeping_followed import Followed, plants_of, refusals_for
from scout.services.keeping_timing import (
    OldInfections,
    incubation_d,
    left_unstripped,
    old_infections,
    spots_show_after_d,
    windows,
)

if TYPE_CHECKING:
    from scout.science.keeping_up import Plant, Race
    from scout.science.new_leaves import BeforeAfter, LeftUnstripped

Interval = tuple[float, float]
_SPOTS_FIRST_FRAC, _FRUIT_FIRST_FRAC = 0.9, 0.05


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
    """What made it so: speeds, held (told before, and the counts since have not turned it), tip, few_visits, few_clean,
    no_spots, no_counts, close, refused, fruit, fruit_missing."""
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
    old_infections: OldInfections | None = None
    left: "LeftUnstripped | None" = None
    """New leaves on plants left unstripped against the stripped ones."""
    refusals: tuple[str, ...] = ()
    followed: Followed = field(default_factory=lambda: Followed(None, ()))


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
    wait = ahead.next_strip_after_d(windows(followed.causes))
    old = old_infections(followed, None if stripped is None else first + timedelta(days=int(stripped)))
    clear_d = _clear_after_d(followed, plants, first)
    moved = first < last  # one visit tells no speed: what is left is only what was assumed before
    return Judgement(
        followed.planting,
        verdict,
        why,
        _chance(followed, now, last) if moved or followed.habit != "indeterminate" else None,
        _speeds(now) if moved else None,
        now.clean_depth,
        now.clean_before,
        None if short is None or short > 366 else last + timedelta(days=ceil(short)),
        more,
        None if more is None else last + timedelta(days=ceil(more * _gap(days))),
        None if stripped is None or wait is None else first + timedelta(days=int(stripped + wait)),
        ahead.days_bought_d(plants),
        new_leaves_compared(plants, clear_d),
        diseased_ever_n(plants),
        last,
        first,
        len(set(days)),
        _spots_at_fruit(followed, now, last),
        old,
        left_unstripped(followed, plants, plants_of(followed.unstripped, first), clear_d),
        (),
        followed,
    )


def _clear_after_d(followed: Followed, plants: "Sequence[Plant]", first: date) -> float:
    """Return the days after the first stripping in which leaves infected before it can still turn."""
    from scout.science.new_leaves import first_strip_day

    cut = first_strip_day(plants)
    if cut is None:
        return incubation_d(followed.causes)
    return spots_show_after_d(followed, first + timedelta(days=int(cut)))


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


def _verdict(
    followed: Followed, plants: "Sequence[Plant]", now: "Race", last: date
) -> tuple[Literal["keeping_up", "losing", "cannot_tell"], str]:
    from scout.science.keeping_up import ENOUGH_CLEAN_N
    from scout.science.keeping_verdict import LEAST_SPAN_D, LEAST_VISITS_N, leans_less, verdict_of

    if followed.habit != "indeterminate":
        return _fruit_verdict(followed, now, last)
    verdict = verdict_of(plants, now)
    if verdict != "cannot_tell":
        at_tip = verdict == "losing" and now.at_the_tip
        return verdict, "tip" if at_tip else "held" if leans_less(verdict, now) else "speeds"
    if not now.spotted:
        looked = any(row.highest_diseased is not None for row in followed.rows)
        return verdict, "no_spots" if looked else "no_counts"
    if now.visits_n < LEAST_VISITS_N or now.span_d < LEAST_SPAN_D:
        return verdict, "few_visits"
    few = now.clean_depth is not None and now.clean_depth < ENOUGH_CLEAN_N
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


def _gap(days: Sequence[date]) -> float:
    visits = sorted(set(days))
    return (visits[-1] - visits[0]).days / (len(visits) - 1) if len(visits) > 1 else 7.0
