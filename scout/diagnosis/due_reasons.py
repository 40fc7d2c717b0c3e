"""Every dated reason to look at a planting again: intervals, latent windows, weather, pests, jobs, heat."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from scout.diagnosis.due import STAKES, Reason
from scout.diagnosis.due_weather import CropRisk, RiskDay, heat_reasons, weather_reasons
from scout.knowledge.cause_file import Cause
from scout.knowledge.crop_file import Crop
from scout.knowledge.schema import StageId
from scout.plain import day_text, days_text, lower_first

QUIET_D = 7
"""Weekly is the usual start (scouting guides of university extension); closer while plants are small."""
SEEDLING_D = 3
SEEN_AGAIN_D = 4
"""Days after which something seen is looked at again, whether or not it has a name yet. Our choice."""
NEAR_D = 1
"""Growers are told to look daily while late blight or downy mildew is about near by."""


@dataclass(frozen=True)
class LookFacts:
    """What is known of one planting when its next look is worked out."""

    crop: Crop
    stage: StageId | None
    last_on: date | None
    """The last visit; None: never."""
    open_causes: tuple[Cause, ...] = ()
    given: tuple[Reason, ...] = ()
    """Reasons dated elsewhere: jobs and results, pest stages by degree days."""
    seen_on: date | None = None
    """The day of the last visit, where something was seen at it."""
    near: tuple[Cause, ...] = ()
    """Diseases of this crop reported near here."""
    in_tub: bool = False
    risk: CropRisk | None = None
    days: Sequence[RiskDay] = field(default=())


def reasons_for(facts: LookFacts, on: date) -> tuple[Reason, ...]:
    """Return every dated reason; never looked at stands alone."""
    last = facts.last_on
    if last is None:
        young = facts.stage == "seedling"
        return (Reason(on, "not looked at yet", "never", stake=2.0 if young else 1.0, risk=1.5), *facts.given)
    found = [*_by_interval(facts, last), *_problems(facts, last), *facts.given]
    if facts.risk is not None:
        found += weather_reasons(facts.risk, facts.days, last, facts.stage)
    heat = heat_reasons(facts.crop, facts.stage, facts.days, last, on, in_tub=facts.in_tub)
    if any(reason.kind == "picking" for reason in heat):  # one pick is one reason, however soon
        found = [reason for reason in found if reason.kind != "picking"]
    return (*found, *heat)


def _by_interval(facts: LookFacts, last: date) -> list[Reason]:
    found = [Reason(last + timedelta(days=QUIET_D), f"last looked at on {day_text(last)}", "quiet")]
    if facts.stage == "seedling":
        on = last + timedelta(days=SEEDLING_D)
        found.append(Reason(on, "small plants die of what large ones ignore", "young", 2.0, 1.5, SEEDLING_D))
    every = facts.crop.pick_every_d
    if picking(facts.crop, facts.stage) and every is not None:
        found.append(Reason(last + timedelta(days=every), "picking is due", "picking", 1.5, 1.0, every))
    return found


def picking(crop: Crop, stage: StageId | None) -> bool:
    """Return whether the planting is picked over at a visit."""
    return stage in ("fruiting", "finishing") and crop.pick_every_d is not None


def _problems(facts: LookFacts, last: date) -> list[Reason]:
    found = [_open_problem(cause, last) for cause in facts.open_causes]
    if facts.seen_on is not None:
        again = facts.seen_on + timedelta(days=SEEN_AGAIN_D)
        why = f"something was seen on {day_text(facts.seen_on)}"
        found.append(Reason(again, why, "seen", 1.5, 2.0, SEEN_AGAIN_D))
    for cause in facts.near:
        told = f"{cause.name} was reported near here"
        on, must = last + timedelta(days=NEAR_D), cause.stake == "high"
        why = f"{lower_first(told)}: look daily"
        found.append(Reason(on, why, "near", STAKES[cause.stake], 2.0, NEAR_D, must, told))
    return found


def _open_problem(cause: Cause, last: date) -> Reason:
    """Return the look before what was left at the last visit can bear spores, or the cause's own interval if sooner."""
    wait, why = cause.look_again_d, f"open problem: {lower_first(cause.name)}"
    window = latent_window_d(cause)
    if window is not None and window <= wait:
        wait = window
        why = f"{why}, new spores from {days_text(wait)} on"
    urgent = cause.stake in ("high", "person")
    alert = f"{cause.name}: look again, it moves fast" if urgent else ""
    return Reason(last + timedelta(days=wait), why, "problem", STAKES[cause.stake], 2.0, wait, urgent, alert)


def latent_window_d(cause: Cause) -> int | None:
    """Return the days from an infection to its first spores at the quickest; None where no figure is known."""
    return max(1, int(cause.latent_d[0])) if cause.latent_d is not None else None
