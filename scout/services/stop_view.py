"""One stop as it is shown: what is known before, its looks and what they gave."""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING, cast

from scout.diagnosis.looks import looks_for
from scout.knowledge.crop_file import Look
from scout.services.answers import findings_of
from scout.services.context import Context
from scout.services.garden import Planted, planted, planted_as
from scout.services.stop_facts import StopFacts, facts_of
from scout.services.symptom_list import as_view
from scout.services.troubles import open_causes
from scout.services.views import AT_LOOKS, Asking, LookState, LookView, StopView

if TYPE_CHECKING:
    from scout.store.walks import LookAnswerView
    from scout.store.walks import StopView as StoredStop


def stop_view(context: Context, waiting: Sequence["StoredStop"], closed: int, total: int) -> StopView:
    """Return the first of the stops that wait, of a walk in which `closed` of `total` are closed."""
    from scout.store import walks

    stop, *others = waiting
    plant = planted_at(context, stop)
    facts = facts_of(context, plant)
    with context.read() as session:
        answers = walks.look_answers(session=session, stop_id=stop.id)
    looks = tuple(_look(context, look, answers) for look in looks_at(context, stop))
    clear_all = _may_clear(facts)
    also_here = [other for other in others if other.bed_id == stop.bed_id]
    return StopView(
        id=stop.id,
        walk_id=stop.walk_id,
        planting_id=stop.planting_id,
        number=closed + 1,
        total=total,
        bed=plant.bed,
        bed_kind=plant.bed_kind,
        crop_id=plant.crop.id,
        crop=plant.crop.name,
        variety=plant.variety,
        plants_n=plant.plants_n,
        group=facts.group,
        why=stop.why,
        last_visit=facts.last_visit,
        holds=facts.holds,
        troubles=facts.troubles,
        looks=looks,
        findings=findings_of(context, stop.id),
        picks=facts.picks,
        may_clear_all=clear_all,
        may_clear_bed=clear_all and bool(also_here) and all(clearable(context, other) for other in also_here),
        marked_due=facts.marked_due,
        asking=_asking(stop.asking),
        state=stop.state,
        pick_lines=facts.pick_lines,
        going_on=facts.going_on,
        jobs=facts.jobs,
        looked_n=_looked_n(answers.values(), plant.plants_n),
    )


def _looked_n(answers: "Iterable[LookAnswerView]", plants_n: int | None) -> int | None:
    newest_first = sorted(answers, key=lambda one: one.id, reverse=True)
    return next((one.looked_n for one in newest_first if one.looked_n is not None), plants_n)


def clearable(context: Context, stop: "StoredStop") -> bool:
    """Return whether a stop may be closed as all clear: no problem is open there and no marked plant is due."""
    return _may_clear(facts_of(context, planted_at(context, stop)))


def _may_clear(facts: StopFacts) -> bool:
    return not facts.troubles and not facts.marked_due


def planted_at(context: Context, stop: "StoredStop") -> Planted:
    """Return the planting as it stands in the stop's bed; one pulled since is shown as it stood."""
    for one in planted(context):
        if one.planting_id == stop.planting_id and one.bed_id == stop.bed_id:
            return one
    return planted_as(context, stop.planting_id)


def looks_at(context: Context, stop: "StoredStop") -> tuple[Look, ...]:
    """Return the few looks of a stop; they stay the same while the stop is answered."""
    from scout.store import walks

    plant = planted_at(context, stop)
    with context.read() as session:
        made = walks.last_looks(session=session, planting_id=plant.planting_id, except_stop=stop.id)
    last = {look: date.fromisoformat(at[:10]) for look, at in made.items()}
    hour = int(stop.opened_at[11:13]) if stop.opened_at and len(stop.opened_at) > 10 else context.here_and_now.hour
    causes = open_causes(context, plant.planting_id)
    return looks_for(plant.crop, plant.stage, causes, last, context.today, hour)


def _look(context: Context, look: Look, answers: "dict[str, LookAnswerView]") -> LookView:
    given = answers.get(look.id)
    state = cast(LookState, given.answer if given else "open")
    symptoms = tuple(as_view(context.knowledge.symptoms[one]) for one in look.symptoms)
    return LookView(look.id, look.place, look.ask, look.why, state, symptoms)


def _asking(text: str | None) -> Asking | None:
    if not text or text == AT_LOOKS.text:
        return None
    what, _, subject = text.partition(":")
    return Asking(what, subject)  # type: ignore[arg-type]
