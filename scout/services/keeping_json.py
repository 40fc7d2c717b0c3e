"""The verdict on stripping as JSON for a script; days as ISO text, None where it cannot be said."""

from datetime import date
from typing import Any

from scout.services.keeping_doubts import doubts_in
from scout.services.keeping_up import Judgement
from scout.services.keeping_words import lines_below, verdict_sentence


def as_json(told: Judgement) -> dict[str, Any]:
    """Return the verdict for a script."""
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
        "old_infections": _old_json(told),
        "left_unstripped": _left_json(told),
        "diseased_leaves_so_far": told.diseased_ever,
        "refusals": list(told.refusals),
        "doubts": list(doubts_in(told.followed.rows)),
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


def _old_json(told: Judgement) -> dict[str, Any] | None:
    old = told.old_infections
    if old is None:
        return None
    return {
        "stripped_on": old.stripped_on.isoformat(),
        "may_turn_until": old.until.isoformat(),
        "days": old.days,
        "usual_days": old.usual_days,
        "days_with_temperature": old.days_known,
        "mean_c": old.mean_c,
    }


def _left_json(told: Judgement) -> dict[str, Any] | None:
    found = told.left
    if found is None:
        return None
    return {
        "left": found.left_n,
        "left_plant_days": found.left_d,
        "stripped": found.stripped_n,
        "stripped_plant_days": found.stripped_d,
        "rate_ratio": found.compared.ratio if found.compared else None,
        "p_least_likely": found.compared.p_least_likely if found.compared else None,
        "p_double_tail": found.compared.p_double_tail if found.compared else None,
    }
