"""Gaps in picking that are coming, in words: the flowers failed weeks ago, and nothing done today made them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from scout.diagnosis.evidence import Day
from scout.plain import day_text
from scout.services.backdating import run_text
from scout.services.context import Context
from scout.services.garden import Planted, planted
from scout.services.site import site_of

if TYPE_CHECKING:
    from scout.diagnosis.gaps import Gap
    from scout.knowledge.crop_file import Crop

BACK_D = 100
"""Days looked back over: the longest way from a failed flower to the gap."""
SHOWN = 1
"""Gaps named on the first screen."""
BEARING = ("flowering", "fruiting")


@dataclass(frozen=True)
class GapView:
    """One gap ahead."""

    crop: str
    crop_id: str
    hot_from: str
    hot_until: str
    over: bool
    gap_from: str
    gap_until: str | None
    """None: the heat is not over."""
    give_or_take_d: int
    sets_from: str | None
    sets_by: str | None
    fruit_from: str | None
    when: str
    """The gap in a few words: 14-28 August, or from 14 August."""
    lines: tuple[str, ...]


def gaps_ahead(context: Context, plants: Iterable[Planted] | None = None) -> tuple[GapView, ...]:
    """Return the gaps ahead for every crop that stood in flower during the heat, soonest first."""
    from scout.diagnosis.gaps import gaps

    today = context.today
    crops: dict[str, list[Planted]] = {}
    for plant in plants if plants is not None else planted(context):
        if plant.crop.fruit_set is not None and plant.crop.flower_to_pick_d is not None:
            crops.setdefault(plant.crop.id, []).append(plant)
    if not crops:
        return ()
    days = _highs_and_lows(context, today - timedelta(days=BACK_D), today)
    units = site_of(context).units
    found = [
        gap
        for standing in crops.values()
        for gap in gaps(standing[0].crop, today, days)
        if any(plant.stage_by_age(gap.spell.last) in BEARING for plant in standing)
    ]
    return tuple(_view(gap, units) for gap in sorted(found, key=lambda gap: (gap.picking.first, gap.crop.id)))


def gap_line(context: Context) -> str | None:
    """Return the soonest gaps in one line for the first screen; None where none is ahead."""
    found = gaps_ahead(context)
    if not found:
        return None
    shown = "; ".join(f"{view.crop.lower()} {view.when}" for view in found[:SHOWN])
    more = f"; {len(found) - SHOWN} more" if len(found) > SHOWN else ""
    return f"Gaps after the heat: {shown}{more} (g)."


def _highs_and_lows(context: Context, first: date, last: date) -> tuple[Day, ...]:
    """Return the days with high and low, from daily records where they reach; adding up hours takes longer."""
    from scout.services.weather import days_between
    from scout.store import weather

    garden = str(context.garden_id)
    with context.read() as session:
        rows = weather.days(
            session=session, garden_id=garden, since=first.isoformat(), until=last.isoformat(), kind="observed"
        )
    told: dict[str, Day] = {}
    for row in rows:
        if row.tmax_c is not None and row.tmin_c is not None:
            told.setdefault(row.on, Day(date.fromisoformat(row.on), row.tmax_c, row.tmin_c))
    if len(told) * 2 < (last - first).days:
        return days_between(context, first, last)
    return tuple(told[on] for on in sorted(told))


def _view(gap: "Gap", units: str) -> GapView:
    over = gap.over
    return GapView(
        crop=gap.crop.name,
        crop_id=gap.crop.id,
        hot_from=gap.spell.first.isoformat(),
        hot_until=gap.spell.last.isoformat(),
        over=over,
        gap_from=gap.picking.first.isoformat(),
        gap_until=gap.picking.last.isoformat() if over else None,
        give_or_take_d=gap.give_or_take_d,
        sets_from=gap.sets_again.first.isoformat() if over else None,
        sets_by=gap.sets_again.last.isoformat() if over else None,
        fruit_from=gap.fruit_again.isoformat() if over else None,
        when=run_text(*gap.picking) if over else f"from {day_text(gap.picking.first)}",
        lines=tuple(_lines(gap, units)),
    )


def _lines(gap: "Gap", units: str) -> list[str]:
    name = gap.crop.name.lower()
    doing = "ripening" if _picked_ripe(gap.crop) else "picking"
    about = f", give or take {gap.give_or_take_d} days" if gap.give_or_take_d > 1 else ""
    if not gap.over:
        since = day_text(gap.spell.first)
        return [
            f"Too hot for {name} flowers since {since}: expect a gap in {doing} from about "
            f"{day_text(gap.picking.first)} on{about}.",
            f"Flowers set again {_again(gap.crop)} days after it is cooler: {_limits(gap.crop, units)}.",
            "Water, shade and patience; nothing else helps.",
        ]
    return [
        f"Expect a gap in {name} {doing} {run_text(gap.picking.first, gap.picking.last)}{about}: flowers failed in the "
        f"heat of {run_text(gap.spell.first, gap.spell.last)}, nothing you did.",
        f"Flowers set as usual again about {run_text(gap.sets_again.first, gap.sets_again.last)}; their fruit comes "
        f"from {day_text(gap.fruit_again)} on.",
    ]


def _picked_ripe(crop: "Crop") -> bool:
    sizes = crop.growth.sizes if crop.growth else ()
    return any(one.size == "fruit_ripe" and one.age_d == crop.flower_to_pick_d for one in sizes)


def _limits(crop: "Crop", units: str) -> str:
    from scout.services.weather import temperature_text

    limits = crop.fruit_set
    assert limits is not None
    parts = []
    if limits.day_max_c is not None:
        parts.append(f"days under {temperature_text(limits.day_max_c, units)}")
    if limits.night_max_c is not None:
        parts.append(f"nights under {temperature_text(limits.night_max_c, units)}")
    return ", ".join(parts)


def _again(crop: "Crop") -> str:
    least, most = (crop.growth.recovers_d if crop.growth else None) or (5.0, 10.0)
    return f"{least:.0f}-{most:.0f}"
