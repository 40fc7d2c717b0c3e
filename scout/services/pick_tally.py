"""What the pick tally says: the share misshapen, and whether a planting is past its best."""

from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from typing import TYPE_CHECKING

from scout.services.context import Context
from scout.services.garden import Planted

if TYPE_CHECKING:
    from scout.store.records import PickView

BACK_D = 120
HALF = 0.5
"""Two picks in a row under half of the best: a planting past its best. Common practice, no source."""
_SHORTEST_D = 1


@dataclass(frozen=True)
class PickRow:
    """One day's pick."""

    on: date
    sound_n: int
    odd_n: int
    a_week: float | None
    """Sound pieces for each plant and week since the pick before; None for the first pick."""

    @property
    def picked_n(self) -> int:
        """Return all pieces."""
        return self.sound_n + self.odd_n


@dataclass(frozen=True)
class PickTally:
    """The picks of one planting, oldest first, and what they add up to."""

    rows: tuple[PickRow, ...]
    odd_share: tuple[int, int, float, float] | None
    """Odd, all picked, and 95 % limits of the share, of the last two picks; None without a pick."""
    best_a_week: float | None
    under_half: bool
    """True: the last two picks both gave under half of the best one."""
    lines: tuple[str, ...]


def pick_tally(context: Context, plant: Planted) -> PickTally:
    """Return the picks of a planting with the share misshapen and the two-picks-under-half rule."""
    from scout.store import records

    today = context.today
    since = (today - timedelta(days=BACK_D)).isoformat()
    with context.read() as session:
        found = records.picks(session=session, garden_id=str(context.garden_id), since=since, until=today.isoformat())
    rows = pick_rows([one for one in found if one.planting_id == plant.planting_id], plant.plants_n)
    return tally_of(rows)


def pick_rows(picks: "list[PickView]", plants_n: int | None) -> tuple[PickRow, ...]:
    """Return one row a day; the weekly rate is for each plant, or for the planting where plants were never counted."""
    by_day: dict[date, list[int]] = {}
    for one in picks:
        day = by_day.setdefault(date.fromisoformat(one.observed_at[:10]), [0, 0])
        day[0] += one.sound_n
        day[1] += one.odd_n
    days = sorted(by_day)
    rates: list[float | None] = [None] if days else []
    for before, on in pairwise(days):
        gap = max(_SHORTEST_D, (on - before).days)
        rates.append(7.0 * by_day[on][0] / gap / (plants_n or 1))
    return tuple(PickRow(on, by_day[on][0], by_day[on][1], rate) for on, rate in zip(days, rates, strict=True))


def tally_of(rows: tuple[PickRow, ...]) -> PickTally:
    """Return what picks add up to: the share misshapen of the last two, whether both gave under half of the best."""
    rates = [row.a_week for row in rows if row.a_week is not None]
    best = max(rates, default=None)
    under = len(rates) >= 3 and best is not None and all(rate < HALF * best for rate in rates[-2:])
    share = _odd_share(rows[-2:])
    return PickTally(rows, share, best, under, tuple(_lines(rows, share, rates, under)))


def _odd_share(rows: tuple[PickRow, ...]) -> tuple[int, int, float, float] | None:
    from scout.science.sampling import wilson_interval

    odd, of = sum(row.odd_n for row in rows), sum(row.picked_n for row in rows)
    return (odd, of, *wilson_interval(odd, of)) if of else None


def _lines(
    rows: tuple[PickRow, ...], share: tuple[int, int, float, float] | None, rates: list[float], under: bool
) -> list[str]:
    if share is None:
        return ["Nothing picked yet."]
    odd, of, low, high = share
    last = "last two picks" if len(rows) > 1 else "last pick"
    lines = [f"Odd: {odd} of {of} in the {last}, {100 * odd / of:.0f} % ({100 * low:.0f}-{100 * high:.0f} %)."]
    if under:
        lines.append(f"Two picks running gave under half of the best ({rates[-2]:.1f} and {rates[-1]:.1f} a week,")
        lines[-1] += f" best {max(rates):.1f}): past its best, or a gap after heat. Look at the flowers first."
    return lines
