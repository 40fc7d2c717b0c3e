"""Keeping up, losing, or cannot be told yet: what is said of the race of spots and growth at each visit of a season."""

from collections.abc import Sequence
from typing import Literal

from scout.science.keeping_up import CLEAR_GAIN_AT_MOST, ENOUGH_CLEAN_N, Plant, Race, Visit, race

Verdict = Literal["keeping_up", "losing", "cannot_tell"]

LEAST_VISITS_N = 4
"""Three stretches between visits; counts of a few leaves jump by chance (common practice, no source)."""
LEAST_SPAN_D = 12.0
KEEPING_FROM_D = 20.0
"""False comfort costs the bed, so "keeping up" is never said in the first three weeks (less a day's slack)."""
KEEPING_LATER_D = 26.0
KEEPING_AT_MOST = 0.0225
KEEPING_LATER_AT_MOST = KEEPING_AT_MOST / 3.0
"""The verdict is asked for at every visit, and all of them together may err once in twenty: nearly half of that is
spent at three weeks, when growers ask, the rest by parts at later visits (unequal shares as in Lan & DeMets 1983,
Biometrika 70:659-663, from memory; the size is our choice, see tests/benchmarks)."""
LOSING_AT_LEAST = 0.70
"""A false alarm costs less than false comfort, up to one in ten: our choice; see tests/benchmarks."""
KEEPING_STAYS_AT_MOST = 0.10
LOSING_STAYS_AT_LEAST = 0.50
"""What was told stays told until the counts turn, or a bed at the bound would be praised and doubted in turn."""
_EARLY_D = 21.0
_EARLY_FACTOR = 0.5
"""Before three weeks the room for error is halved."""


def verdict_of(
    plants: Sequence[Plant], now: Race | None = None, before: Race | None = None, told: Verdict | None = None
) -> Verdict:
    """Return whether stripping keeps up, loses, or cannot be told yet, from all visits up to the last.

    Asked at every visit of a season: a verdict needs three stretches between visits, evidence beyond a strict
    bound (stricter in the first three weeks), and a visit before that leaned the same way; once told, it stays until
    the counts speak plainly less for it. Diseased to the tip is losing, whatever the speeds. Keeping up needs enough
    clean leaves too. Growth must go on: plants that stop by nature have another question, see `ripening`. `now`, and
    `before` and `told`, the race and the verdict up to the visit before, are worked out where they are not given.
    """
    now = now or race(plants)
    if not now.spotted or now.visits_n < LEAST_VISITS_N or now.span_d < LEAST_SPAN_D:
        return "cannot_tell"
    if now.at_the_tip:
        return "losing"
    may_stay = _may_stay(now)
    if may_stay is None:
        return "cannot_tell"
    earlier = _until_the_visit_before(plants)
    before = before or race(earlier)
    if _newly_told(now, before) == may_stay:
        return may_stay
    return may_stay if (told or verdict_of(earlier, before)) == may_stay else "cannot_tell"


def leans_less(verdict: Verdict, now: Race) -> bool:
    """Return whether a verdict stands although the counts up to now would not let it be told anew at three weeks."""
    if verdict == "losing":
        return not now.at_the_tip and now.probability_losing < LOSING_AT_LEAST
    return verdict == "keeping_up" and now.probability_losing > KEEPING_AT_MOST


def _may_stay(now: Race) -> Verdict | None:
    """Return the verdict that would stay if it was told before; no other can be told now."""
    if now.probability_losing >= LOSING_STAYS_AT_LEAST:
        return "losing"
    enough = now.clean_depth is not None and now.clean_depth >= ENOUGH_CLEAN_N
    if enough and now.span_d >= KEEPING_FROM_D and now.probability_losing <= KEEPING_STAYS_AT_MOST:
        return "keeping_up"
    return None


def _newly_told(now: Race, before: Race) -> Verdict | None:
    """Return what the speeds alone tell at this visit, whatever was told before."""
    room = (1.0 - LOSING_AT_LEAST) * (_EARLY_FACTOR if now.span_d < _EARLY_D else 1.0)
    if now.probability_losing >= 1.0 - room and before.probability_losing >= 1.0 - CLEAR_GAIN_AT_MOST:
        return "losing"
    bound = KEEPING_AT_MOST if now.span_d < KEEPING_LATER_D else KEEPING_LATER_AT_MOST
    if now.probability_losing <= bound and before.probability_losing <= CLEAR_GAIN_AT_MOST:
        return "keeping_up"
    return None


def _until_the_visit_before(plants: Sequence[Plant]) -> list[list[Visit]]:
    last = max(visit.day for plant in plants for visit in plant)
    return [[visit for visit in plant if visit.day < last] for plant in plants]
