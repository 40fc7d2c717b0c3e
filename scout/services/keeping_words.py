"""The verdict on stripping in a grower's words, and as JSON for a script."""

from datetime import date
from typing import Any

from scout.services.keeping_up import FALLBACK_INCUBATION_D, Judgement, incubation_d

CHOICE = "A leaf counts as diseased from its first spot over 2 mm (our choice); plain yellow does not count."


def day_words(day: date) -> str:
    """Return a day as "9 August"."""
    return f"{day.day} {day:%B}"


def verdict_sentence(told: Judgement) -> str:
    """Return the one sentence that stands on top."""
    if told.refusals:
        return told.refusals[0]
    if told.why in ("fruit", "fruit_missing"):
        return _fruit_sentence(told)
    words = {"keeping_up": _keeping, "losing": _losing, "cannot_tell": _untold}
    return words[told.verdict](told)


def _keeping(told: Judgement) -> str:
    return f"Keeping up: new leaves come faster than the spots climb, with {_clean(told)} clean above the spots."


def _losing(told: Judgement) -> str:
    if told.why == "tip":
        return f"Losing: the spots have reached the tip; about {_clean(told)} clean."
    short = told.below_six_on
    when = (
        "" if short is None or told.last_on is None else f" Fewer than six clean leaves from about {day_words(short)}."
    )
    if short is not None and short == told.last_on:
        when = " Fewer than six clean leaves are left already."
    return f"Losing: the spots climb faster than the plants grow.{when}"


def _clean(told: Judgement) -> str:
    count = round(told.clean_depth or 0.0)
    return "1 leaf" if count == 1 else f"{count} leaves"


def _untold(told: Judgement) -> str:
    if told.visits_n == 0:
        return "Cannot tell yet: nothing is measured."
    if told.why == "no_spots":
        return "Cannot tell yet: no spot was seen on the marked plants, so there is nothing to keep up with."
    if told.why == "few_clean":
        return f"Cannot tell yet: the plants gain on the spots, but only {_clean(told)} clean; six are wanted."
    if told.why == "few_visits":
        return "Cannot tell yet: a verdict needs four visits with both counts, over twelve days or more."
    return "Cannot tell yet: spots and growth run too close together for so few counts."


def _fruit_sentence(told: Judgement) -> str:
    fruit = told.followed.fruit
    if fruit is None:
        return (
            "Cannot tell: these plants stop growing by nature, so standing still is normal. What counts is whether the "
            "spots reach the lowest unripe fruit before it is ripe."
        )
    spots = f"spots there about {day_words(told.spots_at_fruit_on)}" if told.spots_at_fruit_on else "spots hardly climb"
    both = f"{spots}, fruit ripe about {day_words(fruit.ripe_on)}"
    if told.probability_losing is None:
        return f"Cannot tell: fruit ripe about {day_words(fruit.ripe_on)}, but no spot was measured yet."
    end = {"keeping_up": "keep the plants", "losing": "the spots come first", "cannot_tell": "too close to tell"}
    head = {"keeping_up": "Keeping up", "losing": "Losing", "cannot_tell": "Cannot tell yet"}[told.verdict]
    return f"{head}: {both}: {end[told.verdict]}."


def settle_line(told: Judgement) -> str | None:
    """Return what would settle it, where it cannot be told."""
    if told.verdict != "cannot_tell" or told.refusals:
        return None
    if told.why == "fruit_missing":
        return "To tell: the leaf at which the lowest unripe fruit hangs, and about when it will be ripe."
    if told.why == "no_spots":
        return "To tell: go on measuring; the first spotted leaf starts the count."
    if told.more_visits is None or told.settled_by is None:
        return "More than six visits at this rate; mark a third plant, the worst, if only two are marked."
    visits = "One more visit" if told.more_visits == 1 else f"{told.more_visits} more visits"
    return f"{visits}, by {day_words(told.settled_by)}, would tell if it goes on like this."


def lines_below(told: Judgement) -> list[str]:
    """Return what stands under the verdict: the numbers, the counts, what stripping buys. Never severity."""
    lines = [settle_line(told), _speed_line(told), _chance_line(told), _clean_line(told), *_new_lines(told)]
    lines += [_next_line(told), _nothing_line(told), told.followed.wet or None]
    lines += [
        f"“{name}” is not known here; {FALLBACK_INCUBATION_D:g} days to the first spot are taken."
        for name in _odd(told)
    ]
    lines += list(told.refusals[1:])
    return [line for line in lines if line]


def _odd(told: Judgement) -> tuple[str, ...]:
    return () if told.refusals else told.followed.unknown_diseases


