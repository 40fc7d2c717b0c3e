"""Advice before the knife for one planting: what was felt today, what is forecast, what the marked plants can spare."""

from collections.abc import Sequence
from dataclasses import asdict
from datetime import date, timedelta
from typing import Any

from scout.diagnosis.knife import Ground, Knife, Stem, before_the_knife
from scout.services.context import Context
from scout.services.garden import Planted
from scout.services.marked import MeasuredRow, marked_plants, marked_table

_HEADS = {"go": "Strip today: yes.", "wait": "Strip today: wait.", "dont": "Strip today: no."}


def knife_today(context: Context, plant: Planted) -> Knife:
    """Return whether to strip at a planting today, which leaves and how many."""
    from scout.services.evidence import bedside_for, evidence_for
    from scout.services.troubles import open_causes

    bedside = bedside_for(context, plant, evidence_for(context, plant))
    ground = Ground(
        bedside.leaves_dry, bedside.heat_ahead, bedside.touch_contagious, open_causes(context, plant.planting_id)
    )
    stripped = {mark.label for mark in marked_plants(context, plant.planting_id) if not mark.control}
    rows = [row for row in marked_table(context, plant.planting_id).rows if row.label in stripped]
    return before_the_knife(ground, stems_of(rows, context.today))


def stems_of(rows: Sequence[MeasuredRow], today: date) -> tuple[Stem, ...]:
    """Return each marked plant as it stands, with the leaves it lost in the last week and fortnight."""
    by_plant: dict[str, list[MeasuredRow]] = {}
    for row in sorted(rows, key=lambda one: one.on):
        by_plant.setdefault(row.label, []).append(row)
    return tuple(_stem(label, visits, today) for label, visits in by_plant.items())


def _stem(label: str, visits: Sequence[MeasuredRow], today: date) -> Stem:
    week, fortnight = ((today - timedelta(days=days)).isoformat() for days in (7, 14))
    counted = [row for row in visits if row.leaves_standing is not None]
    spotted = [row.highest_diseased for row in visits if row.highest_diseased is not None]
    return Stem(
        label,
        counted[-1].leaves_standing if counted else None,
        _stood(counted, fortnight),
        _taken(visits, week),
        _taken(visits, fortnight),
        spotted[-1] if spotted else None,
        max((row.stripped_to or 0 for row in visits), default=0),
    )


def _stood(counted: Sequence[MeasuredRow], fortnight: str) -> int | None:
    """Return the leaves of the last count 14 days ago or before; None where the counts do not reach back."""
    older = [row.leaves_standing for row in counted if row.on <= fortnight]
    return older[-1] if older else None


def _taken(visits: Sequence[MeasuredRow], since: str) -> int:
    """Return how far the strip line rose since a day: at most so many leaves went."""
    taken, line = 0, 0
    for row in visits:
        if row.stripped_to is not None and row.stripped_to > line:
            taken += row.stripped_to - line if row.on > since else 0
            line = row.stripped_to
    return taken


def knife_lines(knife: Knife) -> list[str]:
    """Return the advice as a grower reads it."""
    lines = [_HEADS[knife.answer], *knife.reasons, *knife.ask]
    for cut in knife.cuts:
        leaves = "1 leaf" if cut.leaves_n == 1 else f"{cut.leaves_n} leaves"
        lines.append(f"{cut.label}: at most {leaves}: {cut.which}.")
    return [*lines, *knife.how]


def knife_short(knife: Knife) -> tuple[str, str]:
    """Return the answer for today, and in one sentence what it rests on: the first reason, question or cut."""
    return _HEADS[knife.answer], (*knife.reasons[:1], *knife.ask, *knife.reasons)[0]


def knife_json(knife: Knife) -> dict[str, Any]:
    """Return the advice for a script."""
    return asdict(knife)
