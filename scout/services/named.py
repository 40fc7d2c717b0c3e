"""What a grower names in words: a planting, a job, a look, a cause; for an unknown word it lists what there is."""

from collections.abc import Iterable, Sequence
from typing import TypeVar

from scout.errors import BadInput, NotFound
from scout.plain import clean_text, shortened
from scout.services.context import Context
from scout.services.garden import Planted, planted
from scout.services.marked import MarkedView, marked_plants
from scout.services.symptom_list import as_view, meant_by
from scout.services.troubles import JobLine, job_lines
from scout.services.views import CausePage, ControlRow, LookView, StopView, SymptomView

T = TypeVar("T")
LISTED = 12
"""So many names are listed in a sentence; more would scroll away what it says."""


def _key(words: str) -> str:
    return "/".join(part.strip() for part in clean_text(words).casefold().split("/"))


def said(words: str) -> str:
    """Return typed words in quotation marks, short and safe to print, for a sentence."""
    return f"“{shortened(words)}”"


def listed(names: Iterable[str]) -> str:
    """Return names for a sentence, the first dozen of them."""
    known = list(dict.fromkeys(names))
    more = f" and {len(known) - LISTED} more" if len(known) > LISTED else ""
    return f"{', '.join(known[:LISTED]) or 'none yet'}{more}"


def planting_named(context: Context, words: str) -> Planted:
    """Return the planting by id, "bed/crop", bed, or crop where only one is meant; else the sentence lists them."""
    plants = planted(context)
    key = _key(words)
    for names in (_whole_names, _bed_names, _crop_names):
        found = {one.planting_id: one for one in plants if key in names(one)}
        if len(found) == 1:
            return next(iter(found.values()))
        if found:
            ways = listed(full_name(one) for one in found.values())
            raise BadInput(f"{said(words)} can be any of {ways}; write it like that, or give its id.")
    raise NotFound(f"There is no planting {said(words)} today; there are: {listed(map(full_name, plants))}.")


def full_name(plant: Planted) -> str:
    """Return how a planting is named so that it is found again: bed/crop and variety."""
    return f"{plant.bed}/{plant.label}"


def _whole_names(plant: Planted) -> set[str]:
    return {plant.planting_id} | {f"{_key(plant.bed)}/{name}" for name in _crop_names(plant)}


def _bed_names(plant: Planted) -> set[str]:
    return {_key(plant.bed)}


def _crop_names(plant: Planted) -> set[str]:
    crop = plant.crop
    return {_key(name) for name in (crop.id, crop.name, plant.label, plant.variety or crop.id, *crop.aliases)}


def bed_named(context: Context, words: str) -> str:
    """Return the id of the bed in use with that name; NotFound lists the beds."""
    from scout.services.garden import bed_names

    beds = bed_names(context)
    for bed_id, name, _ in beds:
        if _key(words) in (bed_id, _key(name)):
            return bed_id
    raise NotFound(f"There is no bed {said(words)}; there are: {listed(name for _, name, _ in beds)}.")


def job_named(context: Context, words: str) -> JobLine:
    """Return the job by its number in the list, its id, or its title where only one has it."""
    jobs = job_lines(context)
    key = _key(words)
    if key.isascii() and key.isdigit() and 1 <= int(key[:9]) <= len(jobs):
        return jobs[int(key) - 1]
    found = [job for job in jobs if key in (job.id, _key(job.title), f"{_key(job.bed)}/{_key(job.title)}")]
    if len(found) > 1:
        ways = listed(f"{job.bed}/{job.title}" for job in found)
        raise BadInput(f"{said(words)} can be any of {ways}; give the number of 'bedwalk jobs' or the id.")
    if found:
        return found[0]
    raise NotFound(f"There is no open job {said(words)}; 'bedwalk jobs' lists those there are.")


def mark_named(context: Context, plant: Planted, words: str) -> MarkedView:
    """Return a marked plant of a planting by its label or id."""
    marks = marked_plants(context, plant.planting_id)
    names = listed(mark.label for mark in marks)
    missing = f"There is no marked plant {said(words)} in {full_name(plant)}; there are: {names}."
    return _found(words, [(mark, (mark.id, mark.label)) for mark in marks], missing)


def look_named(stop: StopView, words: str) -> LookView:
    """Return a look of a stop by its number or id."""
    looks = [(look, (str(number), look.id)) for number, look in enumerate(stop.looks, 1)]
    return _found(words, looks, f"There is no look {said(words)} here; give 1 to {len(looks)} or its id.")


def symptom_meant(context: Context, crop_id: str, words: str) -> tuple[SymptomView | None, tuple[SymptomView, ...]]:
    """Return the symptom named by id, name or published alias; else None and what the plain words may mean.

    Guesses are for the grower to confirm, never to be used as they are.
    """
    shown = context.knowledge.symptoms_of(crop_id)
    try:
        exact = context.knowledge.symptom(clean_text(words))
    except NotFound:
        return None, meant_by(context, crop_id, clean_text(words)[:2000])
    if exact not in shown:
        crop = context.knowledge.crops[crop_id].name.lower()
        raise BadInput(f"{exact.name} ({exact.id}) is not one of the symptoms of {crop}.")
    return as_view(exact), ()


def cause_named(context: Context, crop_id: str, words: str) -> str:
    """Return the id of a cause of the crop by id, name or alias."""
    causes = context.knowledge.causes_of(crop_id)
    missing = f"There is no cause {said(words)} of this crop; 'bedwalk walk causes' names the likely ones."
    return _found(words, [(cause.id, (cause.id, cause.name, *cause.aliases)) for cause in causes], missing)


def control_named(page: CausePage, words: str) -> ControlRow:
    """Return a control of a cause's page by id, name or number in the page."""
    rows = [(row, (row.id, row.name, str(number))) for number, row in enumerate(page.controls, 1)]
    names = listed(f"{row.name} ({row.id})" for row in page.controls)
    return _found(words, rows, f"{page.name} has no control {said(words)}; there are: {names}.")


def enemy_named(context: Context, words: str) -> tuple[str, str]:
    """Return id and name of a natural enemy by id or name."""
    enemies = list(context.knowledge.enemies.values())
    names = listed(enemy.id for enemy in enemies)
    missing = f"There is no natural enemy {said(words)}; there are: {names}."
    return _found(words, [((enemy.id, enemy.name), (enemy.id, enemy.name)) for enemy in enemies], missing)


def _found(words: str, things: Sequence[tuple[T, Sequence[str]]], missing: str) -> T:
    key = _key(words)
    for thing, names in things:
        if key in map(_key, names):
            return thing
    raise NotFound(missing)
