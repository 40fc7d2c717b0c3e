"""Take back the last thing given, and say in a grower's words what it was and where."""

from collections.abc import Callable
from datetime import date
from typing import TYPE_CHECKING, Any

from scout.plain import day_text
from scout.services.context import Context

if TYPE_CHECKING:
    from scout.store.undo import TakenBack

Values = dict[str, Any]
Named = Callable[[Context, Values], str]


def undo(context: Context) -> str:
    """Take back the last thing given on this device and say what it was; Refused where there is nothing."""
    from scout.store.undo import undo_last

    undone = undo_last(context.engine, context.stamp)
    if any(one.entity == "walk" and not one.added for one in undone.changes):
        return "Taken back; the walk goes on."
    chief = min(undone.changes, key=lambda one: (_rank(one.entity), not one.added), default=None)
    if chief is None:
        return "Taken back."
    return f"Taken back: {_what(context, chief)}{_where(context, chief.values)}."


def _rank(entity: str) -> int:
    """Return where a kind of row stands among what one act wrote: the act is named after the first."""
    return list(_SAID).index(entity) if entity in _SAID else len(_SAID)


def _what(context: Context, one: "TakenBack") -> str:
    added, changed = _SAID.get(one.entity, (_plain(one.entity), _plain(f"change of {one.entity}")))
    return (added if one.added else changed)(context, one.values)


def _where(context: Context, values: Values) -> str:
    """Return ", Long bed" where the row tells its bed or planting."""
    from scout.services.garden import planted

    for key in ("bed_id", "planting_id"):
        if values.get(key):
            beds = [one.bed for one in planted(context) if getattr(one, key) == values[key]]
            return f", {beds[0]}" if beds else ""
    return ""


def _plain(words: str) -> Named:
    return lambda _context, _values: words.replace("_", " ")


def _named(words: str, key: str) -> Named:
    """Return words followed by what the row says of itself."""
    return lambda _context, values: f"{words} “{values[key]}”" if values.get(key) else words


def _day(words: str) -> Named:
    """Return words followed by the day the row is of."""

    def said(_: Context, values: Values) -> str:
        return f"{words} of {day_text(date.fromisoformat(values['on']))}" if values.get("on") else words

    return said


def _symptom(words: str) -> Named:
    def said(context: Context, values: Values) -> str:
        symptom = context.knowledge.symptoms.get(values.get("symptom", ""))
        return f"{words} “{symptom.name}”" if symptom else words

    return said


def _stop(_: Context, values: Values) -> str:
    return "leaving a stop for later" if values.get("state") == "deferred" else "what was last given at a stop"


def _job(_: Context, values: Values) -> str:
    return f"what became of “{values['title']}”" if values.get("title") else "what became of a job"


_SAID: dict[str, tuple[Named, Named]] = {
    "clearance": (_plain("the clear stop"), _plain("the clear stop")),
    "outcome": (_plain("whether it worked"), _plain("whether it worked")),
    "finding": (_symptom("seen:"), _symptom("what was said of")),
    "look_answer": (_plain("the answer to a look"), _plain("the answer to a look")),
    "job": (_named("the job", "title"), _job),
    "measurement": (_plain("the measurement of a marked plant"), _plain("a change of a measurement")),
    "marked_plant": (_named("the marked plant", "label"), _named("that it is measured no more:", "label")),
    "counted": (_named("the count of", "what"), _named("the count of", "what")),
    "hold": (_named("the hold for", "reason"), _named("a change of the hold for", "reason")),
    "pick": (_plain("the piece picked"), _plain("the last piece picked")),
    "watering": (_plain("the water noted"), _plain("the water noted")),
    "enemy_seen": (_plain("the friends noted"), _plain("the friends noted")),
    "photo": (_plain("the picture"), _plain("a change of the picture")),
    "brought_in": (_named("brought in:", "what"), _named("brought in:", "what")),
    "near_report": (_plain("the disease reported near"), _plain("the disease reported near")),
    "weather_day": (_day("the weather"), _day("a change of the weather")),
    "weather_hour": (_plain("the hours of weather"), _plain("the hours of weather")),
    "planting": (_plain("a planting"), _plain("a change of a planting")),
    "bed": (_named("the bed", "name"), _named("a change of the bed", "name")),
    "trouble": (_named("the open problem", "title"), _named("a change of the open problem", "title")),
    "circumstance": (_plain("an answer about the planting"), _plain("an answer about the planting")),
    "walk": (_plain("the start of the walk"), _plain("the end of the walk")),
    "stop": (_plain("a stop of the walk"), _stop),
}
"""Kinds of rows, the one an act is named after first, with words for one added and one changed."""
