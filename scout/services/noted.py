"""One finding kept in one act: symptom, counts, share of leaf area and which plants, all of it or none."""

from dataclasses import dataclass

from scout.errors import BadInput
from scout.services import answers
from scout.services.context import Context
from scout.services.views import FindingView, LookView, StopView

Thirds = tuple[float | None, float | None, float | None]


@dataclass(frozen=True)
class NewFinding:
    """What was given; None was not said."""

    symptom: str
    seen: bool = True
    looked_n: int | None = None
    affected_n: int | None = None
    severity_pct: Thirds = (None, None, None)
    which: str | None = None


def note_finding(context: Context, stop: StopView, given: NewFinding) -> FindingView:
    """Keep a finding at a stop and return it; where a look asks for the symptom, that look counts as made.

    A count of affected plants without the number looked at is taken of all plants standing. Errors: BadInput.
    """
    looked_n = given.looked_n if given.looked_n is not None else stop.plants_n
    _refuse_impossible(given, looked_n)
    look = _look_for(stop, given.symptom)
    manner = "look" if look else "glance" if given.seen else "asked"
    state = "seen" if given.seen else "not_seen"
    with context.write():
        if look is not None and given.seen and look.state != "seen":
            answers.answer_look(context, stop.id, look.id, "seen", looked_n)
        place = look.place if look else None
        finding_id = answers.add_finding(
            context, stop.id, given.symptom, manner, state=state, looked_n=looked_n, place=place
        )
        if given.affected_n is not None and given.seen:
            answers.set_counts(context, finding_id, looked_n, given.affected_n)
        if given.severity_pct != (None, None, None):
            answers.set_severity(context, finding_id, *given.severity_pct)
        if given.which:
            answers.set_which(context, finding_id, given.which)
        return answers.finding(context, finding_id)


def _look_for(stop: StopView, symptom: str) -> LookView | None:
    return next((look for look in stop.looks if any(one.id == symptom for one in look.symptoms)), None)


def _refuse_impossible(given: NewFinding, looked_n: int | None) -> None:
    if looked_n == 0:
        raise BadInput("0 plants looked at is no look; say on how many you looked.")
    if given.affected_n is None:
        return
    if given.seen and given.affected_n == 0:
        raise BadInput("Seen on 0 plants is not seen; note it as not seen instead.")
    if not given.seen and given.affected_n > 0:
        raise BadInput("Not seen and on some plants cannot both be; keep one of them.")
    if looked_n is None:
        raise BadInput("Say how many plants were looked at too; the planting was never counted.")
    if given.affected_n > looked_n:
        raise BadInput(f"{given.affected_n} affected of {looked_n} looked at cannot be; say how many were looked at.")