def _speed_line(told: Judgement) -> str | None:
    if told.speeds is None:
        return None
    s = told.speeds
    front, growth = max(0.0, s.front), max(0.0, s.growth)
    return (
        f"Spots climb {front:.2f} leaves a day ({_span(s.front_limits)}), plants grow {growth:.2f} "
        f"({_span(s.growth_limits)}); in brackets 90 % limits."
    )


def _span(limits: tuple[float, float]) -> str:
    return f"{max(0.0, limits[0]):.2f} to {max(0.0, limits[1]):.2f}"


def _chance_line(told: Judgement) -> str | None:
    if told.probability_losing is None or told.why == "no_spots":
        return None
    of_hundred = round(100 * told.probability_losing)
    words = "under 1" if of_hundred == 0 else "over 99" if of_hundred == 100 else f"{of_hundred}"
    what = "spots come first" if told.why == "fruit" else "spots are the faster ones"
    return f"Chance that the {what}: {words} in 100."


def _clean_line(told: Judgement) -> str | None:
    if told.clean_depth is None:
        return None
    before = "" if told.clean_before is None else f" ({told.clean_before:.0f} at the visit before)"
    ever = f" Spotted leaves counted so far, taken off or not: {told.diseased_ever}." if told.diseased_ever else ""
    return f"Clean leaves above the spots: {told.clean_depth:.0f}{before}.{ever}"


def _new_lines(told: Judgement) -> list[str]:
    found = told.new_leaves
    if found is None or found.counts_from_d is None or told.first_on is None:
        return []
    days = incubation_d(told.followed.causes)
    until = date.fromordinal(told.first_on.toordinal() + round(found.counts_from_d))
    lines = []
    if found.compared is not None:
        lines.append(
            f"Newly spotted leaves: {found.before_n} in {found.before_d / 7:.1f} plant-weeks before stripping, "
            f"{found.after_n} in {found.after_d / 7:.1f} after (chance alone: p {found.compared.p_least_likely:.2g})."
        )
    lines.append(
        f"Leaves infected before the first stripping could still turn until {day_words(until)} "
        f"({days:g} days to the first spot); new leaves count as “after” from then on."
    )
    return lines


def _next_line(told: Judgement) -> str | None:
    if told.next_strip_due is not None:
        return f"Next stripping due by {day_words(told.next_strip_due)}, before the new spots make spores."
    timed = [c for c in told.followed.causes if c.incubation_d is not None and c.latent_d is not None]
    if told.refusals or not timed or told.new_leaves is None or told.new_leaves.counts_from_d is None:
        return None
    return (
        "No date for the next stripping: spores come too soon after the spots for a knife to break the cycle. "
        "It only lowers the load; mulch, stakes, dry leaves and room between plants do more."
    )


def _nothing_line(told: Judgement) -> str | None:
    if told.days_bought is None:
        return None
    return (
        f"If nothing had been stripped last time, the disease would stand about {told.days_bought:.0f} days further on "
        "at this garden's own rate. Stripping delays, it never ends it."
    )


def as_json(told: Judgement) -> dict[str, Any]:
    """Return the verdict for a script; days as ISO text, None where it cannot be said."""
    s = told.speeds
    return {
        "planting": told.planting,
        "verdict": told.verdict,
        "probability_losing": told.probability_losing,
        "front_per_day": s.front if s else None,
        "growth_per_day": s.growth if s else None,
        "front_minus_growth_per_day": s.difference if s else None,
        "intervals": {
            "level": 0.9,
            "front_per_day": list(s.front_limits) if s else None,
            "growth_per_day": list(s.growth_limits) if s else None,
            "front_minus_growth_per_day": list(s.difference_limits) if s else None,
        },
        "clean_depth": told.clean_depth,
        "clean_depth_below_six_on": _iso(told.below_six_on),
        "more_visits_needed": told.more_visits,
        "settled_by": _iso(told.settled_by),
        "next_strip_due": _iso(told.next_strip_due),
        "days_bought": told.days_bought,
        "newly_diseased": _new_json(told),
        "diseased_leaves_so_far": told.diseased_ever,
        "refusals": list(told.refusals),
        "because": told.why,
        "sentence": verdict_sentence(told),
        "lines": lines_below(told),
    }


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def _new_json(told: Judgement) -> dict[str, Any] | None:
    found = told.new_leaves
    if found is None or found.compared is None:
        return None
    return {
        "before": found.before_n,
        "before_plant_days": found.before_d,
        "after": found.after_n,
        "after_plant_days": found.after_d,
        "p_least_likely": found.compared.p_least_likely,
        "p_double_tail": found.compared.p_double_tail,
    }
