"""What is given at a stop, each answer kept at once: looks, findings, counts, notes, picks, water, friends."""

from typing import TYPE_CHECKING, Any

from scout.errors import BadInput, NotFound, Refused
from scout.services.context import Context
from scout.services.garden import planted_as
from scout.services.views import FindingView

if TYPE_CHECKING:
    from scout.store.asking import Door
    from scout.store.findings import FindingView as StoredFinding
    from scout.store.history import Transaction
    from scout.store.walks import StopView as StoredStop

WATERINGS = (
    ("watered", "Watered as planned"),
    ("missed", "Water was missed"),
    ("timer_failed", "The timer failed"),
)


def stop_of(door: "Door", stop_id: str) -> "StoredStop":
    """Return a stop; NotFound when it was taken back."""
    from scout.store import walks

    stop = walks.stop(session=door, stop_id=stop_id)
    if stop is None:
        raise NotFound("This stop does not exist any more.")
    return stop


def open_stop(context: Context, tx: "Transaction", stop_id: str) -> "StoredStop":
    """Note when a stop was first answered, and return the stop; NotFound when it was taken back."""
    from scout.store.tables_walk import Stop

    stop = stop_of(tx.session, stop_id)
    if stop.opened_at is None:
        tx.update(Stop, stop_id, opened_at=context.moment()[0])
    return stop


def answer_look(context: Context, stop_id: str, look_id: str, answer: str, looked_n: int | None) -> None:
    """Keep what one look gave: clear, seen or skip."""
    from scout.store.tables_walk import LookAnswer

    with context.write() as tx:
        open_stop(context, tx, stop_id)
        tx.add(LookAnswer, stop_id=stop_id, look_id=look_id, answer=answer, looked_n=looked_n)


def add_finding(
    context: Context,
    stop_id: str,
    symptom: str,
    manner: str,
    *,
    state: str = "seen",
    looked_n: int | None = None,
    place: str | None = None,
) -> str:
    """Keep that a symptom was seen (or looked for and not seen) at a stop; return the finding's id."""
    from scout.store.tables_walk import Finding

    known = context.knowledge.symptom(symptom)
    at, offset = context.moment()
    with context.write() as tx:
        stop = open_stop(context, tx, stop_id)
        return tx.add(
            Finding,
            stop_id=stop_id,
            planting_id=stop.planting_id,
            bed_id=stop.bed_id,
            symptom=known.id,
            state=state,
            looked_n=looked_n,
            place=place,
            manner=manner,
            observed_at=at,
            observed_offset_min=offset,
        )


def tell_at(context: Context, stop_id: str, circumstance: str, value: bool) -> None:
    """Keep an answer about how the trouble lies in the bed, or how it is grown, at a stop."""
    from scout.services.garden import set_circumstance

    with context.write() as tx:
        stop = open_stop(context, tx, stop_id)
        set_circumstance(context, stop.planting_id, circumstance, value)


def set_counts(context: Context, finding_id: str, looked_n: int | None, affected_n: int | None) -> None:
    """Keep on how many of how many plants it was."""
    if looked_n is not None and affected_n is not None and affected_n > looked_n:
        raise BadInput(f"{affected_n} affected of {looked_n} looked at cannot be; say how many were looked at.")
    _set(context, finding_id, looked_n=looked_n, affected_n=affected_n)


def set_severity(
    context: Context, finding_id: str, outer_pct: float | None, middle_pct: float | None, inner_pct: float | None
) -> None:
    """Keep the share of leaf area with symptoms by canopy third, 0-100 %."""
    _set(
        context,
        finding_id,
        severity_outer_pct=outer_pct,
        severity_middle_pct=middle_pct,
        severity_inner_pct=inner_pct,
    )


def set_which(context: Context, finding_id: str, which: str) -> None:
    """Keep which plants it was on, in the grower's words."""
    _set(context, finding_id, which_plants=which)


def _set(context: Context, finding_id: str, **values: Any) -> None:
    from scout.store.tables_walk import Finding

    with context.write() as tx:
        tx.update(Finding, finding_id, **values)


def note(context: Context, stop_id: str, text: str) -> None:
    """Keep a line to read at the next visit."""
    from scout.store.tables_walk import Stop

    with context.write() as tx:
        tx.update(Stop, stop_id, note=text)


