"""Pests counted against the mark of an extension guide: over, under, or look at more plants."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from scout.errors import BadInput, NotFound
from scout.knowledge.control_file import ActionMark
from scout.services.context import Context
from scout.services.counting import Count
from scout.services.garden import Planted
from scout.services.wording import source_text

if TYPE_CHECKING:
    from scout.science.sequential import StopLines

RISK_FRAC = 0.10
"""Chance of a wrong "over" at half the mark, and of a wrong "under" at the mark. Our choice."""
FROM_FIELDS = "The mark comes from sprayed field crops. In a garden it means: this is not nothing."
WAIT = "Wait one visit and count again, unless plants die or the pest brings a virus."
Side = Literal["over", "under", "look_on", "close"]


@dataclass(frozen=True)
class AgainstMark:
    """One count held against its mark."""

    id: str
    what: str
    unit: str
    way: str
    mark: float
    found_n: int
    looked_n: int
    rate: float
    """For each one looked at: a number, or a share."""
    low: float
    high: float
    """95 % limits of what the planting holds."""
    side: Side
    """close: every plant was counted or no number of plants would part it from the mark."""
    more_n: int | None
    """How many more to look at, if they carry as many; None where that is not the question."""
    lines: tuple[str, ...]
    source: str


def marks_for(context: Context, plant: Planted) -> tuple[ActionMark, ...]:
    """Return the marks printed for a planting's crop at its stage; without a stage, all of its crop."""
    return tuple(
        mark
        for mark in context.knowledge.action_marks.values()
        if plant.crop.id in mark.crops and (not mark.stages or plant.stage is None or plant.stage in mark.stages)
    )


def mark_named(context: Context, plant: Planted, words: str) -> ActionMark:
    """Return the mark by its id or by what it counts. Errors: NotFound listing those of the planting."""
    key = words.strip().casefold()
    here = marks_for(context, plant)
    found = next((mark for mark in here if key in (mark.id, mark.what.casefold())), None)
    if found is None:
        known = ", ".join(mark.id for mark in here) or "none"
        raise NotFound(f"There is no mark {words!r} for {plant.label} at this stage; there are: {known}.")
    return found


def keep_pest_count(context: Context, plant: Planted, mark: ActionMark, count: Count) -> AgainstMark:
    """Keep a count and return how it stands to its mark. Errors: BadInput."""
    import json

    from scout.store.tables_follow import Counted

    answer = against_mark(context, plant, mark, count)
    at, offset = context.moment()
    with context.write() as tx:
        tx.add(
            Counted,
            planting_id=plant.planting_id,
            what=mark.what,
            mark=mark.id,
            way=mark.way,
            unit=mark.unit,
            phase="alone",
            counted_n=count.found_n,
            looked_n=count.looked_n,
            each=json.dumps(list(count.each)) if count.each is not None else None,
            observed_at=at,
            observed_offset_min=offset,
        )
    return answer


def against_mark(context: Context, plant: Planted, mark: ActionMark, count: Count) -> AgainstMark:
    """Return how a count stands to its mark, with limits and with how many more to look at. Errors: BadInput."""
    if mark.way == "share" and count.found_n > count.looked_n:
        raise BadInput(f"{count.found_n} of {count.looked_n} {mark.unit} cannot be; say how many were looked at.")
    low, high = _limits(mark, count)
    left = plant.plants_n - count.looked_n if mark.unit == "plants" and plant.plants_n is not None else None
    side, more = _side(mark, count, left)
    found = AgainstMark(
        id=mark.id,
        what=mark.what,
        unit=mark.unit,
        way=mark.way,
        mark=mark.mark,
        found_n=count.found_n,
        looked_n=count.looked_n,
        rate=count.found_n / count.looked_n,
        low=low,
        high=high,
        side=side,
        more_n=more,
        lines=(),
        source=source_text(context.knowledge, mark.source),
    )
    return _with_lines(found, mark, left)


def _limits(mark: ActionMark, count: Count) -> tuple[float, float]:
    from scout.science.counts import poisson_interval
    from scout.science.sampling import wilson_interval

    if mark.way == "share":
        return wilson_interval(count.found_n, count.looked_n)
    low, high = poisson_interval(count.found_n)
    return low / count.looked_n, high / count.looked_n


def _lines_of(mark: ActionMark) -> "StopLines":
    from scout.science.sequential import wald_lines_for_numbers, wald_lines_for_shares

    make = wald_lines_for_shares if mark.way == "share" else wald_lines_for_numbers
    return make(mark.mark / 2.0, mark.mark, RISK_FRAC, RISK_FRAC)


def _side(mark: ActionMark, count: Count, left: int | None) -> tuple[Side, int | None]:
    """Return the side and how many more to look at; where every plant was counted, the count is the truth."""
    if left is not None and left <= 0:
        return ("over" if count.found_n / count.looked_n >= mark.mark else "under"), None
    lines = _lines_of(mark)
    side = lines.side(count.found_n, count.looked_n)
    if side != "look_on":
        return ("over" if side == "at_or_above" else "under"), None
    more = lines.more_to_look_at(count.found_n, count.looked_n)
    if left is not None:
        more = left if more is None else min(more, left)
    return ("close", None) if more is None else ("look_on", more)


def _with_lines(found: AgainstMark, mark: ActionMark, left: int | None) -> AgainstMark:
    from dataclasses import replace

    lines = [f"{_amount(found)}; the mark is {_mark_words(mark)}.", *_told(found, left)]
    if found.side in ("over", "look_on", "close"):
        lines.append(FROM_FIELDS)
    if found.side == "over":
        lines.append(WAIT)
    lines += [mark.note] if mark.note else []
    if found.found_n > 3 and found.way == "number" and found.side != "under":
        lines.append("They sit in clumps: one crowded plant can make the count.")
    return replace(found, lines=(*lines, f"Mark from: {found.source}."))


def _amount(found: AgainstMark) -> str:
    if found.way == "share":
        share, low, high = (f"{100 * value:.0f}" for value in (found.rate, found.low, found.high))
        return f"{found.found_n} of {found.looked_n} {found.unit}: {share} % ({low}-{high} %)"
    return f"{found.found_n} on {found.looked_n} {found.unit}: {found.rate:.2g} each ({found.low:.2g}-{found.high:.2g})"


def _mark_words(mark: ActionMark) -> str:
    return f"{100 * mark.mark:.0f} %" if mark.way == "share" else f"{mark.mark:.2g} each"


def _told(found: AgainstMark, left: int | None) -> list[str]:
    whole = left is not None and left <= 0
    if found.side == "over":
        return ["At the mark or over it." + (" Every plant was looked at." if whole else "")]
    if found.side == "under":
        return ["Under the mark." + (" Every plant was looked at." if whole else "")]
    if found.side == "close":
        return ["Too near the mark to tell by more plants; count again at the next visit."]
    rest = " (all that are left)" if left is not None and found.more_n == left else ""
    return [f"Not sure yet: look at {found.more_n} more {found.unit}{rest}."]
