"""The verdict on stripping in a grower's words, and as JSON for a script."""

from datetime import timedelta
from math import ceil

from scout.plain import day_text
from scout.services.keeping_timing import FALLBACK_INCUBATION_D, OldInfections, may_compare
from scout.services.keeping_up import Judgement

_MONTH_D = 30.0
CHOICE = "A leaf counts as diseased from its first spot over 2 mm (our choice); plain yellow does not count."


def verdict_sentence(told: Judgement) -> str:
    """Return the one sentence that stands on top."""
    if told.refusals:
        return told.refusals[0]
    if told.why in ("fruit", "fruit_missing"):
        return _fruit_sentence(told)
    words = {"keeping_up": _keeping, "losing": _losing, "cannot_tell": _untold}
    return words[told.verdict](told)


def _keeping(told: Judgement) -> str:
    if told.why == "held":
        return (
            f"Still keeping up, with {_clean(told)} clean above the spots, but less surely than before: "
            "the last visit spoke for the spots. Count again within a week."
        )
    return f"Keeping up: new leaves come faster than the spots climb, with {_clean(told)} clean above the spots."


def _losing(told: Judgement) -> str:
    if told.why == "tip":
        return f"Losing: the spots have reached the tip; about {_clean(told)} clean."
    if told.why == "held":
        return "Losing, as told before; the last visit looks a little better. Count again within a week."
    short = told.below_six_on
    when = (
        "" if short is None or told.last_on is None else f" Fewer than six clean leaves from about {day_text(short)}."
    )
    if short is not None and short == told.last_on:
        when = " Fewer than six clean leaves are left already."
    return f"Losing: the spots climb faster than the plants grow.{when}"


def _clean(told: Judgement) -> str:
    count = round(told.clean_depth or 0.0)
    return "1 leaf" if count == 1 else f"{count} leaves"


def _untold(told: Judgement) -> str:
    if told.visits_n == 0 or told.why == "no_counts":
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
    spots = f"spots there about {day_text(told.spots_at_fruit_on)}" if told.spots_at_fruit_on else "spots hardly climb"
    both = f"{spots}, fruit ripe about {day_text(fruit.ripe_on)}"
    if told.probability_losing is None:
        return f"Cannot tell: fruit ripe about {day_text(fruit.ripe_on)}, but no spot was measured yet."
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
    if told.visits_n < 2:
        return f"Measure {'again' if told.visits_n else 'now, and again'} in 3 to 7 days.{_more_plants(told)}"
    if told.more_visits is None or told.settled_by is None:
        return f"More than six visits at this rate.{_more_plants(told)}"
    visits = "One more visit" if told.more_visits == 1 else f"{told.more_visits} more visits"
    return f"{visits}, by {day_text(told.settled_by)}, would tell if it goes on like this."


def _more_plants(told: Judgement) -> str:
    """Ask for the plants that are wanting: two or three are followed, the worst among them."""
    plants_n = len({row.label for row in told.followed.rows})
    if plants_n > 2:
        return ""
    return " Mark a third plant too, the worst." if plants_n == 2 else " Mark two or three plants, the worst too."


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
    if told.probability_losing is None or told.why in ("no_spots", "no_counts"):
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
    found, old = told.new_leaves, told.old_infections
    if found is None or old is None:
        return []
    lines = []
    if found.compared is not None and found.counts_from_d is not None and told.first_on is not None:
        since = told.first_on + timedelta(days=ceil(found.counts_from_d))
        lines.append(
            f"Newly spotted leaves: {found.before_n} in {found.before_d / 7:.1f} plant-weeks before stripping, "
            f"{found.after_n} in {found.after_d / 7:.1f} after it, counted from {day_text(since)} "
            f"(chance alone: p {found.compared.p_least_likely:.2g})."
        )
    return [*lines, _old_line(old), *_left_lines(told)]


def _old_line(old: OldInfections) -> str:
    """Say until when leaves infected before the last stripping can still turn, and by which temperature."""
    days = f"{old.days:.0f} days to the first spot"
    if old.mean_c is None:
        warmth = "the longest time known; no temperature to go by"
    elif old.days > old.usual_days + 0.5:
        warmth = f"{old.usual_days:g} in fair warmth, longer at the mean of {old.mean_c:.0f} °C here"
    else:
        warmth = f"the longest time known at the mean of {old.mean_c:.0f} °C here"
    return (
        f"Leaves infected before the stripping of {day_text(old.stripped_on)} can still turn until "
        f"{day_text(old.until)} ({days}: {warmth}). Only spots after that are new."
    )


def _left_lines(told: Judgement) -> list[str]:
    """Tell the plants left unstripped beside the stripped ones, never as a proof by itself."""
    if not told.followed.unstripped:
        return []
    if not may_compare(told.followed):
        return [
            "A plant is left unstripped here. That is only for Septoria and early blight, named as the open problem: "
            "with anything else it feeds the plants beside it."
        ]
    last = "An unstripped plant feeds its neighbours: come to it last, and take its spots for no proof."
    found = told.left
    if found is None or found.compared is None:
        return [f"Left unstripped beside stripped: too few counts to compare yet. {last}"]
    return [
        f"Left unstripped: {found.left_n} newly spotted leaves in {found.left_d / 7:.1f} plant-weeks; stripped, the "
        f"same weeks: {found.stripped_n} in {found.stripped_d / 7:.1f} "
        f"(chance alone: p {found.compared.p_least_likely:.2g}). {last}"
    ]


def _next_line(told: Judgement) -> str | None:
    if told.next_strip_due is not None:
        late = told.last_on is not None and told.next_strip_due < told.last_on
        due = "was due" if late else "due"
        return f"Next stripping {due} by {day_text(told.next_strip_due)}, before the new spots make spores."
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
    bought = days_bought_words(told.days_bought)
    return (
        f"If nothing had been stripped last time, the disease would stand {bought} further on "
        "at this garden's own rate. Stripping delays, it never ends it."
    )


def days_bought_words(days: float) -> str:
    """Return a delay as a grower reads it; at a rate near nought the number itself would mean nothing."""
    return f"about {days:.0f} days" if days <= _MONTH_D else "more than a month"
