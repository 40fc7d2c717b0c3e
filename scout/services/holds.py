"""Do not eat, do not go in: what a label said, copied by the grower, until it ends."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING, Any, Literal

from scout.errors import BadInput, NotFound
from scout.plain import day_text
from scout.services.context import Context
from scout.services.garden import Planted, planted

if TYPE_CHECKING:
    from scout.store.jobs import HoldView

Phase = Literal["keep_out", "do_not_eat"]
MOST_D, MOST_H = 400, 2_000
COPY_IT = "Copy both from the label of what you used. If the label does not name this crop, it may not be used on it."
NOT_KNOWN = "until you know what its label says"
THROW_AWAY = "Pick and throw away, so that the plants go on bearing."


@dataclass(frozen=True)
class HoldLine:
    """One hold as it stands now."""

    id: str
    planting_id: str
    bed_ids: tuple[str, ...]
    place: str
    """Bed and crop."""
    what: str
    phase: Phase
    eat_from: str | None
    """Local wall time; None: the label's days are not known."""
    enter_from: str | None
    """Local wall time; None: no hours were given."""
    applied_at: str | None
    harvest_interval_d: int | None
    re_entry_h: int | None

    @property
    def lines(self) -> tuple[str, ...]:
        """Return what to know at the bed, the most urgent first."""
        until = f"until {moment_text(self.eat_from)}" if self.eat_from else NOT_KNOWN
        eat = f"Do not eat {until}: {self.what}."
        if self.phase == "keep_out":
            return (f"Do not go in, touch or pick until {moment_text(self.enter_from or '')}: {self.what}.", eat)
        return (eat, THROW_AWAY) if self.phase == "do_not_eat" else ()

    @property
    def short(self) -> str:
        """Return place and ends in one line, for a list."""
        eat = f"do not eat until {moment_text(self.eat_from)}" if self.eat_from else f"do not eat {NOT_KNOWN}"
        keep_out = f"keep out until {moment_text(self.enter_from or '')}, " if self.phase == "keep_out" else ""
        return f"{self.place}: {keep_out}{eat}"


def record_hold(
    context: Context,
    planting_id: str,
    what: str,
    applied_at: datetime | date,
    harvest_interval_d: int | None,
    re_entry_h: int | None,
) -> str:
    """Keep that a labelled product was used, with the intervals of its label; return the hold's id.

    `applied_at` is local wall time, or the day alone: then the intervals count from the end of that day. None for
    an interval is "not known": the hold stands until it is given. Errors: BadInput.
    """
    from scout.store.tables_follow import Hold

    _refuse_wrong(context, applied_at, harvest_interval_d, re_entry_h)
    timed = isinstance(applied_at, datetime)
    offset = _offset_min(context, applied_at)
    values = _ends(context, applied_at, harvest_interval_d, re_entry_h)
    with context.write() as tx:
        return tx.add(
            Hold,
            planting_id=planting_id,
            reason=what,
            applied_at=applied_at.strftime("%Y-%m-%dT%H:%M" if timed else "%Y-%m-%d"),
            applied_offset_min=offset,
            **values,
        )


