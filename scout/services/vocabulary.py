"""The vocabulary for scripts, and one entry as a page to read."""

from typing import Any

from scout.errors import BadInput, NotFound
from scout.knowledge.base import Knowledge
from scout.knowledge.cause_file import Action, Cause
from scout.knowledge.control_file import Control
from scout.knowledge.crop_file import Crop
from scout.knowledge.vocabulary import Symptom
from scout.plain import days_text
from scout.services.wording import kind_text, source_text

KINDS = ("crops", "symptoms", "circumstances", "causes", "controls")


def listed(knowledge: Knowledge, kind: str) -> list[dict[str, Any]]:
    """Return the entries of one kind, as printed by `bedwalk knowledge list KIND --json`."""
    if kind == "crops":
        return [_crop(crop) for crop in knowledge.crops.values()]
    if kind == "symptoms":
        return [_symptom(knowledge, s) for s in knowledge.symptoms.values() if s.status != "retired"]
    if kind == "circumstances":
        return [
            {"id": c.id, "name": c.name, "question": c.question, "kind": c.kind, "aliases": list(c.synonyms)}
            for c in knowledge.circumstances.values()
        ]
    if kind == "causes":
        return [_cause(cause) for cause in knowledge.causes.values() if cause.status != "retired"]
    if kind == "controls":
        return [
            {"id": c.id, "name": c.name, "kind": knowledge.control_kind[c.id], "do": c.do}
            for c in knowledge.controls.values()
        ]
    raise BadInput(f"There is no list of {kind!r}; there are {', '.join(KINDS)}.")


def _crop(crop: Crop) -> dict[str, Any]:
    stages = [{"id": stage.id, "name": stage.name, "from_day": stage.from_day} for stage in crop.stages]
    return {"id": crop.id, "name": crop.name, "latin": crop.latin, "aliases": list(crop.aliases), "stages": stages}


def _symptom(knowledge: Knowledge, symptom: Symptom) -> dict[str, Any]:
    return {
        "id": symptom.id,
        "name": symptom.name,
        "part": knowledge.part_of[symptom.id],
        "kind": symptom.kind,
        "question": symptom.question,
        "effort": symptom.effort,
        "crops": list(symptom.crops),
        "aliases": list(symptom.synonyms),
    }


def _cause(cause: Cause) -> dict[str, Any]:
    return {
        "id": cause.id,
        "name": cause.name,
        "kind": cause.kind,
        "agent": cause.agent,
        "aliases": list(cause.aliases),
        "crops": dict(cause.common),
    }


def shown(knowledge: Knowledge, entry: str) -> list[str]:
    """Return one entry as lines of a page: a crop, symptom, cause or control, by id."""
    if entry in knowledge.causes:
        return cause_lines(knowledge, knowledge.causes[entry])
    if entry in knowledge.crops:
        return _crop_lines(knowledge, knowledge.crops[entry])
    if entry in knowledge.controls:
        return _control_lines(knowledge, knowledge.controls[entry])
    if entry in knowledge.symptoms:
        return _symptom_lines(knowledge, knowledge.symptoms[entry])
    raise NotFound(f"There is no crop, symptom, cause or control {entry!r}; 'bedwalk knowledge list' prints the ids.")


def cause_lines(knowledge: Knowledge, cause: Cause) -> list[str]:
    """Return a cause as a field guide page."""
    kind = f" ({kind_text(cause.kind)})"
    lines = [cause.name.removesuffix(kind) + kind]
    lines += [cause.agent] if cause.agent else []
    lines += ["", cause.summary]
    lines += [f"At stake: {cause.at_stake}"] if cause.at_stake else []
    lines += [f"Quick check: {cause.fast_check}"] if cause.fast_check else []
    lines += [_common_line(knowledge, cause), "", "Confirm", *(f"  {text}" for text in cause.confirm)]
    if cause.look_alikes:
        lines.append("Easily confused with")
        lines += [
            f"  {knowledge.causes[o.cause].name}: {o.split}" for o in cause.look_alikes if o.cause in knowledge.causes
        ]
    for when, title in (("today", "Today"), ("season", "This season"), ("next_season", "Next season")):
        steps = [a for a in cause.do if a.when == when]
        lines += [title, *(_step_line(knowledge, action) for action in steps)] if steps else []
    lines += ["Do not", *(f"  {text}" for text in cause.dont)] if cause.dont else []
    lines += [f"Pull: {cause.pull_when}"] if cause.pull_when else []
    lines += [f"Ask a plant clinic: {cause.clinic_when}"] if cause.clinic_when else []
    lines += [f"Look again in {days_text(cause.look_again_d)}.", "", "Sources"]
    return lines + [f"  {source_text(knowledge, key)}" for key in cause.sources]


