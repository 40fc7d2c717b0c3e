"""What follows from the race of spots and growth: when clean leaves run short, when to strip again."""

import math
from collections.abc import Sequence
from itertools import pairwise

from scout.science.epidemic import sanitation_delay_d, two_point_rate_per_d
from scout.science.epidemic_fit import inside, rate_fit
from scout.science.keeping_up import ENOUGH_CLEAN_N, Plant, Race, Visit, fronts, race
from scout.science.keeping_verdict import verdict_of
from scout.science.limits import require_within
from scout.science.new_leaves import last_strip_day
from scout.science.node_drift import Drift

MOST_VISITS_AHEAD_N = 6
LEAST_WINDOW_D = 2.0
"""Spores this soon after the spot: a knife cannot come in between (common practice, no source)."""


def runs_short_in_d(now: Race) -> float | None:
    """Return the days after the last visit until fewer than six clean leaves stand, if it goes on like this.

    0: already so. None: the clean leaves are not becoming fewer, or were not counted.
    """
    if now.clean_depth is None:
        return None
    if now.clean_depth < ENOUGH_CLEAN_N:
        return 0.0
    loss = now.difference.expected_per_d
    return (now.clean_depth - ENOUGH_CLEAN_N) / loss if loss > 0.01 and now.spotted else None


def next_strip_after_d(incubation_latent_d: Sequence[tuple[float, float]]) -> float | None:
    """Return the days from one stripping to the next: the shortest time from spot to spores, less one day.

    None: no disease is given, or its spores come within two days of the spot, so that stripping cannot break the
    cycle.
    Units: pairs of days, infection to first spot and infection to spores, one pair a disease; result days.
    Valid: spores not before the spot.
    Raises: ValueError for spores before the spot.
    Source: latent less incubation period, own rule.
    """
    windows = []
    for incubation, latent in incubation_latent_d:
        require_within("latent_d", latent, incubation, 365.0)
        windows.append(latent - incubation)
    shortest = min(windows, default=None)
    return None if shortest is None or shortest < LEAST_WINDOW_D else shortest - 1.0


def reached_shares(plants: Sequence[Plant]) -> list[tuple[float, float]]:
    """Return the mean share of each plant's leaves that spots have reached, by day.

    Leaves taken off since still count as reached, so that stripping cannot lower it; days without a spot on a counted
    plant are left out.
    """
    shares: dict[float, list[float]] = {}
    for plant in plants:
        reached = dict(fronts(plant))
        for visit in plant:
            if visit.top_leaf and reached.get(visit.day):
                shares.setdefault(visit.day, []).append(min(1.0, reached[visit.day] / visit.top_leaf))
    return [(day, sum(found) / len(found)) for day, found in sorted(shares.items())]


def own_rate_per_d(plants: Sequence[Plant]) -> float | None:
    """Return this garden's own rate of spread: logistic, on the share of each plant's leaves reached by spots.

    From all visits by least squares; from the two there are, where there are only two. None without two days on which
    that share lies between nothing and all.
    """
    days = reached_shares(plants)
    fit = rate_fit([day for day, _ in days], [share for _, share in days], "logistic")
    if fit is not None:
        return fit.rate_per_d
    looks = inside([day for day, _ in days], [share for _, share in days])
    if len(looks) < 2:
        return None
    (first, low), (last, high) = looks[0], looks[-1]
    return two_point_rate_per_d(low, high, last - first, "logistic")


def days_bought_d(plants: Sequence[Plant]) -> float | None:
    """Return the days by which the last stripping held the disease back, at the garden's own rate.

    None: nothing was stripped, all that was spotted went (a share that is never known), or the disease does not gain.
    """
    last, rate = last_strip_day(plants), own_rate_per_d(plants)
    if last is None or rate is None or rate <= 0.0:
        return None
    taken = standing = 0.0
    for plant in plants:
        reached = dict(fronts(plant)).get(last)
        lines = [visit.stripped_to or 0 for visit in plant if visit.day < last]
        now = next((visit.stripped_to for visit in plant if visit.day == last), None)
        if reached is not None and now is not None:
            before = max(lines, default=0)
            taken += max(0, min(now, reached) - before)
            standing += max(0, reached - before)
    return sanitation_delay_d(taken / standing, rate) if 0.0 < taken < standing else None


def visits_until_told(plants: Sequence[Plant]) -> int | None:
    """Return how many more visits would bring a verdict if all goes on as it does; None: more than six.

    Each visit to come is put where the present speeds lead, at the usual distance in days.
    """
    days = sorted({visit.day for plant in plants for visit in plant})
    if not days:
        return None
    now = race(plants)
    gaps = [later - day for day, later in pairwise(days)]
    gap = sorted(gaps)[len(gaps) // 2] if gaps else 7.0
    longer = [list(plant) for plant in plants if plant]
    before = now
    for count in range(1, MOST_VISITS_AHEAD_N + 1):
        for plant, known in zip(longer, [p for p in plants if p], strict=True):
            plant.append(_ahead(known, now, days[-1], (count - 1) * gap, count * gap))
        then = race(longer)
        if verdict_of(longer, then, before, "cannot_tell") != "cannot_tell":
            return count
        before = then
    return None


def _ahead(plant: Plant, now: Race, last: float, since: float, days: float) -> Visit:
    tops = [visit.top_leaf for visit in plant if visit.top_leaf is not None]
    reached = fronts(plant)
    top = None if not tops else round(tops[-1] + now.growth.expected_per_d * days)
    front = None if not reached else round(reached[-1][1] + now.front.expected_per_d * days)
    if top is not None and front is not None:
        front = min(front, top)
    speed = max(0.0, now.front.expected_per_d)
    new = None if plant[-1].newly_diseased is None else round(speed * days) - round(speed * since)
    return Visit(last + days, top, front, None, new)


def reaches_in_d(front_n: float, fruit_leaf_n: int, front: Drift) -> float | None:
    """Return the days until the spots stand at the leaf of the lowest unripe fruit; 0: there already; None: never.

    Units: front_n and fruit_leaf_n leaves from the soil; result days.
    Valid: the speed goes on as it was.
    Source: distance over speed.
    """
    if front_n >= fruit_leaf_n:
        return 0.0
    speed = front.expected_per_d
    return (fruit_leaf_n - front_n) / speed if speed > 0.01 else None


def reached_before_ripe_frac(front_n: float, fruit_leaf_n: int, ripe_in_d: float, front: Drift) -> float:
    """Return the chance that the spots stand at the lowest unripe fruit before it is ripe.

    Units: front_n and fruit_leaf_n leaves from the soil, ripe_in_d days; result a share.
    Valid: ripe_in_d 0 or more.
    Raises: ValueError below that.
    Source: distance over speed, with what is not known of the speed.
    """
    require_within("ripe_in_d", ripe_in_d, 0.0, math.inf)
    if front_n >= fruit_leaf_n:
        return 1.0
    return 0.0 if ripe_in_d == 0.0 else front.above((fruit_leaf_n - front_n) / ripe_in_d)