def _offset_min(context: Context, applied_at: datetime | date) -> int | None:
    """Return how far the wall clock was ahead of UTC; None where only the day is known."""
    if not isinstance(applied_at, datetime):
        return None
    offset = applied_at.replace(tzinfo=context.here_and_now.tzinfo).utcoffset()
    return int(offset.total_seconds() // 60) if offset is not None else None


def give_label(context: Context, hold_id: str, harvest_interval_d: int | None, re_entry_h: int | None) -> None:
    """Give a hold the intervals of its label, or mend them; its ends are worked out anew."""
    from scout.store import jobs
    from scout.store.tables_follow import Hold

    with context.write() as tx:
        hold = jobs.hold(session=tx.session, hold_id=hold_id)
        if hold is None:
            raise NotFound("This hold was taken back.")
        if hold.applied_at is None:
            raise BadInput("This hold does not say when the product was used; enter it as a new one.")
        applied = _read(hold.applied_at)
        _refuse_wrong(context, applied, harvest_interval_d, re_entry_h)
        tx.update(Hold, hold_id, **_ends(context, applied, harvest_interval_d, re_entry_h))


def refuse_wrong_time(context: Context, applied: datetime | date) -> None:
    """Refuse a time of use that lies ahead, or too far back for any label."""
    day = applied.date() if isinstance(applied, datetime) else applied
    later = isinstance(applied, datetime) and applied > context.here_and_now.replace(tzinfo=None)
    if later or day > context.today:
        raise BadInput("The time it was used lies ahead; give the time at which you finished.")
    if (context.today - day).days > MOST_D:
        raise BadInput(f"{day.isoformat()} is more than {MOST_D} days ago; check the date.")


def _refuse_wrong(context: Context, applied: datetime | date, days: int | None, hours: int | None) -> None:
    refuse_wrong_time(context, applied)
    if days is not None and not 0 <= days <= MOST_D:
        raise BadInput(f"{days} days until harvest cannot be; a label gives 0 to {MOST_D}.")
    if hours is not None and not 0 <= hours <= MOST_H:
        raise BadInput(f"{hours} hours until going in cannot be; a label gives 0 to {MOST_H}.")


def _ends(context: Context, applied: datetime | date, days: int | None, hours: int | None) -> dict[str, Any]:
    """Return intervals and ends; where going in waits longer than harvest, harvest waits as long."""
    from scout.science.label_times import ends_by_the_clock

    zone = context.here_and_now.tzinfo
    assert zone is not None
    begun = (
        applied if isinstance(applied, datetime) else datetime.combine(applied + timedelta(days=1), datetime.min.time())
    )
    enter = ends_by_the_clock(begun, hours, zone) if hours is not None else None
    eat = ends_by_the_clock(begun, 24 * days, zone) if days is not None else None
    if eat is not None and enter is not None:
        eat = max(eat, enter)
    return {
        "harvest_interval_d": days,
        "re_entry_h": hours,
        "until_at": f"{eat:%Y-%m-%dT%H:%M}" if eat else None,
        "re_entry_until_at": f"{enter:%Y-%m-%dT%H:%M}" if enter else None,
    }


def standing(context: Context) -> tuple[HoldLine, ...]:
    """Return the holds that stand now, in walking order of their beds; those of pulled plantings too."""
    from scout.store import jobs

    at = context.moment()[0]
    with context.read() as session:
        found = jobs.holds(session=session, garden_id=str(context.garden_id), at=at)
    if not found:
        return ()
    lines = [
        _line([one for one in planted(context) if one.planting_id == hold.planting_id], hold, at) for hold in found
    ]
    position = {one.planting_id: one.position for one in planted(context)}
    return tuple(sorted(lines, key=lambda line: (position.get(line.planting_id, 10_000), line.eat_from or "9")))


def _line(places: list[Planted], hold: "HoldView", at: str) -> HoldLine:
    from scout.store.jobs import stands

    return HoldLine(
        id=hold.id,
        planting_id=hold.planting_id,
        bed_ids=tuple(one.bed_id for one in places),
        place=f"{', '.join(one.bed for one in places)} · {places[0].label}" if places else "a pulled planting",
        what=hold.reason,
        phase="keep_out" if stands(hold.re_entry_until_at, at) else "do_not_eat",
        eat_from=hold.until_at,
        enter_from=hold.re_entry_until_at,
        applied_at=hold.applied_at,
        harvest_interval_d=hold.harvest_interval_d,
        re_entry_h=hold.re_entry_h,
    )


def at_bed(context: Context, plant: Planted) -> tuple[str, ...]:
    """Return the warnings at a planting: its own holds, and keep-out times of what stands in the same bed."""
    lines: list[str] = []
    for hold in standing(context):
        if hold.planting_id == plant.planting_id:
            lines += hold.lines
        elif plant.bed_id in hold.bed_ids and hold.phase == "keep_out":
            lines.append(f"{hold.lines[0][:-1]} ({hold.place}).")
    return tuple(dict.fromkeys(lines))


def kept_out(context: Context, planting_id: str) -> str | None:
    """Return why nothing may be picked at a planting now, or None."""
    beds = {one.bed_id for one in planted(context) if one.planting_id == planting_id}
    return next(
        (hold.lines[0] for hold in standing(context) if hold.phase == "keep_out" and beds & set(hold.bed_ids)), None
    )


def moment_text(moment: str) -> str:
    """Return a stored moment as a grower says it."""
    day = date.fromisoformat(moment[:10])
    clock = f" {moment[11:]}" if len(moment) > 10 else ""
    return f"{day_text(day)}{clock}"


def read_applied(text: str, today: date) -> datetime | date:
    """Return when it was used: "18:30" today, "2026-07-03 18:30", or a day alone. Errors: BadInput."""
    from scout.intake.dates import read_date

    words = text.strip().replace("T", " ").split()
    clock = words[-1] if words and ":" in words[-1] else None
    day = read_date(" ".join(words[: -1 if clock else None])) if len(words) > bool(clock) else today
    if clock is None:
        return day
    try:
        return datetime.combine(day, datetime.strptime(clock, "%H:%M").time())
    except ValueError:
        raise BadInput(f"{clock!r} is no time of day; write it like 18:30.") from None


def _read(moment: str) -> datetime | date:
    return datetime.fromisoformat(moment) if len(moment) > 10 else date.fromisoformat(moment)
