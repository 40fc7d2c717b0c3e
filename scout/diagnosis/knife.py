"""Before the knife: may leaves be stripped at this bed today, which ones, how many, and how."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from scout.knowledge.cause_file import Cause

A_WEEK_N = 3
"""Leaves a stem and week at most (common practice, extension sheets for home gardens)."""
LEAST_LEFT_N = 10
"""Leaves that must stay on a stem (common practice, no source)."""
IN_HEAT_N = 2
"""Leaves a stem at most before heat, and only low ones. Our choice."""
_NOT_BY_KNIFE = ("bacterial", "oomycete", "viral", "phytoplasma")


@dataclass(frozen=True)
class Stem:
    """One marked plant as it stands today; None: not counted."""

    label: str
    standing: int | None
    """Leaves standing now."""
    standing_before: int | None
    """Leaves that stood 14 days ago, or at the first count within that time."""
    taken_week: int
    """Leaves taken off in the last 7 days."""
    taken_fortnight: int
    highest_diseased: int | None
    stripped_to: int


@dataclass(frozen=True)
class Ground:
    """What is known at the bed; None: not known, so it is asked."""

    leaves_dry: bool | None
    heat_ahead: bool | None
    touch_contagious: bool | None
    causes: tuple[Cause, ...] = ()


@dataclass(frozen=True)
class Cut:
    """What may come off one stem."""

    label: str
    leaves_n: int
    which: str


@dataclass(frozen=True)
class Knife:
    """The answer for today, with its reasons."""

    answer: Literal["go", "wait", "dont"]
    reasons: tuple[str, ...]
    ask: tuple[str, ...]
    """What must be known first; while anything is asked the answer is never "go"."""
    cuts: tuple[Cut, ...]
    how: tuple[str, ...]
    """Clean blade, where the leaves go, mulch and stakes first."""


def before_the_knife(ground: Ground, stems: Sequence[Stem]) -> Knife:
    """Return whether to strip today. A refusal stands above a wait, a wait above a go."""
    never = _refusals(ground)
    if never:
        return Knife("dont", never, (), (), ())
    waits, ask = _waits(ground), _questions(ground, stems)
    cuts = tuple(cut for stem in stems if (cut := _cut(stem, ground.heat_ahead is True)) is not None)
    if not waits and not ask and not cuts:
        return Knife("dont", _nothing_to_cut(stems), (), (), ())
    if ground.leaves_dry is not True:
        cuts = ()
    if waits or ask:
        return Knife("wait", waits, ask, cuts if ground.heat_ahead is True else (), _HOW if cuts else ())
    return Knife("go", ("The leaves are dry, no heat is forecast, and the share rule leaves room.",), (), cuts, _HOW)


_HOW = (
    "Mulch and stakes come first: they save more than the knife.",
    "A dry morning with about three dry hours to follow.",
    "Clean the blade between beds, and between plants where a virus or bacteria could be; never mix cleaners.",
    "Snap or cut at the stem, leave no stub.",
    "Into a bag, never between the rows; bury them or compost them hot.",
    "No leaf that shades green fruit on the sun side.",
)


def _refusals(ground: Ground) -> tuple[str, ...]:
    found = []
    for cause in ground.causes:
        if cause.id == "late_blight":
            found.append("Late blight: do not strip; bag and take out whole plants, and tell local extension.")
        elif cause.kind in _NOT_BY_KNIFE:
            found.append(f"{cause.name}: stripping is not the measure here, and hands or a blade can carry it.")
    if ground.touch_contagious and not found:
        found.append("A virus or bacterial disease is not ruled out: a blade or hand would carry it.")
    return tuple(found)


def _waits(ground: Ground) -> tuple[str, ...]:
    found = []
    if ground.leaves_dry is False:
        found.append("The leaves are wet: look, do not touch. Come back when they feel dry.")
    if ground.heat_ahead is True:
        found.append(
            "Heat is forecast: bared fruit scalds. Only leaves that touch the soil or hang below the lowest green "
            "fruit, none on the sun side."
        )
    return tuple(found)


def _questions(ground: Ground, stems: Sequence[Stem]) -> tuple[str, ...]:
    found = []
    if ground.leaves_dry is None:
        found.append("Do the leaves feel dry?")
    if ground.heat_ahead is None:
        found.append("Is a day of 35 °C (95 °F) or more forecast until the day after tomorrow?")
    if not stems or any(stem.standing is None for stem in stems):
        found.append("How many leaves stand on each marked plant?")
    return tuple(found)


def leaves_allowed(stem: Stem) -> int | None:
    """Return how many leaves may still come off a stem today: the third, the week and the floor together."""
    if stem.standing is None:
        return None
    before = stem.standing_before if stem.standing_before is not None else stem.standing + stem.taken_fortnight
    third = before // 3 - stem.taken_fortnight
    return max(0, min(third, A_WEEK_N - stem.taken_week, stem.standing - LEAST_LEFT_N))


def _cut(stem: Stem, heat: bool) -> Cut | None:
    allowed = leaves_allowed(stem)
    spotted = 0 if stem.highest_diseased is None else max(0, stem.highest_diseased - stem.stripped_to)
    count = min(allowed or 0, spotted, IN_HEAT_N if heat else A_WEEK_N)
    if count == 0:
        return None
    low, high = stem.stripped_to + 1, stem.highest_diseased
    where = "touching soil or below the lowest green fruit" if heat else "touching soil first, then the most spotted"
    which = f"spotted leaf {low}" if low == high else f"spotted leaves between {low} and {high}"
    return Cut(stem.label, count, f"{which}, {where}")


def _nothing_to_cut(stems: Sequence[Stem]) -> tuple[str, ...]:
    spotted = [s for s in stems if s.highest_diseased is not None and s.highest_diseased > s.stripped_to]
    if not spotted:
        return ("No spotted leaf stands above the strip line on the marked plants.",)
    if any(s.standing is not None and s.standing <= LEAST_LEFT_N for s in spotted):
        return (f"Too few leaves: {LEAST_LEFT_N} must stay on a stem.",)
    return ("Enough leaves are off: at most a third of those standing 14 days ago, and 3 a stem and week.",)
