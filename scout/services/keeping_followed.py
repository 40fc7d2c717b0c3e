"""What is known of one planting's marked plants before any verdict: counts, diseases, how they grow."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING, Literal

from scout.knowledge.cause_file import Cause
from scout.services.marked import MeasuredRow

if TYPE_CHECKING:
    from scout.knowledge.base import Knowledge
    from scout.science.keeping_up import Plant

Habit = Literal["indeterminate", "determinate", "topped"]
_NO_MEASURE = ("bacterial", "oomycete", "viral", "phytoplasma")
_NO_MEASURE_WORDS = ("late blight", "downy", "bacteri", "virus", "mosaic")


@dataclass(frozen=True)
class Fruit:
    """The lowest unripe fruit of plants that grow no further: the leaf it hangs at, and when it will be ripe."""

    leaf: int
    ripe_on: date


@dataclass(frozen=True)
class Followed:
    """What is known of one planting's marked plants; rows in order of day, unstripped plants left out."""

    planting: str | None
    rows: tuple[MeasuredRow, ...]
    causes: tuple[Cause, ...] = ()
    unknown_diseases: tuple[str, ...] = ()
    """Named in a file, and not known here."""
    habit: Habit = "indeterminate"
    fruit: Fruit | None = None
    wet: str = ""
    """Wetness beside the counts, as a sentence."""
    unstripped: tuple[MeasuredRow, ...] = ()
    """Plants left unstripped to compare; no part of the verdict."""
    warmth: Mapping[date, float] = field(default_factory=dict)
    """Mean temperature of each day that was recorded, °C."""


def diseases_named(knowledge: "Knowledge", words: Sequence[str]) -> tuple[tuple[Cause, ...], tuple[str, ...]]:
    """Return the causes meant by ids, names or aliases, and the words that are none of these."""
    known: Mapping[str, Cause] = {
        _plain(name): cause for cause in knowledge.causes.values() for name in (cause.id, cause.name, *cause.aliases)
    }
    keys = dict.fromkeys(word.strip() for word in words)
    found = {cause.id: cause for key in keys if (cause := known.get(_plain(key))) is not None}
    return tuple(found.values()), tuple(key.replace("_", " ") for key in keys if _plain(key) not in known)


def _plain(name: str) -> str:
    return name.casefold().replace("_", " ")


def refusals_for(followed: Followed) -> tuple[str, ...]:
    """Return why no verdict is given: diseases for which stripping is not the measure."""
    names = [cause.name for cause in followed.causes if cause.kind in _NO_MEASURE]
    names += [word for word in followed.unknown_diseases if any(part in word.casefold() for part in _NO_MEASURE_WORDS)]
    return tuple(f"{name}: stripping is not the measure here, so there is no verdict." for name in names)


def plants_of(rows: Sequence[MeasuredRow], first: date) -> "list[Plant]":
    """Return the rows a plant at a time, with days counted from the first."""
    from scout.science.keeping_up import Visit

    plants: dict[str, dict[float, Visit]] = {}
    for row in sorted(rows, key=lambda one: one.on):
        day = float((date.fromisoformat(row.on) - first).days)
        spotted, strip = _at_most(row.highest_diseased, row.top_leaf), _at_most(row.stripped_to, row.top_leaf)
        plants.setdefault(row.label, {})[day] = Visit(
            day, row.top_leaf, spotted, strip, row.newly_diseased, row.leaves_standing
        )
    return [list(visits.values()) for visits in plants.values()]


def _at_most(leaf: int | None, top: int | None) -> int | None:
    """Return a leaf that was kept as typed above the top as the top itself: spotted or stripped to the tip."""
    return leaf if leaf is None or top is None else min(leaf, top)