def _common_line(knowledge: Knowledge, cause: Cause) -> str:
    """Return on which crops it is met, those where it is commonest first."""
    words = list(knowledge.scales.commonness.words)
    crops = sorted(cause.common, key=lambda crop: words.index(cause.common[crop]))
    by_word: dict[str, list[str]] = {}
    for crop in crops:
        by_word.setdefault(cause.common[crop].replace("_", " "), []).append(knowledge.crops[crop].name.lower())
    return "How common: " + "; ".join(f"{word} on {', '.join(names)}" for word, names in by_word.items()) + "."


def _step_line(knowledge: Knowledge, action: Action) -> str:
    control = knowledge.controls[action.control]
    only = ", ".join(knowledge.crops[crop].name.lower() for crop in action.crops)
    return f"  {control.name}{f' (only {only})' if only else ''}: {control.do}"


def _crop_lines(knowledge: Knowledge, crop: Crop) -> list[str]:
    lines = [f"{crop.name} ({crop.latin})", "", f"Ready: {crop.ready}", f"Overmature: {crop.overmature}"]
    lines += ["", *_time_lines(crop), *_warmth_lines(crop)]
    lines += ["", "Normal, not a disease", *(f"  {text}" for text in crop.normal)] if crop.normal else []
    lines += ["", "Looks", *(f"  {look.ask} ({look.why})" for look in crop.looks)]
    lines += _sowing_lines(crop)
    return [*lines, "", "Sources", *(f"  {source_text(knowledge, key)}" for key in crop.sources)]


def _time_lines(crop: Crop) -> list[str]:
    """Return the days to picking and to each stage."""
    since = "sowing" if crop.counted_from == "sowing" else "setting out"
    stages = "; ".join(f"from day {stage.from_day} {stage.name.lower()}" for stage in crop.stages)
    first, last = crop.days_to_maturity_d
    lines = [f"Days from {since} to picking: {first:g} to {last:g}. Stages: {stages}."]
    if crop.flower_to_pick_d:
        first, last = crop.flower_to_pick_d
        lines.append(f"Days from flower to picking: {first:g} to {last:g}.")
    return lines


def _warmth_lines(crop: Crop) -> list[str]:
    """Return the warmth the crop likes and in which its flowers fail; nothing where no figure is known."""
    lines = []
    if crop.comfort:
        best, limits = crop.comfort.best_c, crop.comfort.limits_c
        inside = f"{_warm(best[0])} to {_warm(best[1])}"
        lines.append(f"Best at {inside} on average; suffers under {_warm(limits[0])} or over {_warm(limits[1])}.")
    if crop.fruit_set:
        day, hot, cold = crop.fruit_set.day_max_c, crop.fruit_set.night_max_c, crop.fruit_set.night_min_c
        told = [(day, "days over"), (hot, "nights over"), (cold, "nights under")]
        parts = [f"{words} {_warm(value_c)}" for value_c, words in told if value_c is not None]
        lines.append(f"Flowers fail in {', '.join(parts)}.")
    return lines


def _warm(value_c: float) -> str:
    from scout.science.units import f_from_c

    return f"{value_c:.0f} °C ({f_from_c(value_c):.0f} °F)"


def _sowing_lines(crop: Crop) -> list[str]:
    """Return the days from seed to seedling by the warmth of the soil, as printed; nothing for a crop not tested."""
    from scout.science.germination import emergence

    soils = [(soil_c, emergence(crop.id, float(soil_c))) for soil_c in range(0, 41, 5)]
    told = [f"{one.days_d:.0f} days at {_warm(c)}" for c, one in soils if one.days_d is not None]
    if not told:
        return []
    cold, hot = ([c for c, one in soils if one.told == why] for why in ("too_cold", "too_hot"))
    little = [f"at {max(cold)} °C and less" for _ in cold[:1]] + [f"at {min(hot)} °C and more" for _ in hot[:1]]
    lines = ["", "From seed to seedling, by the warmth of the soil", f"  {', '.join(told)}."]
    lines += [f"  Little comes up {' or '.join(little)}."] if little else []
    return [*lines, "  Harrington and Minges 1954; seed 1 cm deep, copies of the table differ by a day."]


def _control_lines(knowledge: Knowledge, control: Control) -> list[str]:
    lines = [f"{control.name} ({knowledge.control_kind[control.id]})", "", control.do]
    lines += [f"  {step}" for step in control.steps]
    lines += [knowledge.cautions[key].text for key in control.cautions]
    lines += [f"Count: {control.count}", f"It worked when: {control.worked}", "", "Sources"]
    return lines + [f"  {source_text(knowledge, key)}" for key in control.sources]


def _symptom_lines(knowledge: Knowledge, symptom: Symptom) -> list[str]:
    lines = [symptom.name, "", symptom.question] + ([symptom.how] if symptom.how else [])
    shows = [c for c in knowledge.causes.values() if any(clue.symptom == symptom.id for clue in c.clues)]
    return [*lines, "", "Seen with", *(f"  {cause.name} ({', '.join(cause.common)})" for cause in shows)]