def tally(context: Context, stop_id: str, *, sound: int = 0, odd: int = 0) -> None:
    """Add pieces to today's pick of the stop's planting; refused while nobody may go in."""
    from scout.services.holds import kept_out
    from scout.store import records
    from scout.store.tables_log import Pick

    at, offset = context.moment()
    day = context.today.isoformat()
    with context.write() as tx:
        stop = stop_of(tx.session, stop_id)
        if why := kept_out(context, stop.planting_id):
            raise Refused(why)
        about = {"garden_id": str(context.garden_id), "planting_id": stop.planting_id}
        mine = next(iter(records.picks(session=tx.session, **about, since=day, until=day)), None)
        if mine is not None:
            tx.update(Pick, mine.id, sound_n=mine.sound_n + sound, odd_n=mine.odd_n + odd)
        else:
            tx.add(
                Pick,
                planting_id=stop.planting_id,
                sound_n=sound,
                odd_n=odd,
                observed_at=at,
                observed_offset_min=offset,
            )


def log_watering(context: Context, stop_id: str, outcome: str) -> None:
    """Keep what happened to the water of the stop's zone, or of its bed where it has no zone."""
    from scout.store import beds
    from scout.store.tables_log import Watering

    at, offset = context.moment()
    with context.write() as tx:
        bed_id = stop_of(tx.session, stop_id).bed_id
        bed = beds.bed(session=tx.session, bed_id=bed_id)
        zone = bed.water_zone if bed is not None else None
        tx.add(
            Watering,
            water_zone=zone,
            bed_id=None if zone else bed_id,
            outcome=outcome,
            observed_at=at,
            observed_offset_min=offset,
        )


def enemies(context: Context) -> tuple[tuple[str, str], ...]:
    """Return the natural enemies that can be logged: id and name."""
    return tuple((enemy.id, enemy.name) for enemy in context.knowledge.enemies.values())


def log_enemy(context: Context, stop_id: str, enemy: str) -> None:
    """Keep that a natural enemy was seen at a stop."""
    from scout.store.tables_log import EnemySeen

    at, offset = context.moment()
    with context.write() as tx:
        stop = stop_of(tx.session, stop_id)
        tx.add(EnemySeen, planting_id=stop.planting_id, enemy=enemy, observed_at=at, observed_offset_min=offset)


def findings_of(context: Context, stop_id: str) -> tuple[FindingView, ...]:
    """Return the findings of a stop, oldest first."""
    from scout.store import findings

    with context.read() as session:
        return tuple(finding_view(context, f) for f in findings.findings_of_stop(session=session, stop_id=stop_id))


def finding(context: Context, finding_id: str) -> FindingView:
    """Return one finding; NotFound when it was taken back."""
    from scout.store import findings

    with context.read() as session:
        found = findings.finding(session=session, finding_id=finding_id)
    if found is None:
        raise NotFound("This finding was taken back.")
    return finding_view(context, found)


def finding_view(context: Context, found: "StoredFinding") -> FindingView:
    """Return a stored finding as it is shown; a symptom of newer knowledge by its id."""
    symptom = context.knowledge.symptoms.get(found.symptom)
    return FindingView(
        id=found.id,
        symptom=found.symptom,
        name=symptom.name if symptom else found.symptom,
        seen=found.state == "seen",
        looked_n=found.looked_n,
        affected_n=found.affected_n,
        severity_pct=(found.severity_outer_pct, found.severity_middle_pct, found.severity_inner_pct),
        which_plants=found.which_plants,
        note=found.note,
    )


def wants_severity(context: Context, finding_id: str) -> bool:
    """Return True for marks on leaves, whose share of the leaf area is worth judging."""
    symptom = finding(context, finding_id).symptom
    words = ("spot", "specks", "patch", "powder", "blotch", "halo", "rust", "rings", "fuzz", "stipple", "mines")
    return symptom.startswith("leaf.") and any(word in symptom for word in words)


def thirds_of(context: Context, finding_id: str) -> tuple[str, str, str]:
    """Return how the canopy is cut for judging: leaf and root crops from outside in, others from below."""
    from scout.store import findings

    with context.read() as session:
        found = findings.finding(session=session, finding_id=finding_id)
    plant = planted_as(context, found.planting_id) if found else None
    if plant is not None and plant.crop.rosette:
        return ("Outer", "Middle", "Heart")
    return ("Lowest", "Middle", "Top")
